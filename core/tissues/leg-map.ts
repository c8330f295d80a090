import { phi } from '../numeric';
import type { Leg } from '../profile';
import { type AffineMap, compose, identity } from './affine-map';
import { COMPARTMENT_COUNT, inspiredBar, RATES_PER_MIN } from './compartments';

/**
 * The map of a stretch with linearly changing pressure: Schreiner's solution, Haldane's where it is level.
 * Written so that cutting a stretch in two changes nothing beyond rounding:
 *
 *     after = before e^-kt + A0 (-expm1(-kt)) + R phi(kt) / k
 *
 * with A0 the inspired pressure at its start and R its rate of change; the textbook form subtracts large
 * terms and loses three digits. One expm1 a compartment.
 * @param fromBar @param toBar ambient pressure at start and end, bar absolute
 * @param min minutes, 0 or more
 * @returns decay and uptake; the error is a few ulp
 * Source: Haldane: A. E. Boycott et al., J Hyg 1908;8:342-443. Schreiner: H. R. Schreiner, P. L. Kelley,
 * "A pragmatic view of decompression", Underwater Physiology IV, 1971:205-219.
 */
export function stretchMap(fromBar: number, toBar: number, min: number): AffineMap {
  if (min === 0) return identity;
  const decay = new Array<number>(COMPARTMENT_COUNT);
  const uptake = new Array<number>(COMPARTMENT_COUNT);
  const startBar = inspiredBar(fromBar);
  const rateBarPerMin = (toBar - fromBar) / min;
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
    const k = RATES_PER_MIN[i]!;
    const lost = Math.expm1(-k * min);
    decay[i] = 1 + lost;
    uptake[i] = -startBar * lost + (rateBarPerMin === 0 ? 0 : (rateBarPerMin * phi(k * min, lost)) / k);
  }
  return { decay, uptake };
}

/** The map of one leg. Source: as `stretchMap`. */
export function legMap(leg: Leg): AffineMap {
  return stretchMap(leg.fromBar, leg.toBar, leg.min);
}

/** The map of legs in a row on one mix, as a dive is. Source: as `stretchMap` and `compose`. */
export function legsMap(legs: readonly Leg[]): AffineMap {
  return legs.reduce((map, leg) => compose(map, legMap(leg)), identity);
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
