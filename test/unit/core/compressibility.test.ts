import { describe, expect, it } from 'vitest';
import { compressibility, idealBar } from '../../../core/compressibility';

describe('compressibility', () => {
  it('is 1 without pressure', () => {
    expect(compressibility(0, 0)).toBe(1);
    expect(compressibility(1, 0)).toBe(1);
  });

  it('runs smoothly through its nodes: no kink in the slope', () => {
    for (const gas of [0, 1]) {
      for (const bar of [50, 100, 150, 200, 232, 250]) {
        const before = compressibility(gas, bar) - compressibility(gas, bar - 1e-3);
        const after = compressibility(gas, bar + 1e-3) - compressibility(gas, bar);
        expect(Math.abs(after - before)).toBeLessThan(1e-7);
      }
    }
  });
});

describe('idealBar', () => {
  it('goes on beyond 300 bar in the direction it had', () => {
    // A thousandth of a bar on either side: the bend of the curve moves the slope by 1e-6 of itself.
    const before = idealBar(0.32, 300) - idealBar(0.32, 299.999);
    const after = idealBar(0.32, 300.001) - idealBar(0.32, 300);
    expect(Math.abs(after / before - 1)).toBeLessThan(1e-5);
    expect(idealBar(0.32, 340) - idealBar(0.32, 320)).toBeCloseTo(
      idealBar(0.32, 320) - idealBar(0.32, 300),
      9,
    );
  });
});
