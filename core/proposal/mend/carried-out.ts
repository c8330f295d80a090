/** The moves carried out on a trip. Source: DEVELOPERS, "What mending looks for". */
import { isOnDive, makesDive } from '../../document/as-dived';
import { withLoopsOf } from '../../document/loops';
import type { Dive, Id, Trip } from '../../document/types';
import { surroundingsAt } from '../../document/waters';
import { levelsOf, safetyStopOf, travelMin, type Level, type Surroundings } from '../../profile';
import { assert } from '../../result';
import { wallMin, wallText } from '../../words/calendar';
import { FIXED, isKept, KEPT, type MoveReach, type MoveSteps, type Treatment } from './moves';
import { restOfDayMin } from './request';

/** Shortest bottom time that is left. Source: choice of this project. */
export const SHORTEST_MIN = 5;

/** Shallowest that a level is taken to; one that was planned above it stays. Source: choice of this project. */
export const SHALLOWEST_M = 5;

/** Who dived with others is not left to dive alone. Source: common practice. */
export const FEWEST_TOGETHER = 2;

/** What sums of leg times miss a whole number by. */
const DUST = 1e-9;

/** A depth without the dust of a subtraction: what is written into the file is read by people. */
function clean(depthM: number): number {
  return Number(depthM.toPrecision(12));
}

/**
 * A dive with its levels shallower, and one of them shorter.
 * @param byM metres, every level alike @param byMin minutes, of one level
 * @returns null where there is no such dive: a level too shallow or shorter than the way to it, a bottom time too
 *   short, no place left for its stop
 */
export function shapedDive(
  dive: Dive,
  byM: number,
  level: number,
  byMin: number,
  around: Surroundings,
): Dive | null {
  if (byM === 0 && byMin === 0) return dive;
  const before = levelsOf(dive);
  const legs: readonly Level[] = before.map(({ depthM, min }, at) => ({
    depthM: byM === 0 ? depthM : clean(depthM - byM),
    min: at === level ? min - byMin : min,
  }));
  const isTooShallow = (leg: Level, at: number) =>
    leg.depthM < Math.min(SHALLOWEST_M, before[at]!.depthM) - DUST;
  if (byM > 0 && legs.some(isTooShallow)) return null;
  const bottomMin = dive.bottomMin - byMin;
  if (byMin > 0 && bottomMin < SHORTEST_MIN) return null;
  let fromM = 0;
  for (const { depthM, min } of legs) {
    if (travelMin(fromM, depthM, around) > min * (1 + 1e-12)) return null;
    fromM = depthM;
  }
  const depthM = Math.max(...legs.map((leg) => leg.depthM));
  const shaped: Dive = { ...dive, depthM, bottomMin, ...(dive.legs && { legs }) };
  return dive.safetyStop && safetyStopOf(shaped) === null ? null : shaped;
}

/** Places in the party of who makes a dive: it is planned for them, and they are not known to miss it. */
export function placesOn({ party }: Trip, dive: Dive): readonly number[] {
  return party.flatMap(({ id }, at) => (makesDive(dive, id) ? [at] : []));
}

/** The mixes that may take the place of what a dive says; none where a cylinder of it is analysed already. */
export function otherMixes({ mixes }: Trip, dive: Dive): readonly Id[] {
  if (dive.asDived?.some(({ o2 }) => o2 !== undefined)) return [];
  return mixes.map(({ id }) => id).filter((id) => id !== dive.mix && (dive.onBoard?.includes(id) ?? true));
}

/** How far the moves may go on one dive, in steps. */
export interface DiveReach extends MoveReach {
  readonly fewestDivers: number;
}

/** How many whole steps there are in an amount. */
function stepsIn(amount: number, step: number): number {
  return Math.max(0, Math.floor(amount / step + DUST));
}

/** What a dive itself allows of a reach: its day, its shallowest level, its bottom time. */
export function reachOn(trip: Trip, dive: Dive, steps: MoveSteps, reach: MoveReach): DiveReach {
  const places = placesOn(trip, dive);
  // What everybody is known to miss stands in the trip, and nothing is to be gained by moving it.
  if (places.length === 0) return { ...FIXED, fewestDivers: 0 };
  const startMin = wallMin(dive.startsAt);
  const entries = places.map((place) => startMin + (trip.party[place]!.group?.afterMin ?? 0));
  const restMin = Math.min(...[startMin, ...entries].map(restOfDayMin));
  const shallowestM = Math.min(...levelsOf(dive).map(({ depthM }) => depthM));
  return {
    ...reach,
    later: Math.min(reach.later, stepsIn(restMin, steps.laterMin)),
    shallower: Math.min(reach.shallower, stepsIn(shallowestM - SHALLOWEST_M, steps.shallowerM)),
    shorter: Math.min(reach.shorter, stepsIn(dive.bottomMin - SHORTEST_MIN, steps.shorterMin)),
    fewestDivers: Math.min(FEWEST_TOGETHER, places.length),
  };
}

/** A dive without some divers, and without what was analysed for them on it. @param places of theirs in the party */
function without(whole: Dive, trip: Trip, places: readonly number[]): Dive {
  const out = new Set(places.map((place) => trip.party[place]!.id));
  const { asDived, ...dive } = withLoopsOf(whole, (id) => !out.has(id));
  const divers = trip.party.map(({ id }) => id).filter((id) => isOnDive(dive, id));
  const records = asDived?.filter(({ by }) => by === undefined || !out.has(by)) ?? [];
  return {
    ...dive,
    divers: divers.filter((id) => !out.has(id)),
    ...(records.length > 0 && { asDived: records }),
  };
}

/** A dive with its moves made; null where it is dropped. The moves are within `reachOn`. */
export function treatedDive(trip: Trip, dive: Dive, treatment: Treatment, steps: MoveSteps): Dive | null {
  if (treatment.isDropped) return null;
  const { later, shallower, level, shorter, mix, leftOut } = treatment;
  const byM = shallower * steps.shallowerM;
  const shaped = shapedDive(dive, byM, level, shorter * steps.shorterMin, surroundingsAt(trip, dive));
  assert(shaped !== null, 'moves that no dive is left of');
  return {
    ...(leftOut.length === 0 ? shaped : without(shaped, trip, leftOut)),
    ...(later > 0 && { startsAt: wallText(wallMin(dive.startsAt) + later * steps.laterMin) }),
    ...(mix !== null && { mix }),
  };
}

/** How each dive of a trip is treated, in its order: those done are kept. */
export type Plan = readonly Treatment[];

/** The trip with a plan carried out; dives that are kept stay the same objects. */
export function mendedTrip(trip: Trip, plan: Plan, steps: MoveSteps): Trip {
  const dives = trip.dives.flatMap((dive, at) => {
    const treatment = plan[at] ?? KEPT;
    return isKept(treatment) ? [dive] : (treatedDive(trip, dive, treatment, steps) ?? []);
  });
  return { ...trip, dives };
}
