/** Edits of dives. Each returns what became of it; dives stay in order of start. */
import { assert, failure } from '../../core/result';
import { wallMin, wallText, type WallTime } from '../../core/words/calendar';
import { siteOf } from '../../core/document/site-of';
import type { Dive, Id, Site, Trip } from '../../core/document/types';
import { minutesText } from '../figures/format';
import { fromUnit } from '../../core/words/quantity';
import { usualStop } from '../store/blank-trip';
import { diveNumber } from '../store/selectors';
import { desk } from '../store/store';
import { edit, type EditResult } from './edit';
import { freeId } from './ids';
import { copyShift, dayShift } from './next-start';
import { chooseDives } from './view';
import type { Level } from '../../core/profile';

/** The dives in order of start; the same array where they are. */
export function inOrder(dives: readonly Dive[]): readonly Dive[] {
  const ordered = dives.every((dive, i) => i === 0 || dives[i - 1]!.startsAt <= dive.startsAt);
  return ordered
    ? dives
    : dives.toSorted((a, b) => (a.startsAt < b.startsAt ? -1 : a.startsAt > b.startsAt ? 1 : 0));
}

function withDives(trip: Trip, dives: readonly Dive[]): Trip {
  return { ...trip, dives: inOrder(dives) };
}

function named(what: string, diveId: Id): string {
  return `${what} of dive ${diveNumber(desk.getState().trip, diveId)}`;
}

/** One change of one dive, as a step of the history. */
export function editDive(diveId: Id, what: string, code: string, change: (dive: Dive) => Dive): EditResult {
  return edit({ label: named(what, diveId), code }, (trip) => {
    const dives = trip.dives.map((dive) => (dive.id === diveId ? change(dive) : dive));
    return withDives(trip, dives);
  });
}

/** The same change of one dive or several, in one step. */
export function editDives(
  ids: readonly Id[],
  what: string,
  code: string,
  change: (dive: Dive, trip: Trip) => Dive,
): EditResult {
  const [only] = ids;
  const label = ids.length === 1 && only !== undefined ? named(what, only) : `${what} of ${ids.length} dives`;
  return edit({ label, code }, (trip) =>
    withDives(
      trip,
      trip.dives.map((dive) => (ids.includes(dive.id) ? change(dive, trip) : dive)),
    ),
  );
}

/** Removes a key rather than setting it undefined: the file says nothing where nothing was said. */
export function without<T extends object, Key extends keyof T>(value: T, key: Key): Omit<T, Key> {
  const { [key]: _, ...rest } = value;
  return rest;
}

/** The deepest point; on a dive of several levels all of them shift alike, as `room.m` reckons. */
export function setDepth(diveId: Id, depthM: number): EditResult {
  return editDive(diveId, 'Depth', 'dive.depth', (dive) => withDepth(dive, depthM));
}

export function withDepth(dive: Dive, depthM: number): Dive {
  if (!dive.legs) return { ...dive, depthM };
  const byM = depthM - dive.depthM;
  return { ...dive, depthM, legs: dive.legs.map((level) => ({ ...level, depthM: level.depthM + byM })) };
}

/** From leaving the surface to leaving the bottom; on a dive of several levels the last one takes the change. */
export function setBottomMin(ids: Id | readonly Id[], bottomMin: number): EditResult {
  const wanted = typeof ids === 'string' ? [ids] : ids;
  const before = desk
    .getState()
    .trip.dives.filter(({ id }) => wanted.includes(id))
    .map(({ legs = [] }) => legs.slice(0, -1).reduce((sum, level) => sum + level.min, 0));
  const beforeMin = Math.max(0, ...before);
  if (beforeMin > 0 && bottomMin <= beforeMin) {
    return failure({
      kind: 'invalid',
      what: `The levels before the last one take ${minutesText(beforeMin, 'up')} already.`,
      where: '',
      mend: 'Give a longer bottom time, or shorten those levels first.',
    });
  }
  return editDives(wanted, 'Bottom time', 'dive.bottom', (dive) => withBottomMin(dive, bottomMin));
}

export function withBottomMin(dive: Dive, bottomMin: number): Dive {
  if (!dive.legs) return { ...dive, bottomMin };
  const byMin = bottomMin - dive.bottomMin;
  const last = dive.legs.length - 1;
  const legs = dive.legs.map((level, i) => (i === last ? { ...level, min: level.min + byMin } : level));
  return { ...dive, bottomMin, legs };
}

export function setStart(diveId: Id, startsAt: WallTime): EditResult {
  return editDive(diveId, 'Start', 'dive.start', (dive) => ({ ...dive, startsAt }));
}

export function setMix(ids: Id | readonly Id[], mix: 'auto' | Id): EditResult {
  return editDives(typeof ids === 'string' ? [ids] : ids, 'Mix', 'dive.mix', (dive) => ({ ...dive, mix }));
}

/** Takes dives to a site, which brings its levels or its depth: one step, so that undo brings back all of it. */
export function goToSite(ids: readonly Id[], siteId: Id): EditResult {
  const { trip } = desk.getState();
  const site = siteOf(trip, { siteId });
  assert(site !== undefined, 'a site that is not in the trip');
  return editDives(ids, 'Site', 'dive.site', (dive) =>
    dive.siteId === siteId ? dive : { ...asAtSite(dive, site), siteId },
  );
}

/** Takes the depth of its site: the deepest levels go there, and no level stays deeper; the others are left. */
export function takeSiteDepth(diveId: Id): EditResult {
  const { trip } = desk.getState();
  const asked = trip.dives.find(({ id }) => id === diveId);
  const siteM = asked && siteOf(trip, asked)?.depthM;
  assert(siteM !== undefined, 'a dive whose site is not in the trip');
  return editDive(diveId, 'Depth', 'dive.depth', (dive) => atDepthOf(dive, siteM));
}

/** As a site is usually dived: by its levels where it has them, with their times; else down to its depth. */
function asAtSite(dive: Dive, { levels, depthM }: Site): Dive {
  return levels !== undefined && levels.length > 0 ? withLevels(dive, levels) : atDepthOf(dive, depthM);
}

/** The deepest levels at a depth and none deeper; the others as they are. */
export function atDepthOf(dive: Dive, siteM: number): Dive {
  if (!dive.legs) return { ...dive, depthM: siteM };
  const legs = dive.legs.map(({ depthM, min }) => ({
    depthM: depthM === dive.depthM ? siteM : Math.min(depthM, siteM),
    min,
  }));
  return withLevels(dive, oneAfterOther(legs));
}

/** Levels in a row that lie as deep are one. */
function oneAfterOther(legs: readonly Level[]): readonly Level[] {
  const made: Level[] = [];
  for (const level of legs) {
    const before = made.at(-1);
    if (before?.depthM !== level.depthM) made.push(level);
    else made[made.length - 1] = { depthM: level.depthM, min: before.min + level.min };
  }
  return made;
}

export function withLevels(dive: Dive, legs: readonly Level[]): Dive {
  const depthM = Math.max(...legs.map((level) => level.depthM));
  const bottomMin = legs.reduce((sum, level) => sum + level.min, 0);
  return legs.length === 1
    ? { ...without(dive, 'legs'), depthM, bottomMin }
    : { ...dive, legs, depthM, bottomMin };
}

/** What a new dive takes over from the trip where the caller says nothing. */
export interface NewDive {
  readonly startsAt: WallTime;
  readonly siteId?: Id;
  readonly depthM?: number;
  readonly bottomMin?: number;
}

/** A cautious beginning to edit from: never deeper than this unless the caller says so. */
const FIRST_DEPTH_M = { metric: 18, imperial: fromUnit(60, 'depth', 'imperial') } as const;
const FIRST_BOTTOM_MIN = 30;

/** Adds a dive and selects it. The site is the one of the dive before unless given; a trip without sites gets one. */
export function addDive(wish: NewDive): EditResult {
  const { trip: now, settings } = desk.getState();
  const id = freeId('d', now.dives);
  const firstM = FIRST_DEPTH_M[settings.units];
  const result = edit({ label: 'New dive', code: 'dive.add' }, (trip) => {
    const before = trip.dives.findLast((dive) => dive.startsAt <= wish.startsAt);
    const known = trip.sites.find((site) => site.id === (wish.siteId ?? before?.siteId)) ?? trip.sites[0];
    const site: Site = known ?? { id: 'site-1', name: 'First site', depthM: firstM, notes: '' };
    const depthM = wish.depthM ?? Math.min(site.depthM, firstM);
    const dive: Dive = {
      id,
      siteId: site.id,
      startsAt: wish.startsAt,
      depthM,
      bottomMin: wish.bottomMin ?? FIRST_BOTTOM_MIN,
      mix: 'auto',
      ...usualStop(settings.units, depthM),
    };
    const withSite = known ? trip : { ...trip, sites: [site] };
    return withDives(withSite, [...trip.dives, dive]);
  });
  if (result.ok) chooseDives([id]);
  return result;
}

/** Copies dives to a later time and selects the copies. */
function copyDives(name: string, code: string, ids: readonly Id[], byMin: number): EditResult {
  const { dives } = desk.getState().trip;
  const moved = dives
    .filter(({ id }) => ids.includes(id))
    .map((dive) => ({ ...dive, startsAt: wallText(wallMin(dive.startsAt) + byMin) }));
  return addCopies(moved, name, code);
}

/** Puts copies of dives into the trip, at the starts they are given, and selects them; what was logged is no part of them. */
export function addCopies(dives: readonly Dive[], name: string, code = 'dive.copy'): EditResult {
  const copies: Id[] = [];
  const result = edit({ label: name, code }, (trip) => {
    const all: Dive[] = [...trip.dives];
    for (const dive of dives) {
      const id = freeId('d', all);
      copies.push(id);
      const { asDived: _, notDived: __, added: ___, ...planned } = dive;
      all.push({ ...planned, id });
    }
    return withDives(trip, all);
  });
  if (result.ok && copies.length > 0) chooseDives(copies);
  return result;
}

/** A copy of each dive at the next free moment; what was really dived stays with the original. */
export function duplicateDives(ids: readonly Id[]): EditResult {
  return copyDives(
    ids.length === 1 ? 'Copy of a dive' : `Copy of ${ids.length} dives`,
    'dive.copy',
    ids,
    copyShift(desk.getState(), ids),
  );
}

/** A copy of a day's dives on the first later day without any; refused where that is too close to the flight. */
export function duplicateDay(date: string): EditResult {
  const state = desk.getState();
  const byMin = dayShift(state, date);
  if (typeof byMin !== 'number') return failure(byMin);
  const ids = state.trip.dives.filter((dive) => dive.startsAt.startsWith(date)).map((dive) => dive.id);
  return copyDives('Copy of a day', 'day.copy', ids, byMin);
}

export function deleteDives(ids: readonly Id[]): EditResult {
  const { trip } = desk.getState();
  const only = ids.length === 1 ? ids[0] : undefined;
  const label =
    only === undefined ? `Removal of ${ids.length} dives` : `Removal of dive ${diveNumber(trip, only)}`;
  return edit({ label, code: 'dive.delete' }, (before) => {
    const dives = before.dives.filter((dive) => !ids.includes(dive.id));
    return { ...before, dives };
  });
}

/** Moves dives in time and depth together; all of them or none. */
export function shiftDives(ids: readonly Id[], byMin: number, byM = 0): EditResult {
  const only = ids.length === 1 ? ids[0] : undefined;
  const label = only === undefined ? `Shift of ${ids.length} dives` : named('Shift', only);
  return edit({ label, code: 'dive.shift' }, (trip) => {
    const dives = trip.dives.map((dive) => {
      if (!ids.includes(dive.id)) return dive;
      const later = byMin === 0 ? dive : { ...dive, startsAt: wallText(wallMin(dive.startsAt) + byMin) };
      return byM === 0 ? later : withDepth(later, later.depthM + byM);
    });
    return withDives(trip, dives);
  });
}
