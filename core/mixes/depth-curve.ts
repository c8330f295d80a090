import type { Diver, Mix, Trip } from '../document/types';
import { mixO2 } from '../ledger/mix-choice';
import { surroundingsOf } from '../profile';
import { noStopFromRest } from './compare';
import { usableModM } from './richest';

/** No-stop time of a first dive at one depth; null where it has no end. */
export interface DepthPoint {
  readonly depthM: number;
  readonly noStopMin: number | null;
}

/** A mix by depth, down to where it may go. */
export interface DepthCurve {
  readonly mix: Mix;
  /** Least of the divers'. */
  readonly modM: number;
  /** Rising in depth; the last lies at the MOD where that is not below `toM`. */
  readonly points: readonly DepthPoint[];
}

/**
 * No-stop times by depth, down to where what is breathed may go.
 * @param noStopMin at a depth in metres; Infinity where it has no end @param modM deepest @param fromM shallowest, above 0
 * @param toM deepest that is asked, metres @param stepM between points @param alsoM depths that are points too
 * @returns rising in depth; no points where it may not even go to `fromM`
 * Source: this project's.
 */
export function depthPoints(
  noStopMin: (depthM: number) => number,
  modM: number,
  fromM: number,
  toM: number,
  stepM: number,
  alsoM: readonly number[] = [],
): readonly DepthPoint[] {
  const deepestM = Math.min(modM, toM);
  const depths = alsoM.filter((depthM) => depthM > fromM && depthM < deepestM);
  for (let i = 0; fromM + i * stepM < deepestM - 1e-9; i += 1) depths.push(fromM + i * stepM);
  if (deepestM >= fromM) depths.push(deepestM);
  depths.sort((a, b) => a - b);
  return depths.map((depthM) => {
    const min = noStopMin(depthM);
    return { depthM, noStopMin: min === Infinity ? null : min };
  });
}

/**
 * No-stop time of a first dive by depth, for the tightest of some divers, on each mix down to its MOD.
 * @param mixes as on board @param fromM shallowest depth, above 0 @param toM deepest, metres @param stepM between points
 * @returns a curve a mix, in their order; no points where the mix may not even go to `fromM`
 * Source: core/ascent/no-stop-limit.ts from rest; MOD as in `usableModM`.
 */
export function depthCurves(
  trip: Trip,
  mixes: readonly Mix[],
  divers: readonly Diver[],
  fromM: number,
  toM: number,
  stepM: number,
): readonly DepthCurve[] {
  const around = surroundingsOf(trip);
  return mixes.map((mix) => {
    const modM = Math.min(...divers.map((diver) => usableModM(mix, diver, trip, around)));
    const tightestMin = (depthM: number): number =>
      Math.min(...divers.map((diver) => noStopFromRest(mixO2(mix), depthM, diver, around).min ?? Infinity));
    return { mix, modM, points: depthPoints(tightestMin, modM, fromM, toM, stepM) };
  });
}
