import type { Leg } from '../profile';
import { type AffineMap, identity } from './affine-map';
import { COMPARTMENT_COUNT, inspiredBar, RATES_PER_MIN, TIME_CONSTANTS_MIN } from './compartments';

interface Lanewise {
  readonly decay: number[];
  readonly uptake: number[];
}

/**
 * Carries a map on over a stretch with linearly changing pressure, into `made`, which may be the map itself:
 * Schreiner's solution, Haldane's where it is level. Written so that cutting a stretch in two changes nothing
 * beyond rounding:
 *
 *     after = before e^-kt + A0 (-expm1(-kt)) + R (kt + expm1(-kt)) / k
 *
 * with A0 the inspired pressure at its start and R its rate of change. The last term loses digits of its own
 * where kt is small, but none of the sum's: it errs by an ulp of R t, the pressure gone through. (The textbook
 * form subtracts R / k, a thousand times larger, and loses three.) One expm1 a compartment.
 */
function carryOn(map: AffineMap, made: Lanewise, fromBar: number, toBar: number, min: number): void {
  const startBar = inspiredBar(fromBar);
  const rateBarPerMin = (toBar - fromBar) / min;
  const { decay, uptake } = map;
  const { decay: madeDecay, uptake: madeUptake } = made;
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
    const k = RATES_PER_MIN[i]!;
    const lost = Math.expm1(-k * min);
    const left = 1 + lost;
    madeUptake[i] =
      left * uptake[i]! - startBar * lost + rateBarPerMin * (k * min + lost) * TIME_CONSTANTS_MIN[i]!;
    madeDecay[i] = left * decay[i]!;
  }
}

function newLanes(): Lanewise {
  // Made here and filled with doubles at once: a copy of the identity's ones and zeros would be made of
  // integers first, which costs more than the arithmetic.
  return { decay: new Array<number>(COMPARTMENT_COUNT), uptake: new Array<number>(COMPARTMENT_COUNT) };
}

/**
 * The map of a stretch with linearly changing pressure.
 * @param fromBar @param toBar ambient pressure at start and end, bar absolute
 * @param min minutes, 0 or more
 * @returns decay and uptake; the error is a few ulp of the pressures
 * Source: Haldane: A. E. Boycott et al., J Hyg 1908;8:342-443. Schreiner: H. R. Schreiner, P. L. Kelley,
 * "A pragmatic view of decompression", Underwater Physiology IV, 1971:205-219.
 */
export function stretchMap(fromBar: number, toBar: number, min: number): AffineMap {
  if (min === 0) return identity;
  const made = newLanes();
  carryOn(identity, made, fromBar, toBar, min);
  return made;
}

/**
 * The map of legs in a row on one mix, as a dive is; what `compose` makes of the maps of its legs.
 * @param legs in order @param before the map they carry on from, the identity where it is left out
 * Source: as `stretchMap` and `compose`.
 */
export function legsMap(legs: readonly Leg[], before: AffineMap = identity): AffineMap {
  const made = newLanes();
  let map = before;
  for (const leg of legs) {
    if (leg.min === 0) continue;
    carryOn(map, made, leg.fromBar, leg.toBar, leg.min);
    map = made;
  }
  return map;
}

/**
 * The map of a surface interval or a night.
 * @param surfaceBar pressure breathed at, bar absolute @param min minutes, 0 or more
 * @returns the map; apply it with the nitrogen fraction of air
 * Source: as `stretchMap`.
 */
export function intervalMap(surfaceBar: number, min: number): AffineMap {
  return stretchMap(surfaceBar, surfaceBar, min);
}
