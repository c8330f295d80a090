import type { Breathing } from './breathing';
import { assert } from './result';
import { ambientBar, waterColumn, type Water, type WaterColumn } from './water';

/** A part of a dive with one slope: pressure changes linearly from `fromBar` to `toBar` in `min` minutes. */
export interface Leg {
  readonly kind: 'descent' | 'level' | 'travel' | 'ascent' | 'stop';
  readonly fromM: number;
  readonly toM: number;
  readonly fromBar: number;
  readonly toBar: number;
  readonly min: number;
}

/** How fast a dive goes down and comes up, above 0. */
export interface Rates {
  readonly descentMPerMin: number;
  readonly ascentMPerMin: number;
}

/** Water and rates: what a profile depends on besides the dive. */
export interface Surroundings extends Rates {
  readonly column: WaterColumn;
  /** Left out: one mix, whose share of nitrogen is put into the maps when they are applied. */
  readonly breathing?: Breathing;
}

/** A stay at one depth of a dive. */
export interface Level {
  readonly depthM: number;
  /** Minutes, the travel to this level included. */
  readonly min: number;
}

/** A wait on the way up, for safety or because it is required. */
export interface Stop {
  readonly depthM: number;
  readonly min: number;
}

/** A moment of a dive that was recorded: minutes since leaving the surface, and depth in metres. */
export type Sample = readonly [min: number, depthM: number];

/** What of a dive shapes its profile, as planned or as dived. */
export interface ProfileShape {
  /** Deepest point; with `legs`, the deepest of them. */
  readonly depthM: number;
  /** From leaving the surface to leaving the bottom; with `legs`, their sum. */
  readonly bottomMin: number;
  readonly legs?: readonly Level[];
  /** null: none. Left out: 3 min at 5 m on a dive deeper than 10 m. */
  readonly safetyStop?: Stop | null;
  /** As it was recorded, from the surface to the surface: then nothing else of the shape decides where the diver was. */
  readonly samples?: readonly Sample[];
}

/** Safety stop where a dive says nothing. Source: common practice. */
export const USUAL_SAFETY_STOP: Stop = { depthM: 5, min: 3 };

/** Depth beyond which the usual safety stop is made. Source: common practice. */
export const SAFETY_STOP_BEYOND_M = 10;

/** The legs of a dive, cut where the no-stop limit and the ascent have to be asked. */
export interface Profile {
  /** From the surface to the arrival at the last level. */
  readonly toLastLevel: readonly Leg[];
  /** The stay at the last level; zero minutes where the travel took all of them. */
  readonly lastLevel: Leg;
  /** From the last level to the surface, the safety stop included. */
  readonly ascent: readonly Leg[];
  readonly deepestM: number;
  readonly bottomMin: number;
}

function leg(kind: Leg['kind'], fromM: number, toM: number, min: number, column: WaterColumn): Leg {
  return { kind, fromM, toM, fromBar: ambientBar(fromM, column), toBar: ambientBar(toM, column), min };
}

/**
 * Minutes of travel between two depths at the trip's rates.
 * @param fromM metres @param toM metres; down at the descent rate, up at the ascent rate
 * @returns minutes
 * Source: definition of a rate.
 */
export function travelMin(fromM: number, toM: number, rates: Surroundings): number {
  const metres = toM - fromM;
  return metres >= 0 ? metres / rates.descentMPerMin : -metres / rates.ascentMPerMin;
}

/** The levels of a dive: its `legs`, or its depth and bottom time as a single one. */
export function levelsOf(shape: ProfileShape): readonly Level[] {
  return shape.legs ?? [{ depthM: shape.depthM, min: shape.bottomMin }];
}

/**
 * The safety stop a dive makes: its own, none where it says null, else the usual one when deeper than 10 m.
 * @returns null also where the stop lies no shallower than the last level, as there is nothing to rise to
 * Source: common practice.
 */
export function safetyStopOf(shape: ProfileShape): Stop | null {
  const levels = levelsOf(shape);
  const deepestM = Math.max(...levels.map((level) => level.depthM));
  const lastM = levels[levels.length - 1]!.depthM;
  const wanted =
    shape.safetyStop === undefined
      ? deepestM > SAFETY_STOP_BEYOND_M
        ? USUAL_SAFETY_STOP
        : null
      : shape.safetyStop;
  return wanted !== null && wanted.depthM < lastM ? wanted : null;
}

/**
 * The way up: straight to each stop in turn, then to the surface.
 * @param fromM metres @param stops deepest first, each shallower than the one before
 * @returns ascent and stop legs; the last one ends at the surface
 * Source: definition; rate as set for the trip.
 */
export function ascentLegs(fromM: number, stops: readonly Stop[], around: Surroundings): readonly Leg[] {
  const legs: Leg[] = [];
  let depthM = fromM;
  for (const stop of stops) {
    assert(stop.depthM <= depthM, 'a stop below the depth it is reached from');
    if (stop.depthM < depthM) {
      legs.push(leg('ascent', depthM, stop.depthM, travelMin(depthM, stop.depthM, around), around.column));
    }
    legs.push(leg('stop', stop.depthM, stop.depthM, stop.min, around.column));
    depthM = stop.depthM;
  }
  legs.push(leg('ascent', depthM, 0, travelMin(depthM, 0, around), around.column));
  return legs;
}

/**
 * The legs of a dive.
 * @param shape depth and bottom time, or levels; every level long enough for the travel to it (the schema
 *   refuses others)
 * @param around water and rates
 * @returns descent, levels and ascent; bottom time runs from leaving the surface to leaving the last level
 * Source: definition of bottom time, U.S. Navy Diving Manual Revision 7 (2016), ch. 9; rates as set.
 */
export function profileOf(shape: ProfileShape, around: Surroundings): Profile {
  if (shape.samples) return recordedProfile(shape.samples, shape, around);
  const levels = levelsOf(shape);
  const toLastLevel: Leg[] = [];
  let depthM = 0;
  let bottomMin = 0;
  let lastLevel: Leg | undefined;
  for (const level of levels) {
    if (lastLevel) toLastLevel.push(lastLevel);
    const travel = travelMin(depthM, level.depthM, around);
    assert(travel <= level.min * (1 + 1e-12), 'a level shorter than the travel to it');
    if (travel > 0) {
      const kind = toLastLevel.length === 0 ? 'descent' : 'travel';
      toLastLevel.push(leg(kind, depthM, level.depthM, travel, around.column));
    }
    lastLevel = leg('level', level.depthM, level.depthM, Math.max(0, level.min - travel), around.column);
    depthM = level.depthM;
    bottomMin += level.min;
  }
  assert(lastLevel !== undefined, 'a dive without a level');
  const stop = safetyStopOf(shape);
  return {
    toLastLevel,
    lastLevel,
    ascent: ascentLegs(depthM, stop ? [stop] : [], around),
    deepestM: Math.max(...levels.map((level) => level.depthM)),
    bottomMin,
  };
}

/** The part of a leg up to so many minutes, and what is left of it. */
function cut(whole: Leg, min: number, column: WaterColumn): readonly [Leg, Leg] {
  const atM = whole.fromM + (min / whole.min) * (whole.toM - whole.fromM);
  return [
    leg(whole.kind, whole.fromM, atM, min, column),
    leg(whole.kind, atM, whole.toM, whole.min - min, column),
  ];
}

/**
 * The legs of a dive that was recorded: one between every two samples. The last level lasts no time: the bottom is left
 * where bottom time ends, and what comes after it is the way up as it was made.
 */
function recordedProfile(
  samples: readonly Sample[],
  { depthM, bottomMin }: ProfileShape,
  { column }: Surroundings,
): Profile {
  const toLastLevel: Leg[] = [];
  const ascent: Leg[] = [];
  let [[min, fromM]] = samples as readonly [Sample];
  for (const [endMin, toM] of samples.slice(1)) {
    const whole = leg('travel', fromM, toM, endMin - min, column);
    if (endMin <= bottomMin) toLastLevel.push(whole);
    else if (min >= bottomMin) ascent.push({ ...whole, kind: 'ascent' });
    else {
      const [before, after] = cut(whole, bottomMin - min, column);
      toLastLevel.push(before);
      ascent.push({ ...after, kind: 'ascent' });
    }
    [min, fromM] = [endMin, toM];
  }
  const lastM = ascent[0]?.fromM ?? 0;
  return {
    toLastLevel,
    lastLevel: leg('level', lastM, lastM, 0, column),
    ascent,
    deepestM: depthM,
    bottomMin,
  };
}

/** All legs of a profile in order, surface to surface. */
export function legsOf(profile: Profile): readonly Leg[] {
  return [...profile.toLastLevel, profile.lastLevel, ...profile.ascent];
}

/**
 * Minutes from leaving the surface to being back.
 * @param legs in order @returns minutes, their sum
 * Source: definition.
 */
export function runtimeMin(legs: readonly Leg[]): number {
  return legs.reduce((sum, each) => sum + each.min, 0);
}

const surroundingsKnown = new WeakMap<Water, WeakMap<Rates, Surroundings>>();

/** Water and rates of a trip; the same object while both stay the same. */
export function surroundingsOf(trip: { readonly water: Water; readonly settings: Rates }): Surroundings {
  const { water, settings } = trip;
  let byRates = surroundingsKnown.get(water);
  if (!byRates) surroundingsKnown.set(water, (byRates = new WeakMap()));
  let around = byRates.get(settings);
  if (!around) {
    const { descentMPerMin, ascentMPerMin } = settings;
    around = { column: waterColumn(water), descentMPerMin, ascentMPerMin };
    byRates.set(settings, around);
  }
  return around;
}

/** Above this depth a way up is told from a stay by nothing, as stops are made there. Source: common practice. */
const STOPS_ABOVE_M = 6;

/** What rises more slowly is still dived, not an ascent, metres a minute. Source: the slowest ascent a trip may have. */
const SLOWEST_ASCENT_M_PER_MIN = 3;

/** A bottom left sooner was touched, and the dive was made above it. Source: the trip file's own range of bottom time. */
const SHORTEST_BOTTOM_MIN = 1;

/**
 * When a diver left the bottom on a dive that was recorded: as late as it can be read, so that bottom time is long. What
 * comes after it lies above 6 m, or above half the depth of a shallower dive, or rises at 3 m/min or more. Where that
 * leaves less than a minute all counts but the last rise, as on a dive along 5 m that touched 13 m at its beginning.
 * @param samples two or more, in order of time
 * @returns minutes since the first sample
 * Source: CONVENTIONS, "Recorded profiles".
 */
export function leavesBottomMin(samples: readonly Sample[]): number {
  const min = staysBelowMin(samples, Math.min(STOPS_ABOVE_M, deepestOf(samples) / 2));
  return min < SHORTEST_BOTTOM_MIN ? staysBelowMin(samples, 0) : min;
}

/** When a diver was last below a depth without rising. */
function staysBelowMin(samples: readonly Sample[], aboveM: number): number {
  let at = samples.length - 1;
  while (at > 0) {
    const [fromMin, fromM] = samples[at - 1]!;
    const [toMin, toM] = samples[at]!;
    const rises = fromM - toM >= SLOWEST_ASCENT_M_PER_MIN * (toMin - fromMin) * (1 - 1e-9);
    if (Math.max(fromM, toM) > aboveM && !rises) break;
    at -= 1;
  }
  return samples[at]![0];
}

/** The deepest of some samples, metres. */
export function deepestOf(samples: readonly Sample[]): number {
  return samples.reduce((deepest, [, depthM]) => Math.max(deepest, depthM), 0);
}
