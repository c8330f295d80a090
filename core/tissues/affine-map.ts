import { COMPARTMENT_COUNT } from './compartments';

/**
 * One number a compartment, 16 of them. A plain array on purpose: making a typed one of 16 numbers costs
 * ten times the arithmetic that fills it.
 */
export type Lanes = readonly number[];

/**
 * The heart: what a stretch of time does to the tissues, whatever was in them before.
 *
 *     after[i] = decay[i] * before[i] + n2Fraction * uptake[i]
 *
 * A leg, a dive, a surface interval and a night are all of this type. `uptake` is per unit of nitrogen
 * fraction, so maps compose only within one mix; with its fraction put in, a map is a `FilledMap`, another
 * type with another name.
 */
export interface AffineMap {
  /** Share of the tension at the start that is left, 0 to 1. */
  readonly decay: Lanes;
  /** Tension taken up per unit of nitrogen fraction, bar. */
  readonly uptake: Lanes;
}

/** A map with its mix put in: after[i] = decay[i] * before[i] + gain[i]. These compose over any mixes. */
export interface FilledMap {
  readonly decay: Lanes;
  /** Tension taken up, bar. */
  readonly gain: Lanes;
}

/** No time has passed. */
export const identity: AffineMap = {
  decay: new Array<number>(COMPARTMENT_COUNT).fill(1),
  uptake: new Array<number>(COMPARTMENT_COUNT).fill(0),
};

/**
 * First one map, then another, on the same mix.
 * @returns decay2 * decay1, decay2 * uptake1 + uptake2
 * Source: composition of affine maps.
 */
export function compose(first: AffineMap, second: AffineMap): AffineMap {
  const decay = new Array<number>(COMPARTMENT_COUNT);
  const uptake = new Array<number>(COMPARTMENT_COUNT);
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
    decay[i] = second.decay[i]! * first.decay[i]!;
    uptake[i] = second.decay[i]! * first.uptake[i]! + second.uptake[i]!;
  }
  return { decay, uptake };
}

/**
 * Tensions after a stretch of time on one mix.
 * @param tensionsBar nitrogen tension of each compartment at its start, bar
 * @param n2Fraction nitrogen fraction of the mix, 0 to 1
 * @returns tensions at its end, bar; a new array
 * Source: linearity of the Haldane and Schreiner solutions in both arguments (reference in leg-map.ts).
 */
export function applyMap(map: AffineMap, tensionsBar: Lanes, n2Fraction: number): Lanes {
  const after = new Array<number>(COMPARTMENT_COUNT);
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
    after[i] = map.decay[i]! * tensionsBar[i]! + n2Fraction * map.uptake[i]!;
  }
  return after;
}

/**
 * Puts a mix into a map.
 * @param n2Fraction nitrogen fraction, 0 to 1
 * @returns the same map for that mix alone
 */
export function fill(map: AffineMap, n2Fraction: number): FilledMap {
  const gain = new Array<number>(COMPARTMENT_COUNT);
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) gain[i] = n2Fraction * map.uptake[i]!;
  return { decay: map.decay, gain };
}
