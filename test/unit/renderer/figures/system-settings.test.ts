import { describe, expect, it } from 'vitest';
import { systemSettings } from '../../../../renderer/figures/system-settings';

describe('systemSettings', () => {
  it.each([
    ['en-US', { units: 'imperial', clock: '12h', dates: 'mdy' }],
    ['en', { units: 'imperial', clock: '12h', dates: 'mdy' }],
    ['es-PR', { units: 'imperial', clock: '12h', dates: 'mdy' }],
    ['en-GB', { units: 'metric', clock: '24h', dates: 'dmy' }],
    ['de-DE', { units: 'metric', clock: '24h', dates: 'dmy' }],
    ['de', { units: 'metric', clock: '24h', dates: 'dmy' }],
    ['en-AU', { units: 'metric', clock: '12h', dates: 'dmy' }],
    ['en-CA', { units: 'metric', clock: '12h', dates: 'ymd' }],
    ['sv-SE', { units: 'metric', clock: '24h', dates: 'ymd' }],
    ['ja-JP', { units: 'metric', clock: '24h', dates: 'ymd' }],
  ])('is that of %s', (locale, settings) => {
    expect(systemSettings(locale)).toEqual(settings);
  });
});
