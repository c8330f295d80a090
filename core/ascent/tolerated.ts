import { type Lanes } from '../tissues/affine-map';
import { COMPARTMENT_COUNT, COMPARTMENTS } from '../tissues/compartments';

/** Gradient factors, 0 to 1: `low` holds at the first stop, `high` at the surface. */
export interface Gradient {
  readonly low: number;
  readonly high: number;
}

/**
 * Tension a compartment tolerates at an ambient pressure.
 * @param compartment index 0 to 15 @param ambientBar absolute pressure, bar
 * @param gradientFactor 0 to 1, share of the way from ambient pressure to the M-value
 * @returns bar: P + GF (a + P/b - P)
 * Source: E. C. Baker, "Understanding M-values", Immersed 1998;3(3), on Buehlmann's a and b.
 */
export function toleratedBar(compartment: number, ambientBar: number, gradientFactor: number): number {
  const { aBar, b } = COMPARTMENTS[compartment]!;
  return ambientBar + gradientFactor * (aBar + ambientBar / b - ambientBar);
}

/**
 * Tolerated tensions of all compartments at one pressure.
 * @param ambientBar bar absolute @param gradientFactor 0 to 1
 * @returns bar
 * Source: as `toleratedBar`.
 */
export function toleratedTensions(ambientBar: number, gradientFactor: number): Lanes {
  const limits = new Array<number>(COMPARTMENT_COUNT);
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) limits[i] = toleratedBar(i, ambientBar, gradientFactor);
  return limits;
}

/**
 * The lowest ambient pressure all compartments tolerate.
 * @param tensionsBar bar @param gradientFactor 0 to 1
 * @returns bar absolute: the largest of (p - GF a) / (1 - GF + GF/b); may lie below the surface pressure
 * Source: `toleratedBar` solved for P.
 */
export function ceilingBar(tensionsBar: Lanes, gradientFactor: number): number {
  let ceiling = -Infinity;
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
    const { aBar, b } = COMPARTMENTS[i]!;
    const bar = (tensionsBar[i]! - gradientFactor * aBar) / (1 - gradientFactor + gradientFactor / b);
    ceiling = Math.max(ceiling, bar);
  }
  return ceiling;
}

/** True where no compartment is above its limit; equality is inside. */
export function isWithin(tensionsBar: Lanes, limitsBar: Lanes): boolean {
  // Looked at one by one: a function called for each costs more than what it compares.
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) if (!(tensionsBar[i]! <= limitsBar[i]!)) return false;
  return true;
}

/**
 * How near the tissues are to the limit on surfacing: 0 at rest, 1 at the limit.
 * @param tensionsBar bar @param restBar tension at rest, bar @param limitsBar tolerated at the surface, bar
 * @returns the leading compartment (1 to 16) and its share; negative below rest, above 1 past the limit
 * Source: CONVENTIONS, "Share of the limit"; the share of a surfacing M-value, scaled from rest.
 */
export function leadingShare(
  tensionsBar: Lanes,
  restBar: number,
  limitsBar: Lanes,
): { readonly compartment: number; readonly fractionOfLimit: number } {
  let compartment = 1;
  let fractionOfLimit = -Infinity;
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
    const share = (tensionsBar[i]! - restBar) / (limitsBar[i]! - restBar);
    if (share > fractionOfLimit) {
      fractionOfLimit = share;
      compartment = i + 1;
    }
  }
  return { compartment, fractionOfLimit };
}
