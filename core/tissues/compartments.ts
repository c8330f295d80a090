import type { Lanes } from './affine-map';

/** One nitrogen compartment: half-time, and the two coefficients of its tolerated tension a + P/b. */
export interface Compartment {
  readonly halfTimeMin: number;
  readonly aBar: number;
  readonly b: number;
}

/*
 * ZH-L16C, nitrogen, with the 5-minute first compartment ("1b").
 * Source: A. A. Buehlmann, Tauchmedizin, 4th ed., Springer 1995; 5th ed. with E. B. Voellm and
 * P. Nussberger, 2002. The digits were entered from memory of that table; test/published holds them to
 * Baker's surfacing M-values and to the generating relations with their known exceptions.
 */
export const COMPARTMENTS: readonly Compartment[] = [
  { halfTimeMin: 5, aBar: 1.1696, b: 0.5578 },
  { halfTimeMin: 8, aBar: 1.0, b: 0.6514 },
  { halfTimeMin: 12.5, aBar: 0.8618, b: 0.7222 },
  { halfTimeMin: 18.5, aBar: 0.7562, b: 0.7825 },
  { halfTimeMin: 27, aBar: 0.62, b: 0.8126 },
  { halfTimeMin: 38.3, aBar: 0.5043, b: 0.8434 },
  { halfTimeMin: 54.3, aBar: 0.441, b: 0.8693 },
  { halfTimeMin: 77, aBar: 0.4, b: 0.891 },
  { halfTimeMin: 109, aBar: 0.375, b: 0.9092 },
  { halfTimeMin: 146, aBar: 0.35, b: 0.9222 },
  { halfTimeMin: 187, aBar: 0.3295, b: 0.9319 },
  { halfTimeMin: 239, aBar: 0.3065, b: 0.9403 },
  { halfTimeMin: 305, aBar: 0.2835, b: 0.9477 },
  { halfTimeMin: 390, aBar: 0.261, b: 0.9544 },
  { halfTimeMin: 498, aBar: 0.248, b: 0.9602 },
  { halfTimeMin: 635, aBar: 0.2327, b: 0.9653 },
];

export const COMPARTMENT_COUNT = COMPARTMENTS.length;

/** Rate constants k = ln 2 / half-time, per minute. Source: J. S. Haldane et al., J Hyg 1908;8:342-443. */
export const RATES_PER_MIN: Lanes = Array.from(COMPARTMENTS, (c) => Math.LN2 / c.halfTimeMin);

/** Time constants 1/k = half-time / ln 2, minutes. Source: as above. */
export const TIME_CONSTANTS_MIN: Lanes = Array.from(COMPARTMENTS, (c) => c.halfTimeMin / Math.LN2);

/**
 * Water vapour in the lungs at 37 degrees Celsius, bar (47 mmHg).
 * Source: A. A. Buehlmann, Tauchmedizin (as above), with a respiratory quotient of 1.
 */
export const WATER_VAPOUR_BAR = 0.0627;

/** Nitrogen fraction of dry air; argon and the rest count with it. Source: common practice of nitrox, 79 %. */
export const AIR_N2 = 0.79;

/**
 * Tension of nitrogen in the lungs per unit of nitrogen fraction.
 * @param ambientBar absolute pressure, bar, above the vapour's
 * @returns bar: P - 0.0627
 * Source: A. A. Buehlmann, Tauchmedizin (as above).
 */
export function inspiredBar(ambientBar: number): number {
  return ambientBar - WATER_VAPOUR_BAR;
}

/**
 * Tensions of a diver at rest: every compartment in equilibrium with air.
 * @param surfaceBar absolute pressure breathed at, bar
 * @returns bar, the same in all compartments
 * Source: CONVENTIONS, "Tissues".
 */
export function restTensions(surfaceBar: number): Lanes {
  return new Array<number>(COMPARTMENT_COUNT).fill(AIR_N2 * inspiredBar(surfaceBar));
}
