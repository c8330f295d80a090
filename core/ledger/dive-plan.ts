import type { KnownDoses } from '../oxygen/doses';
import {
  ascentLegs,
  legsOf,
  levelsOf,
  profileOf,
  runtimeMin,
  safetyStopOf,
  surroundingsOf,
  type Leg,
  type Level,
  type Profile,
  type ProfileShape,
  type Surroundings,
} from '../profile';
import { barMinutes, emergencyWay, type EmergencyWay } from '../supply';
import { compose, identity, type AffineMap } from '../tissues/affine-map';
import { legsMap } from '../tissues/leg-map';
import { effectiveDive } from '../document/as-dived';
import type { Trip } from '../document/types';
import type { Entry } from './ledger-types';
import type { KnownOnMix } from './on-mix';

/** A level as planned, and what of its minutes the way to it takes. */
export interface PlanLevel {
  readonly depthM: number;
  readonly min: number;
  readonly travelMin: number;
}

/** A level that is left for another: a direct ascent must have been possible from its end too. */
export interface EarlierLevel extends PlanLevel {
  readonly ambientBar: number;
  /** From the surface to the arrival at the level. */
  readonly toArrival: AffineMap;
  /** From the surface to the end of the level. */
  readonly map: AffineMap;
  readonly directAscent: AffineMap;
  /** From the surface to the end of the level and straight up. */
  readonly toSurface: AffineMap;
}

/** All that a dive's profile alone decides, shared by every diver who makes it on whatever mix. */
export interface DivePlan {
  readonly around: Surroundings;
  readonly profile: Profile;
  readonly legs: readonly Leg[];
  readonly runtimeMin: number;
  readonly arrivalMin: number;
  readonly toArrival: AffineMap;
  /** From the surface to leaving the last level. */
  readonly toLeaving: AffineMap;
  /** From surface to surface. */
  readonly whole: AffineMap;
  /** Straight up from the last level, safety stop left out. */
  readonly directAscent: AffineMap;
  /** The levels before the last. */
  readonly earlierLevels: readonly EarlierLevel[];
  readonly lastLevel: PlanLevel;
  /** What it takes of a diver for each litre a minute at the surface: all of it, and until leaving the last level. */
  readonly breathedBarMin: number;
  readonly atLeavingBarMin: number;
  /** An emergency at the deepest point, with the safety stop alone. */
  readonly usualWayUp: EmergencyWay;
  readonly doses: KnownDoses;
  readonly onMix: KnownOnMix;
}

function earlierLevelsOf(
  profile: Profile,
  levels: readonly Level[],
  around: Surroundings,
): readonly EarlierLevel[] {
  const made: EarlierLevel[] = [];
  let toArrival = identity;
  let map = identity;
  let wayMin = 0;
  for (const leg of profile.toLastLevel) {
    toArrival = map;
    map = legsMap([leg], map);
    if (leg.kind !== 'level') {
      wayMin = leg.min;
      continue;
    }
    const { depthM, min } = levels[made.length]!;
    const directAscent = legsMap(ascentLegs(leg.toM, [], around));
    made.push({
      depthM,
      min,
      travelMin: wayMin,
      ambientBar: leg.toBar,
      toArrival,
      map,
      directAscent,
      toSurface: compose(map, directAscent),
    });
    wayMin = 0;
  }
  return made;
}

/** Minutes of the way to the last level; none where the level before it lies as deep. */
function lastTravelMin({ toLastLevel }: Profile): number {
  const way = toLastLevel[toLastLevel.length - 1];
  return way === undefined || way.kind === 'level' ? 0 : way.min;
}

/**
 * The plan of a profile, computed afresh.
 * @param shape depth and bottom time, or levels @param around water and rates
 * @returns profile, legs and their maps
 * Source: composition of the legs' maps (tissues/affine-map.ts).
 */
export function newDivePlan(shape: ProfileShape, around: Surroundings): DivePlan {
  const profile = profileOf(shape, around);
  const levels = levelsOf(shape);
  const last = levels[levels.length - 1]!;
  const toArrival = legsMap(profile.toLastLevel);
  const toLeaving = legsMap([profile.lastLevel], toArrival);
  const lastM = profile.lastLevel.toM;
  const directAscent = legsMap(ascentLegs(lastM, [], around));
  const legs = legsOf(profile);
  const { deepestM, bottomMin } = profile;
  const { safetyStop } = shape;
  const stop = safetyStopOf({
    depthM: deepestM,
    bottomMin,
    ...(safetyStop === undefined ? {} : { safetyStop }),
  });
  const atLeavingBarMin = barMinutes(profile.toLastLevel) + barMinutes([profile.lastLevel]);
  return {
    around,
    profile,
    legs,
    runtimeMin: runtimeMin(legs),
    arrivalMin: runtimeMin(profile.toLastLevel),
    toArrival,
    toLeaving,
    whole:
      profile.ascent.length === 1 ? compose(toLeaving, directAscent) : legsMap(profile.ascent, toLeaving),
    directAscent,
    earlierLevels: profile.toLastLevel.length > 1 ? earlierLevelsOf(profile, levels, around) : [],
    lastLevel: { depthM: last.depthM, min: last.min, travelMin: lastTravelMin(profile) },
    breathedBarMin: atLeavingBarMin + barMinutes(profile.ascent),
    atLeavingBarMin,
    usualWayUp: emergencyWay(deepestM, stop === null ? [] : [stop], around),
    doses: new Map(),
    onMix: new Map(),
  };
}

const plansKnown = new WeakMap<ProfileShape, DivePlan>();

/** The plan of a profile; kept while the shape is the same object and the surroundings are too. */
export function divePlan(shape: ProfileShape, around: Surroundings): DivePlan {
  const known = plansKnown.get(shape);
  if (known?.around === around) return known;
  const plan = newDivePlan(shape, around);
  plansKnown.set(shape, plan);
  return plan;
}

/** The plan of an entry's dive, as dived where that is known; required stops are no part of it. */
export function planOf(trip: Trip, entry: Pick<Entry, 'dive' | 'diver'>): DivePlan {
  return divePlan(effectiveDive(entry.dive, entry.diver).shape, surroundingsOf(trip));
}
