import { describe, expect, it } from 'vitest';
import { BAR_PER_PSI, L_PER_CUBIC_FOOT, M_PER_FOOT } from '../../../core/units';

// NIST Special Publication 811 (2008), appendix B.8: foot 3.048 E-01 m, psi 6.894757 E+03 Pa, cubic foot
// 2.831685 E-02 m3 (from memory; the exact values follow from the foot and the pound).
describe('factors between units', () => {
  it('are those printed by NIST, to their seven digits', () => {
    expect(M_PER_FOOT).toBe(0.3048);
    expect(BAR_PER_PSI * 1e5).toBeCloseTo(6894.757, 3);
    expect(L_PER_CUBIC_FOOT).toBeCloseTo(28.31685, 5);
  });

  // Common practice: an atmosphere is 14.696 psi; 3000 psi is 207 bar; 33 ft are 10 m of water.
  it('give the figures of the trade', () => {
    expect(1.01325 / BAR_PER_PSI).toBeCloseTo(14.696, 3);
    expect(3000 * BAR_PER_PSI).toBeCloseTo(206.8, 1);
    expect(33 * M_PER_FOOT).toBeCloseTo(10.06, 2);
  });
});
