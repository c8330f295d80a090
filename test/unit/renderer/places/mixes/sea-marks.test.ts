import { describe, expect, it } from 'vitest';
import { marksWithRoom, type SeaMark } from '../../../../../renderer/places/mixes/sea-marks';

const mark = (min: number | null, depthM: number, isUsed = false): SeaMark => ({
  siteAt: 0,
  mixAt: 0,
  min,
  depthM,
  isUsed,
});

/** Ten pixels a minute, and a metre. */
const SCALE = { xPx: (min: number | null) => 10 * (min ?? 0), yPx: (depthM: number) => 10 * depthM };

describe('minutes beside the marks of the sites', () => {
  it('stand where they cover no others; of two it is the mix in use, and the shorter', () => {
    const [longer, shorter, other] = [mark(89, 16, true), mark(86, 16, true), mark(87, 16)];
    const deeper = mark(86, 24, true);
    const shown = marksWithRoom([longer, shorter, other, deeper], SCALE, 13);
    expect(shown).toEqual(new Set([shorter, deeper, other]));
    expect(marksWithRoom([mark(48, 16), mark(49, 16)], SCALE, 13).size).toBe(1);
    expect(marksWithRoom([mark(48, 16), mark(52, 16)], SCALE, 13).size).toBe(2);
    // Larger type covers more.
    expect(marksWithRoom([mark(48, 16), mark(52, 16)], SCALE, 26).size).toBe(1);
  });

  it('are none of what is past the scale', () => {
    expect(marksWithRoom([mark(null, 5), mark(300, 5)], SCALE, 13).size).toBe(0);
  });
});
