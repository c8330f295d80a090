import { GRAVITY_M_PER_S2 } from './water';

/**
 * Exact factors between what stands in core (metres, bar, litres) and what is shown and typed where a reader
 * counts in feet. Used at the edges alone: no converted figure re-enters a formula.
 * Source: international yard and pound agreement (1959): 1 ft = 0.3048 m, 1 lb = 0.45359237 kg, both exact;
 * NIST Special Publication 811 (2008), appendix B.
 */
export const M_PER_FOOT = 0.3048;

const M_PER_INCH = M_PER_FOOT / 12;
const KG_PER_POUND = 0.45359237;
const PA_PER_BAR = 100_000;

/** A pound-force on a square inch: 0.068947572931683... bar. */
export const BAR_PER_PSI = (KG_PER_POUND * GRAVITY_M_PER_S2) / M_PER_INCH ** 2 / PA_PER_BAR;

/** 28.316846592 L. */
export const L_PER_CUBIC_FOOT = M_PER_FOOT ** 3 * 1000;
