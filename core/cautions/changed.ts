/** What came of a trip since an earlier version of it, as far as it can still be changed. */
import { logState } from '../document/log';
import { rateOn } from '../document/gas-rate';
import type { DayDate, Dive, Diver, Id, Trip } from '../document/types';
import type { Entry, Ledger } from '../ledger/ledger-types';
import type { MinutesRoom } from '../ledger/room';
import { tightestOf, type RoomOf } from '../ledger/tightest';
import type { WallMin } from '../words/calendar';
import { dayOf, figure, inRow, moment, said, type Piece, type Said } from '../words/said';
import { countSaid } from '../words/terms';
import { cautionsOf } from './all';
import type { Caution } from './caution';

/** A trip's ledger and the rooms of its entries. */
export interface Reckoned {
  readonly ledger: Ledger;
  readonly roomOf: RoomOf;
}

/** Who has the least room on a dive, and how much. */
export interface LeastRoom extends MinutesRoom {
  readonly entry: Entry;
}

/** A dive ahead before and after; null on the side where nobody makes it. */
export interface DiveChange {
  readonly diveId: Id;
  readonly was: LeastRoom | null;
  readonly is: LeastRoom | null;
}

/** From when flying is clear for the last of the party, and who that is. */
export interface FlyAfter {
  readonly atMin: WallMin;
  readonly diverId: Id;
}

/** What changed between two versions of a trip. */
export interface Changes {
  /** What was done to the trip, a sentence each. */
  readonly deeds: readonly Said[];
  /** Dives ahead as the trip is now, in its order; then those that were ahead and are gone. */
  readonly dives: readonly DiveChange[];
  readonly come: readonly Caution[];
  readonly gone: readonly Caution[];
  readonly fly: { readonly was: FlyAfter | null; readonly is: FlyAfter | null };
}

function leastOf({ ledger, roomOf }: Reckoned, diveId: Id): LeastRoom | null {
  const entries = ledger.divers.flatMap((each) => each.entries.filter(({ dive }) => dive.id === diveId));
  const entry = tightestOf(entries, roomOf)[0] ?? entries[0];
  return entry === undefined ? null : { entry, ...roomOf(entry) };
}

function flyOf({ divers }: Ledger): FlyAfter | null {
  let latest: FlyAfter | null = null;
  for (const { diver, flyAfterMin } of divers) {
    if (flyAfterMin !== null && flyAfterMin > (latest?.atMin ?? -Infinity))
      latest = { atMin: flyAfterMin, diverId: diver.id };
  }
  return latest;
}

/** Whom a caution concerns, one key each: told of all it is the same as told of each. */
function keysOf({ code, diveId, diverId }: Caution, { divers }: Ledger): readonly string[] {
  const whom =
    diverId !== null
      ? [diverId]
      : divers
          .filter(({ entries }) => diveId === null || entries.some(({ dive }) => dive.id === diveId))
          .map(({ diver }) => diver.id);
  return whom.map((id) => `${code}/${diveId ?? ''}/${id}`);
}

/** Cautions of one ledger that the other has not, for somebody; of dives asked about or of the whole trip. */
function notIn(of: Ledger, other: Ledger, asked: ReadonlySet<Id>): readonly Caution[] {
  const known = new Set(cautionsOf(other).flatMap((caution) => keysOf(caution, other)));
  return cautionsOf(of).filter(
    (caution) =>
      (caution.diveId === null || asked.has(caution.diveId)) &&
      keysOf(caution, of).some((key) => !known.has(key)),
  );
}

function byId<T extends { readonly id: Id }>(list: readonly T[]): ReadonlyMap<Id, T> {
  return new Map(list.map((each) => [each.id, each]));
}

function dived(count: number, how: Said): Said {
  return count === 1 ? said`one dive ${how}` : said`${countSaid(count)} dives ${how}`;
}

/** What was logged since: how many dives as planned, otherwise, missed and added. */
function loggedSaid(was: Trip, is: Trip): Said | null {
  const before = byId(was.dives);
  let asPlanned = 0;
  let otherwise = 0;
  let added = 0;
  const missed: Piece[] = [];
  for (const dive of is.dives) {
    const known = before.get(dive.id);
    const states = is.party.map(({ id }) => [id, logState(dive, id)] as const);
    const isNew = (id: Id, state: string): boolean => known === undefined || logState(known, id) !== state;
    if (dive.added === true && known === undefined) added += 1;
    else if (states.some(([id, state]) => state === 'otherwise' && isNew(id, state))) otherwise += 1;
    else if (states.some(([id, state]) => state === 'as-planned' && isNew(id, state))) asPlanned += 1;
    const out = states.filter(([id, state]) => state === 'missed' && isNew(id, state)).map(([id]) => id);
    if (out.length === 0) continue;
    const names = is.party.filter(({ id }) => out.includes(id)).map(({ name }) => name);
    const on = states.filter(([, state]) => state !== 'absent').length;
    const who = out.length === on ? said`nobody` : said`without ${inRow(names)}`;
    missed.push(said`${moment(dive.startsAt)} ${who}`);
  }
  const parts: Piece[] = [
    ...(asPlanned > 0 ? [dived(asPlanned, said`as planned`)] : []),
    ...(otherwise > 0 ? [dived(otherwise, said`otherwise`)] : []),
    ...(added > 0 ? [dived(added, said`that had not been planned`)] : []),
    ...missed,
  ];
  return parts.length === 0 ? null : said`Logged: ${inRow(parts)}.`;
}

function isPlanSame(a: Dive, b: Dive): boolean {
  return (
    a.startsAt === b.startsAt &&
    a.depthM === b.depthM &&
    a.bottomMin === b.bottomMin &&
    a.mix === b.mix &&
    a.siteId === b.siteId &&
    JSON.stringify([a.legs, a.divers, a.safetyStop, a.onBoard, a.turnShare]) ===
      JSON.stringify([b.legs, b.divers, b.safetyStop, b.onBoard, b.turnShare])
  );
}

/** What was done to one dive ahead. */
function planSaid(was: Dive, is: Dive): readonly Said[] {
  if (isPlanSame(was, is)) return [];
  const parts: Said[] = [];
  if (was.startsAt !== is.startsAt) parts.push(said`moved to ${moment(is.startsAt)}`);
  if (was.depthM !== is.depthM)
    parts.push(said`${figure('depthSet', is.depthM)}, not ${figure('depthSet', was.depthM)}`);
  if (was.bottomMin !== is.bottomMin)
    parts.push(said`${figure('minutesTyped', is.bottomMin)}, not ${figure('minutesTyped', was.bottomMin)}`);
  if (was.siteId !== is.siteId) parts.push(said`another site`);
  if (was.mix !== is.mix) parts.push(said`another mix`);
  if (parts.length === 0) parts.push(said`changed`);
  return [said`${moment(was.startsAt)}: ${inRow(parts)}.`];
}

/** All that a diver is planned with but rates of later days, which are told by themselves. */
function gearOf(diver: Diver): string {
  return JSON.stringify({ ...diver, rates: [], name: '' });
}

/** What was done to the trip: what was logged, which rates and dives ahead are others, what was analysed. */
export function deedsOf(was: Trip, is: Trip, ahead: ReadonlySet<Id>): readonly Said[] {
  const deeds: Said[] = [];
  const logged = loggedSaid(was, is);
  if (logged !== null) deeds.push(logged);
  const divers = byId(was.party);
  for (const diver of is.party) {
    const known = divers.get(diver.id);
    if (known === undefined) {
      deeds.push(said`${diver.name} is new in the party.`);
      continue;
    }
    for (const date of rateDays(known.rates, diver.rates)) {
      const [then, now] = [rateOn(known, date), rateOn(diver, date)];
      if (then === now) continue;
      deeds.push(
        said`${diver.name} is planned with ${figure('rateTyped', now)} from ${dayOf(date)}, not ${figure('rateTyped', then)}.`,
      );
    }
    if (gearOf(diver) !== gearOf(known)) deeds.push(said`What ${diver.name} is planned with changed.`);
  }
  const mixes = byId(was.mixes);
  for (const mix of is.mixes) {
    const known = mixes.get(mix.id);
    if (known !== undefined && mix.analysedO2 !== undefined && mix.analysedO2 !== known.analysedO2)
      deeds.push(said`The mix of ${figure('oxygen', mix.o2)} reads ${figure('oxygen', mix.analysedO2)}.`);
  }
  const dives = byId(was.dives);
  for (const dive of is.dives) {
    if (!ahead.has(dive.id)) continue;
    const known = dives.get(dive.id);
    if (known === undefined) deeds.push(said`${moment(dive.startsAt)} is new.`);
    else deeds.push(...planSaid(known, dive));
  }
  const left = byId(is.dives);
  for (const dive of was.dives) if (!left.has(dive.id)) deeds.push(said`${moment(dive.startsAt)} is gone.`);
  return deeds;
}

function rateDays(
  ...rates: readonly (readonly { readonly from: DayDate }[] | undefined)[]
): readonly DayDate[] {
  return [...new Set(rates.flatMap((each) => each?.map(({ from }) => from) ?? []))].toSorted();
}

/**
 * What changed from an earlier version of a trip to how it stands, for who wants to know what the log, a rate or an
 * edit did to the days ahead.
 * @param ahead ids of the dives that can still be changed, of the trip as it stands
 * @returns each dive ahead with its least room before and after, the cautions about them that came and went, and from
 *   when flying is clear
 * Source: CONVENTIONS, "Past and ahead"; room and cautions as in their modules.
 */
export function changesBetween(was: Reckoned, is: Reckoned, ahead: ReadonlySet<Id>): Changes {
  const now = byId(is.ledger.trip.dives);
  const goneIds = was.ledger.trip.dives.map(({ id }) => id).filter((id) => !now.has(id));
  const ids = [...is.ledger.trip.dives.map(({ id }) => id).filter((id) => ahead.has(id)), ...goneIds];
  const asked = new Set([...ahead, ...goneIds]);
  return {
    deeds: deedsOf(was.ledger.trip, is.ledger.trip, ahead),
    dives: ids.map((diveId) => ({ diveId, was: leastOf(was, diveId), is: leastOf(is, diveId) })),
    come: notIn(is.ledger, was.ledger, asked),
    gone: notIn(was.ledger, is.ledger, asked),
    fly: { was: flyOf(was.ledger), is: flyOf(is.ledger) },
  };
}
