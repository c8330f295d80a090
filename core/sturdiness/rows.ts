import { COMPARTMENT_COUNT, RATES_PER_MIN } from '../tissues/compartments';

/**
 * What whole steps of time do to each compartment, from `-most` of them to `most`: sixteen numbers a row. Scatter moves
 * a leg's length by whole steps, so that with these a run takes no exponential for any leg.
 */
export interface Rows {
  readonly at: Float64Array;
  /** Where the row of no step begins. */
  readonly zero: number;
}

function rowsOf(most: number, stepMin: number, of: (exponent: number) => number): Rows {
  const at = new Float64Array((2 * most + 1) * COMPARTMENT_COUNT);
  for (let n = -most; n <= most; n += 1) {
    for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
      at[(n + most) * COMPARTMENT_COUNT + i] = of(-RATES_PER_MIN[i]! * n * stepMin);
    }
  }
  return { at, zero: most * COMPARTMENT_COUNT };
}

/**
 * e^-kt - 1 by steps: of lengths combined as (1 + a)(1 + b) - 1 = a + b + ab no digits are lost, however short they are.
 * @param most steps each way @param stepMin minutes
 * Source: as core/tissues/leg-map.ts.
 */
export function lostRows(most: number, stepMin: number): Rows {
  return rowsOf(most, stepMin, Math.expm1);
}

/** e^-kt by steps, for the surface interval. Source: as `lostRows`. */
export function keptRows(most: number, stepMin: number): Rows {
  return rowsOf(most, stepMin, Math.exp);
}

/** e^-kt - 1 of each compartment after so many minutes. Source: as `lostRows`. */
export function lostAfter(min: number): Float64Array {
  return Float64Array.from(RATES_PER_MIN, (k) => Math.expm1(-k * min));
}

/** e^-kt of each compartment after so many minutes. Source: as `lostRows`. */
export function keptAfter(min: number): Float64Array {
  return Float64Array.from(RATES_PER_MIN, (k) => Math.exp(-k * min));
}
