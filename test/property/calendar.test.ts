/** Wall-clock text against the calendar package's own. */
import * as fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { wallMin, wallText } from '../../core/words/calendar';

const EPOCH = Temporal.PlainDateTime.from('1970-01-01T00:00');
/** 1900 to 2200. */
const minutes = fc.integer({ min: -70 * 525_960, max: 230 * 525_960 });

describe('wallText', () => {
  it('writes what the calendar package writes, and is read back', () => {
    fc.assert(
      fc.property(minutes, (min) => {
        const text = EPOCH.add({ minutes: min }).toString({ smallestUnit: 'minute' });
        expect(wallText(min)).toBe(text);
        expect(wallMin(text)).toBe(min);
      }),
    );
  });

  it('rounds up to the whole minute, over midnight too', () => {
    fc.assert(
      fc.property(minutes, fc.double({ min: 0.001, max: 0.999, noNaN: true }), (min, part) => {
        expect(wallText(min - part)).toBe(wallText(min));
      }),
    );
  });
});
