import type { KnownDoses } from '../oxygen/doses';
import {
  ascentLegs,
  legsOf,
  levelsOf,
  profileOf,
  runtimeMin,
  safetyStopOf,
  type Leg,
  type Level,
  type Profile,
  type ProfileShape,
  type Surroundings,
} from '../profile';
import { barMinutes, emergencyWay, type EmergencyWay } from '../supply';
import { compose, identity, type AffineMap } from '../tissues/affine-map';
import { breathedMap } from '../tissues/breathed-legs';
import { effectiveDive } from '../document/as-dived';
import type { Trip } from '../document/types';
import type { Entry } from './ledger-types';
import type { KnownOnMix } from './on-mix';
import { aroundOf } from './loop-around';
import { straightUpMap } from './straight-up-map';

const NONE: readonly never[] = [];

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

/** A moment of a recorded dive, and the way from the dive's beginning to it and straight up. */
export interface MomentUp {
  readonly depthM: number;
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
  /** Of a recorded dive the moments at which its limit is asked; of any other none, as its levels tell. */
  readonly momentsUp: readonly MomentUp[];
  readonly isRecorded: boolean;
  readonly lastLevel: PlanLevel;
  /** What it takes of a diver for each litre a minute at the surface: all of it, and until leaving the last level. */
  readonly breathedBarMin: number;
  readonly atLeavingBarMin: number;
  /** An emergency at the deepest point, with the safety stop alone. */
  readonly usualWayUp: EmergencyWay;
  readonly doses: KnownDoses;
  readonly onMix: KnownOnMix;
}

/** The levels before the last, and the map from the surface to the arrival at the last. */
interface WayToLast {
  readonly earlierLevels: readonly EarlierLevel[];
  readonly toArrival: AffineMap;
}

function wayByLevels(profile: Profile, levels: readonly Level[], around: Surroundings): WayToLast {
  if (profile.toLastLevel.length <= 1) {
    return { earlierLevels: NONE, toArrival: breathedMap(profile.toLastLevel, around.breathing) };
  }
  const made: EarlierLevel[] = [];
  let toArrival = identity;
  let map = identity;
  let wayMin = 0;
  for (const leg of profile.toLastLevel) {
    toArrival = map;
    map = breathedMap([leg], around.breathing, map);
    if (leg.kind !== 'level') {
      wayMin = leg.min;
      continue;
    }
    const { depthM, min } = levels[made.length]!;
    const directAscent = breathedMap(ascentLegs(leg.toM, [], around), around.breathing);
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
  return { earlierLevels: made, toArrival: map };
}

/**
 * Of a recorded dive the stay at its deepest point stands for the levels before the last: a no-stop time is told beside a
 * depth, and that is the one it is told for.
 */
function deepestStayOf(profile: Profile, around: Surroundings): readonly EarlierLevel[] {
  const { toLastLevel, deepestM, lastLevel } = profile;
  if (!(lastLevel.fromM < deepestM)) return NONE;
  const first = toLastLevel.findIndex(({ toM }) => toM === deepestM) + 1;
  const last = toLastLevel.findLastIndex(({ toM }) => toM === deepestM) + 1;
  const toArrival = breathedMap(toLastLevel.slice(0, first), around.breathing);
  const map = breathedMap(toLastLevel.slice(first, last), around.breathing, toArrival);
  const directAscent = breathedMap(ascentLegs(deepestM, [], around), around.breathing);
  return [
    {
      depthM: deepestM,
      min: runtimeMin(toLastLevel.slice(0, last)),
      travelMin: runtimeMin(toLastLevel.slice(0, first)),
      // A record may begin under water, at its deepest too.
      ambientBar: first === 0 ? toLastLevel[0]!.fromBar : toLastLevel[first - 1]!.toBar,
      toArrival,
      map,
      directAscent,
      toSurface: compose(map, directAscent),
    },
  ];
}

/** Moments of a recorded dive at which going straight up is asked lie so far apart at least, minutes. */
const ASKED_EVERY_MIN = 0.25;

/** The moments of a recorded dive from which a direct ascent has to have been possible: the limit has no level there. */
function momentsUpOf(profile: Profile, around: Surroundings): readonly MomentUp[] {
  const moments: MomentUp[] = [];
  let map = identity;
  let sinceMin = 0;
  for (const leg of [...profile.toLastLevel, ...profile.ascent]) {
    map = breathedMap([leg], around.breathing, map);
    sinceMin += leg.min;
    if (sinceMin < ASKED_EVERY_MIN || leg.toM === 0) continue;
    sinceMin = 0;
    moments.push({ depthM: leg.toM, toSurface: compose(map, straightUpMap(leg.toM, around)) });
  }
  return moments;
}

/** Minutes of the way to the last level; none where the level before it lies as deep. */
function lastTravelMin({ toLastLevel }: Profile): number {
  const way = toLastLevel[toLastLevel.length - 1];
  return way === undefined || way.kind === 'level' ? 0 : way.min;
}

function lastPlanned(profile: Profile, levels: readonly Level[]): PlanLevel {
  const { depthM, min } = levels[levels.length - 1]!;
  return { depthM, min, travelMin: lastTravelMin(profile) };
}

/** Of a recorded dive the bottom is left as soon as it is reached: all of the time is the way there. */
function lastOfRecorded({ lastLevel, bottomMin }: Profile, earlier: readonly PlanLevel[]): PlanLevel {
  const min = bottomMin - (earlier[0]?.min ?? 0);
  return { depthM: lastLevel.fromM, min, travelMin: min };
}

/**
 * The plan of a profile, computed afresh.
 * @param shape depth and bottom time, or levels @param around water and rates
 * @returns profile, legs and their maps
 * Source: composition of the legs' maps (tissues/affine-map.ts).
 */
export function newDivePlan(shape: ProfileShape, around: Surroundings): DivePlan {
  const profile = profileOf(shape, around);
  const isRecorded = shape.samples !== undefined;
  const levels = levelsOf(shape);
  const { earlierLevels, toArrival } = isRecorded
    ? {
        earlierLevels: deepestStayOf(profile, around),
        toArrival: breathedMap(profile.toLastLevel, around.breathing),
      }
    : wayByLevels(profile, levels, around);
  const last = isRecorded ? lastOfRecorded(profile, earlierLevels) : lastPlanned(profile, levels);
  const toLeaving = breathedMap([profile.lastLevel], around.breathing, toArrival);
  const lastM = profile.lastLevel.toM;
  const directAscent = breathedMap(ascentLegs(lastM, [], around), around.breathing);
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
      profile.ascent.length === 1 && !isRecorded
        ? compose(toLeaving, directAscent)
        : breathedMap(profile.ascent, around.breathing, toLeaving),
    directAscent,
    earlierLevels,
    momentsUp: isRecorded ? momentsUpOf(profile, around) : NONE,
    isRecorded,
    lastLevel: last,
    breathedBarMin: atLeavingBarMin + barMinutes(profile.ascent),
    atLeavingBarMin,
    usualWayUp: emergencyWay(deepestM, stop === null ? [] : [stop], around),
    doses: new Map(),
    onMix: new Map(),
  };
}

type Plans = WeakMap<ProfileShape, DivePlan>;

const plansKnown: Plans = new WeakMap();

/** Those on loops, by their surroundings: who is on one dives with others who are not. */
const loopPlansKnown = new WeakMap<Surroundings, Plans>();

function plansOn(around: Surroundings): Plans {
  if (around.breathing === undefined) return plansKnown;
  let plans = loopPlansKnown.get(around);
  if (!plans) loopPlansKnown.set(around, (plans = new WeakMap()));
  return plans;
}

/** The plan of a profile; kept while the shape is the same object and the surroundings are too. */
export function divePlan(shape: ProfileShape, around: Surroundings): DivePlan {
  const plans = plansOn(around);
  const known = plans.get(shape);
  if (known?.around === around) return known;
  const plan = newDivePlan(shape, around);
  plans.set(shape, plan);
  return plan;
}

/** The plan of an entry's dive, as dived where that is known; required stops are no part of it. */
export function planOf(trip: Trip, entry: Pick<Entry, 'dive' | 'diver' | 'loop'>): DivePlan {
  return divePlan(effectiveDive(entry.dive, entry.diver).shape, aroundOf(trip, entry));
}
