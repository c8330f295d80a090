import { modM } from '../gas';
import type { Surroundings } from '../profile';
import type { Dive, Diver, EarlierDive, Mix, Trip } from '../document/types';

/** Depths and pressures are compared with this much room for rounding, metres. */
const SAME_DEPTH_M = 1e-9;

/** Oxygen fraction of a mix: as analysed where known, else as labelled. Source: CONVENTIONS, "A dive". */
export function mixO2(mix: Mix): number {
  return mix.analysedO2 ?? mix.o2;
}

/**
 * Whether a mix may be taken to a depth by a diver: its MOD at the diver's working PO2 reaches the depth,
 * and its oxygen is within the diver's ceiling. The trip's analysis tolerance counts as more oxygen while
 * the mix is not analysed.
 * Source: CONVENTIONS, "Which mix"; working PO2 after the NOAA Diving Program, 2015.
 */
export function mayBreathe(
  mix: Mix,
  depthM: number,
  diver: Diver,
  trip: Trip,
  around: Surroundings,
): boolean {
  const o2 = mixO2(mix);
  if (o2 > diver.maxO2 + 1e-12) return false;
  const richest = mix.analysedO2 === undefined ? o2 + trip.settings.analysisTolerance : o2;
  return modM(richest, diver.po2.working, around.column) >= depthM - SAME_DEPTH_M;
}

/**
 * The mix of a dive for a diver: the one it names, or for "auto" the richest of the trip's (of those on board
 * that day, where the dive names them) that may go to its planned depth; of two alike the first listed.
 * @returns null where "auto" finds none
 * Source: CONVENTIONS, "Which mix".
 */
export function mixFor(dive: Dive | EarlierDive, diver: Diver, trip: Trip, around: Surroundings): Mix | null {
  if (dive.mix !== 'auto') return trip.mixes.find((mix) => mix.id === dive.mix) ?? null;
  let richest: Mix | null = null;
  for (const mix of trip.mixes) {
    // A leaner one than is known to go need not be asked about.
    if (richest !== null && mixO2(mix) <= mixO2(richest)) continue;
    if (dive.onBoard !== undefined && !dive.onBoard.includes(mix.id)) continue;
    if (mayBreathe(mix, dive.depthM, diver, trip, around)) richest = mix;
  }
  return richest;
}
