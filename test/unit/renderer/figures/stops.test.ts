import { describe, expect, it } from 'vitest';
import { stopsText } from '../../../../renderer/figures/stops';

describe('stopsText', () => {
  const stops = [18, 15, 12].map((depthM) => ({ depthM, min: 2 }));

  it('tells depths in feet to the deeper side, as cautions and slates do', () => {
    expect(stopsText(stops, 'imperial')).toBe('stops 2 min at 60 ft, 2 min at 50 ft, 2 min at 40 ft');
  });

  it('tells whole metres as they are, and what none or no ascent means', () => {
    expect(stopsText(stops, 'metric')).toBe('stops 2 min at 18 m, 2 min at 15 m, 2 min at 12 m');
    expect(stopsText([], 'metric')).toBe('');
    expect(stopsText(null, 'metric')).toBe('no ascent on this gas is found');
  });
});
