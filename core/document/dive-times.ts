import {
  legsOf,
  levelsOf,
  profileOf,
  runtimeMin,
  safetyStopOf,
  travelMin,
  type ProfileShape,
  type Surroundings,
  surroundingsOf,
} from '../profile';
import {
  either,
  figure,
  inRow,
  moment,
  named,
  NOTHING,
  said,
  subject,
  typed,
  type Figure,
  type Moment,
  type Named,
  type SaidTrouble,
  type Typed,
} from '../words/said';
import { effectiveDive, makesDive } from './as-dived';
import { wallMin, wallText, type WallMin, type WallTime } from '../words/calendar';
import { greatest } from '../numeric';
import type { TripPath } from './place-in-trip';
import { isEnough, type Found } from './reference-parts';
import { excerpt } from './texts';
import type { Dive, Diver, Id, Trip } from './types';

/** Minutes and metres are equal within this; sums of decimal fractions miss by less. */
const SAME = 1e-6;

/** Longest trip, days; earlier dives and the flight included. */
const LONGEST_DAYS = 366;

/** A trip of which some dives may be unusable: those have no times to judge. */
export interface TimedTrip {
  readonly trip: Trip;
  /** null: every dive is sound. */
  readonly unsound: {
    readonly dives: ReadonlySet<number>;
    readonly divers: ReadonlySet<number>;
    readonly flight: boolean;
  } | null;
}

/** In a file an id says nothing of what it is; in the window the name does. */
const THE_DIVE = either(said`the dive `, NOTHING);

/** Minutes to the tenth: what is reckoned has no end of digits. */
function minutes(min: number): Figure {
  return figure('minutesTyped', min);
}

function metres(depthM: number): Typed {
  return typed('depth', depthM, 'near');
}

function momentOf(min: WallMin): Moment {
  return moment(wallText(min));
}

type ProfileTrouble = SaidTrouble & { readonly at: TripPath };

/** Levels that are over before the diver is there. */
function tooShort(shape: ProfileShape, around: Surroundings): readonly ProfileTrouble[] {
  const found: ProfileTrouble[] = [];
  let depthM = 0;
  for (const [index, level] of levelsOf(shape).entries()) {
    const travel = travelMin(depthM, level.depthM, around);
    depthM = level.depthM;
    if (travel <= level.min * (1 + 1e-12)) continue;
    const what = said`${minutes(level.min)} ${level.min === 1 ? 'is' : 'are'} over before ${metres(level.depthM)} is reached: the way there takes ${minutes(travel)}.`;
    found.push(
      shape.legs === undefined
        ? {
            at: ['bottomMin'],
            what,
            mend: said`Give a longer bottom time (it begins at the surface) or a lesser depth.`,
          }
        : {
            at: ['legs', index, 'min'],
            what,
            mend: said`Give the level more minutes, the travel to it included.`,
          },
    );
  }
  return found;
}

/** Depth and bottom time that do not agree with the levels beside them. */
function disagreeing({ legs, ...shape }: ProfileShape): readonly ProfileTrouble[] {
  if (legs === undefined) return [];
  const found: ProfileTrouble[] = [];
  const deepestM = greatest(legs.map((level) => level.depthM));
  if (Math.abs(deepestM - shape.depthM) > SAME) {
    found.push({
      at: ['depthM'],
      what: said`Depth is ${typed('depth', shape.depthM)}, but the deepest level is ${typed('depth', deepestM)}.`,
      mend: said`Make them agree, or leave the depth out beside levels.`,
    });
  }
  const sumMin = legs.reduce((sum, level) => sum + level.min, 0);
  if (Math.abs(sumMin - shape.bottomMin) > SAME) {
    found.push({
      at: ['bottomMin'],
      what: said`Bottom time is ${typed('minutes', shape.bottomMin)}, but the levels take ${minutes(sumMin)}.`,
      mend: said`Make them agree, or leave the bottom time out beside levels.`,
    });
  }
  return found;
}

/** All that is wrong with a profile by itself. */
function profileTroubles(shape: ProfileShape, around: Surroundings): readonly ProfileTrouble[] {
  const found = [...disagreeing(shape), ...tooShort(shape, around)];
  if (shape.safetyStop && safetyStopOf(shape) === null) {
    const levels = levelsOf(shape);
    found.push({
      at: ['safetyStop', 'depthM'],
      what: said`A stop at ${metres(shape.safetyStop.depthM)} is not above the last level at ${metres(levels[levels.length - 1]!.depthM)}.`,
      mend: said`Give a shallower stop, or ${either(said`null for none`, said`none`)}.`,
    });
  }
  return found;
}

/** A stop planned for the dive may lie too deep for what was dived: it is then no mistake, but not made. */
function square(shape: ProfileShape): ProfileShape {
  return { depthM: shape.depthM, bottomMin: shape.bottomMin };
}

/** The record of a dive that gave a diver's bottom time, or else the depth. */
function recordPath(dive: Dive, diverId: Id): TripPath {
  const records = dive.asDived ?? [];
  for (const key of ['bottomMin', 'depthM'] as const) {
    const own = records.findIndex((record) => record.by === diverId && record[key] !== undefined);
    const any = records.findIndex((record) => record.by === undefined && record[key] !== undefined);
    const index = own >= 0 ? own : any;
    if (index >= 0) return ['asDived', index, key];
  }
  return ['asDived'];
}

/** Judges the plan of a dive and what each diver made of it; true where all can be computed. */
function profilesStand(
  dive: Dive,
  party: readonly Diver[],
  path: TripPath,
  around: Surroundings,
  found: Found[],
): boolean {
  const planned = profileTroubles(dive, around);
  for (const { at, what, mend } of planned) found.push({ path: [...path, ...at], what, mend });
  if (planned.length > 0) return false;
  if (dive.asDived === undefined) return true;
  const told = new Set<string>();
  for (const diver of party) {
    const { shape } = effectiveDive(dive, diver);
    const isSound = shape === dive || shape.samples !== undefined || !makesDive(dive, diver.id);
    const [trouble] = isSound ? [] : tooShort(square(shape), around);
    if (!trouble) continue;
    const at = [...path, ...recordPath(dive, diver.id)];
    // A record for everybody is told once, not for each of them.
    if (!told.has(at.join())) found.push({ path: at, what: trouble.what, mend: trouble.mend });
    told.add(at.join());
  }
  return told.size === 0;
}

/** One dive of one diver on the clock. */
interface Span {
  readonly path: TripPath;
  readonly id: Id;
  readonly startMin: WallMin;
  readonly endMin: WallMin;
}

const lengthsKnown = new WeakMap<ProfileShape, { readonly around: Surroundings; readonly min: number }>();

/** Minutes from surface to surface; kept while the shape is the same object, as most are after an edit. */
function lengthMin(shape: ProfileShape, around: Surroundings): number {
  const known = lengthsKnown.get(shape);
  if (known?.around === around) return known.min;
  const min = runtimeMin(legsOf(profileOf(shape, around)));
  lengthsKnown.set(shape, { around, min });
  return min;
}

function span(path: TripPath, id: Id, shape: ProfileShape, startMin: WallMin, around: Surroundings): Span {
  return { path, id, startMin, endMin: startMin + lengthMin(shape, around) };
}

/** Dives of one diver that begin before the one listed earlier is over, by who they are. */
type Clashes = Map<string, { readonly before: Span; readonly dive: Span; readonly names: string[] }>;

function noteClash(before: Span | undefined, dive: Span, diver: Diver, clashes: Clashes): void {
  if (!before || dive.startMin >= before.endMin - SAME) return;
  const key = `${before.path.join()} ${dive.path.join()} ${before.endMin} ${dive.startMin}`;
  const clash = clashes.get(key) ?? { before, dive, names: [] };
  clash.names.push(diver.name);
  clashes.set(key, clash);
}

function nameOf({ path, id }: Span): Named {
  return named(path[0] === 'party' ? 'earlier dive' : 'dive', id);
}

function clashTrouble(
  { before, dive, names }: { before: Span; dive: Span; names: readonly string[] },
  partySize: number,
): Found {
  const [it, ahead] = [{ is: 'subject', subject: nameOf(dive) } as const, nameOf(before)];
  const who = names.length === partySize ? said`the party` : inRow(names);
  return {
    path: [...dive.path, 'startsAt'],
    what:
      dive.startMin < before.startMin
        ? said`${it} starts ${momentOf(dive.startMin)}, before the dive listed ahead of it (${ahead}, ${momentOf(before.startMin)}).`
        : said`${it} starts ${momentOf(dive.startMin)}, while ${who} surfaces from ${ahead} at ${momentOf(before.endMin)}.`,
    mend:
      dive.startMin < before.startMin
        ? said`List the dives in the order of their start.`
        : said`Start it at ${momentOf(before.endMin)} or later, or leave the diver out of one of the two.`,
  };
}

function earlierTroubles(
  diver: Diver,
  path: TripPath,
  around: Surroundings,
  clashes: Clashes,
  found: Found[],
): Span | undefined {
  let last: Span | undefined;
  const climbMin = diver.arrivedAt === undefined ? null : wallMin(diver.arrivedAt);
  diver.before?.forEach((dive, index) => {
    const at = [...path, 'before', index];
    const troubles = profileTroubles(dive, around);
    for (const each of troubles) found.push({ path: [...at, ...each.at], what: each.what, mend: each.mend });
    if (troubles.length > 0) return;
    const dived = span(at, dive.id, dive, wallMin(dive.startsAt), around);
    noteClash(last, dived, diver, clashes);
    if (climbMin !== null && climbMin > dived.startMin && climbMin < dived.endMin) {
      found.push({
        path: [...path, 'arrivedAt'],
        what: said`The arrival falls into ${THE_DIVE}${named('earlier dive', dive.id)}.`,
        mend: said`Give a time before or after it.`,
      });
    }
    last = dived;
  });
  return last;
}

/** The party is in one place at a time: events stand in order and end before the next begins. */
function eventTroubles({ events = [] }: Trip, found: Found[]): void {
  events.forEach(({ title, from, to }, index) => {
    const path = ['events', index];
    const before = events[index - 1];
    // Wall-clock text of one form sorts as time does.
    if (to <= from) {
      found.push({
        path: [...path, 'to'],
        what: said`“${excerpt(title)}” ends ${moment(to)}, before it has begun (${moment(from)}).`,
        mend: said`Give an end after the beginning.`,
      });
    } else if (before !== undefined && from < before.to) {
      found.push({
        path: [...path, 'from'],
        what: said`“${excerpt(title)}” begins ${moment(from)}, while “${excerpt(before.title)}” lasts until ${moment(before.to)}.`,
        mend: said`Give the events in order, each beginning when the one before has ended or later.`,
      });
    }
  });
}

/** A trip over years is a slip in a date, and would make every band a year wide. */
function lengthTrouble({ trip, unsound }: TimedTrip): Found | null {
  const times: { readonly text: WallTime; readonly path: TripPath }[] = [];
  trip.dives.forEach((dive, index) => {
    if (!unsound?.dives.has(index)) times.push({ text: dive.startsAt, path: ['dives', index, 'startsAt'] });
  });
  trip.party.forEach((diver, index) => {
    const first = unsound?.divers.has(index) ? undefined : diver.before?.[0];
    if (first) times.push({ text: first.startsAt, path: ['party', index, 'before', 0, 'startsAt'] });
  });
  // Of a broken document they are not looked at: the rest tells a wrong year too.
  if (unsound === null) {
    trip.events?.forEach(({ from, to }, index) => {
      times.push(
        { text: from, path: ['events', index, 'from'] },
        { text: to, path: ['events', index, 'to'] },
      );
    });
  }
  if (trip.flight && !unsound?.flight) times.push({ text: trip.flight.at, path: ['flight', 'at'] });
  if (times.length === 0) return null;
  // Wall-clock text of one form sorts as time does.
  const first = times.reduce((early, time) => (time.text < early.text ? time : early));
  const last = times.reduce((late, time) => (time.text > late.text ? time : late));
  const days = Math.floor((wallMin(last.text) - wallMin(first.text)) / 1440);
  return days <= LONGEST_DAYS
    ? null
    : {
        path: last.path,
        what: said`It lies ${String(days)} days after the first time of the trip (${moment(first.text)}); there can be ${String(LONGEST_DAYS)}.`,
        mend: said`Look for a wrong year or month.`,
      };
}

/**
 * Judges times: levels that add up and last long enough to be reached, dives in order and none of a diver's
 * inside another, as planned and as dived, earlier dives before the trip, and a trip of sensible length.
 * @param timed the trip with its defaults, and which of its dives and divers are broken and stay out
 * @returns every trouble found
 * Source: the trip file of this project, version 3; bottom time as in profile.ts.
 */
export function timeTroubles({ trip, unsound }: TimedTrip): readonly Found[] {
  const found: Found[] = [];
  const around = surroundingsOf(trip);
  const party = trip.party.filter((_, index) => !unsound?.divers.has(index));
  const standing: { readonly dive: Dive; readonly path: TripPath }[] = [];
  let last: { readonly startsAt: string; readonly id: Id } | undefined;
  trip.dives.forEach((dive, index) => {
    if (isEnough(found) || unsound?.dives.has(index)) return;
    const path = ['dives', index];
    if (last && dive.startsAt < last.startsAt) {
      found.push({
        path: [...path, 'startsAt'],
        what: said`${subject('dive', dive.id)} starts ${moment(dive.startsAt)}, before the dive listed ahead of it (${named('dive', last.id)}, ${moment(last.startsAt)}).`,
        mend: said`List the dives in the order of their start.`,
      });
    } else if (profilesStand(dive, party, path, around, found)) standing.push({ dive, path });
    last = dive;
  });
  const clashes: Clashes = new Map();
  trip.party.forEach((diver, index) => {
    if (isEnough(found) || unsound?.divers.has(index)) return;
    const path = ['party', index];
    let before = earlierTroubles(diver, path, around, clashes, found);
    const climbMin = diver.arrivedAt === undefined ? null : wallMin(diver.arrivedAt);
    let isFirst = true;
    for (const { dive, path: at } of standing) {
      if (!makesDive(dive, diver.id)) continue;
      const { shape, startMin } = effectiveDive(dive, diver);
      if (isFirst && climbMin !== null && climbMin > startMin) {
        found.push({
          path: [...path, 'arrivedAt'],
          what: said`The arrival is after the start of ${THE_DIVE}${named('dive', dive.id)}.`,
          mend: said`Give the time at which the diver came up to the altitude, before the first dive.`,
        });
      }
      isFirst = false;
      const dived = span(at, dive.id, shape, startMin, around);
      noteClash(before, dived, diver, clashes);
      before = dived;
    }
  });
  if (unsound === null) eventTroubles(trip, found);
  for (const clash of clashes.values()) found.push(clashTrouble(clash, party.length));
  const length = lengthTrouble({ trip, unsound });
  if (length) found.push(length);
  return found;
}
