import { describe, expect, it } from 'vitest';
import {
  ceilingBar,
  isWithin,
  leadingShare,
  toleratedBar,
  toleratedTensions,
} from '../../../../core/ascent/tolerated';
import { COMPARTMENT_COUNT } from '../../../../core/tissues/compartments';

const all = (value: number) => new Array<number>(COMPARTMENT_COUNT).fill(value);

describe('toleratedBar', () => {
  it('is the ambient pressure at a factor of 0 and the M-value at 1', () => {
    expect(toleratedBar(0, 1.3, 0)).toBe(1.3);
    // a + P/b of the 5-minute compartment by hand: 1.1696 + 1 / 0.5578.
    expect(toleratedBar(0, 1, 1)).toBeCloseTo(2.962357, 6);
    expect(toleratedBar(0, 1, 0.5)).toBeCloseTo(1 + 1.962357 / 2, 6);
  });
});

describe('isWithin', () => {
  it('holds at the limit and not above it, in any compartment', () => {
    const limits = toleratedTensions(1, 0.8);
    expect(isWithin(limits, limits)).toBe(true);
    for (let i = 0; i < COMPARTMENT_COUNT; i += 1)
      expect(isWithin(limits.with(i, limits[i]! + 1e-12), limits)).toBe(false);
  });
});

describe('ceilingBar', () => {
  it('lies below the surface pressure for a diver at rest', () => {
    expect(ceilingBar(all(0.75), 0.5)).toBeLessThan(1);
  });

  it('is set by the tightest compartment alone', () => {
    const loaded = all(0.75).with(4, 3);
    expect(ceilingBar(loaded, 1)).toBeCloseTo((3 - 0.62) * 0.8126, 12);
  });
});

describe('leadingShare', () => {
  it('is 0 at rest, 1 at the limit, and names the compartment from 1 to 16', () => {
    const limits = toleratedTensions(1, 0.8);
    expect(leadingShare(all(0.74), 0.74, limits)).toEqual({ compartment: 1, fractionOfLimit: 0 });
    expect(leadingShare(all(0.74).with(15, limits[15]!), 0.74, limits)).toEqual({
      compartment: 16,
      fractionOfLimit: 1,
    });
    expect(leadingShare(all(0.5), 0.74, limits).fractionOfLimit).toBeLessThan(0);
  });
});
