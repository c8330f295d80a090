import type { AffineMap, Lanes } from '../tissues/affine-map';
import { COMPARTMENT_COUNT, RATES_PER_MIN } from '../tissues/compartments';

/** What the no-stop limit of a level depends on. */
export interface LevelStay {
  /** Tensions on arrival at the level, bar. */
  readonly arrivalTensions: Lanes;
  /**
   * Minutes counted before that arrival: from leaving the surface for the limit of a whole dive, the way from the
   * level before for the level's own.
   */
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
function limitAtLevel(stay: LevelStay, i: number): number {
  const { directAscent, n2Fraction, limits } = stay;
  return (limits[i]! - n2Fraction * directAscent.uptake[i]!) / directAscent.decay[i]!;
}

/**
 * Minutes at the level until one compartment meets its limit: ln(1 + r) / k with r = (L - p) / (I - L).
 * @param otherwiseMin what another compartment has: where ln(1 + r) >= 2 r / (2 + r) shows that this one has more, no
 *   logarithm is taken and Infinity stands for it
 * @returns Infinity where it never does, -Infinity where it is past it on arrival
 * Source: Haldane's solution for t; the bound is the first convergent of the logarithm's continued fraction.
 */
function minutesToLimit(stay: LevelStay, i: number, otherwiseMin = Infinity): number {
  const limit = limitAtLevel(stay, i);
  const tension = stay.arrivalTensions[i]!;
  if (tension > limit) return -Infinity;
  if (stay.inspiredN2Bar <= limit) return Infinity;
  const rise = (limit - tension) / (stay.inspiredN2Bar - limit);
  if (2 * rise > otherwiseMin * RATES_PER_MIN[i]! * (2 + rise)) return Infinity;
  return Math.log1p(rise) / RATES_PER_MIN[i]!;
}

/**
 * The no-stop limit: the longest time, `arrivalMin` included, from which a direct ascent never passes the
 * tolerated tension: bottom time of a whole dive whose last level is lengthened, or minutes of one level by
 * itself, what came before it being done. Closed form, at most 16 logarithms, the smallest of them over the compartments.
 * @returns minutes, exact; Infinity where no compartment ever meets its limit; 0 when one is past it on
 *   arrival already
 * Source: Haldane's solution for t; tolerated tension after Baker 1998; the rule of 0 is this project's.
 */
export function noStopLimitMin(stay: LevelStay): number {
  let shortest = Infinity;
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
    shortest = Math.min(shortest, minutesToLimit(stay, i, shortest));
  }
  return shortest === -Infinity ? 0 : stay.arrivalMin + shortest;
}

/** The compartment (1 to 16) that sets the limit, its tension and limit at the level; null where there is none. */
export function limitingCompartment(stay: LevelStay): {
  readonly compartment: number;
  readonly tensionBar: number;
  readonly limitBar: number;
} | null {
  let limiting = -1;
  let shortest = Infinity;
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
    const min = minutesToLimit(stay, i);
    if (min < shortest) {
      shortest = min;
      limiting = i;
    }
  }
  if (limiting === -1) return null;
  return {
    compartment: limiting + 1,
    tensionBar: stay.arrivalTensions[limiting]!,
    limitBar: limitAtLevel(stay, limiting),
  };
}
