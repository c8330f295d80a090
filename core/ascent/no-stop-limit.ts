import type { AffineMap, Lanes } from '../tissues/affine-map';
import { COMPARTMENT_COUNT, RATES_PER_MIN } from '../tissues/compartments';

/** What the no-stop limit of the last level depends on. */
export interface LastLevelStay {
  /** Tensions on arrival at the level, bar. */
  readonly arrivalTensions: Lanes;
  /** Minutes from leaving the surface to that arrival. */
  readonly arrivalMin: number;
  /** Inspired nitrogen at the level, bar. */
  readonly inspiredN2Bar: number;
  /** The way straight to the surface. */
  readonly directAscent: AffineMap;
  readonly n2Fraction: number;
  /** Tolerated at the surface, bar. */
  readonly limits: Lanes;
}

/**
 * Tension at the end of the stay from which a direct ascent just meets a compartment's limit on surfacing.
 * The surface decides for the whole ascent: a tolerated tension falls faster on the way up than any tissue
 * can give off gas at the rates the schema admits (held by a property test over the whole ascent).
 */
function limitAtLevel(stay: LastLevelStay, i: number): number {
  const { directAscent, n2Fraction, limits } = stay;
  return (limits[i]! - n2Fraction * directAscent.uptake[i]!) / directAscent.decay[i]!;
}

/**
 * The no-stop limit: the longest bottom time, descent and earlier levels included, from which a direct
 * ascent never passes the tolerated tension. Closed form, 16 logarithms:
 *
 *     t = ln(1 + (L - p) / (I - L)) / k      over compartments with I > L, the smallest of them
 *
 * @returns minutes, exact; Infinity where no compartment ever meets its limit; 0 when one is past it on
 *   arrival already
 * Source: Haldane's solution for t; tolerated tension after Baker 1998; the rule of 0 is this project's.
 */
export function noStopLimitMin(stay: LastLevelStay): number {
  let shortest = Infinity;
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
    const limit = limitAtLevel(stay, i);
    const tension = stay.arrivalTensions[i]!;
    if (tension > limit) return 0;
    if (stay.inspiredN2Bar > limit) {
      const min = Math.log1p((limit - tension) / (stay.inspiredN2Bar - limit)) / RATES_PER_MIN[i]!;
      if (min < shortest) shortest = min;
    }
  }
  return stay.arrivalMin + shortest;
}

/** The compartment (1 to 16) that sets the limit, its tensions and pressures; null where there is none. */
export function limitingCompartment(stay: LastLevelStay): {
  readonly compartment: number;
  readonly tensionBar: number;
  readonly limitBar: number;
} | null {
  let found: { compartment: number; tensionBar: number; limitBar: number } | null = null;
  let shortest = Infinity;
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
    const limitBar = limitAtLevel(stay, i);
    const tensionBar = stay.arrivalTensions[i]!;
    if (tensionBar > limitBar) return { compartment: i + 1, tensionBar, limitBar };
    if (stay.inspiredN2Bar <= limitBar) continue;
    const min = Math.log1p((limitBar - tensionBar) / (stay.inspiredN2Bar - limitBar)) / RATES_PER_MIN[i]!;
    if (min < shortest) {
      shortest = min;
      found = { compartment: i + 1, tensionBar, limitBar };
    }
  }
  return found;
}
