/** Everything derived from the desk, computed from the trip and remembered by identity; nothing here is stored. */
import { cautionsOf } from '../../core/cautions/all';
import { standingOf, type Standing } from '../../core/cautions/standing';
import { secondOpinions, type SecondOpinion } from '../../core/ledger/second-opinion';
import { grouped } from '../../core/grouped';
import { dayNumber } from '../../core/words/calendar';
import { ledger } from '../../core/ledger/ledger';
import type { DiverLedger, Entry, Ledger, Room, RoomLimit } from '../../core/ledger/ledger-types';
import { roomMinutes, roomOf, type MinutesRoom } from '../../core/ledger/room';
import { isRoomUnknown, roomOrder, tightestEntry, tightestOf, type RoomOf } from '../../core/ledger/tightest';
import type { Dive, Diver, Id, Trip } from '../../core/document/types';
import { selectAhead } from './clock';
import { memo, takingUp } from './memo';
import type { Desk } from './store';
import type { Caution } from '../../core/cautions/caution';

const ledgerOf = takingUp((previous: Ledger | undefined, trip: Trip): Ledger => ledger(trip, previous));

export function selectTrip(state: Desk): Trip {
  return state.trip;
}

/** All entries of all divers; folds on from the first dive that changed. */
export function selectLedger(state: Desk): Ledger {
  return ledgerOf(state.trip);
}

/** Findings for the whole trip: what must stop first, then what to change, then what to know. */
export function selectCautions(state: Desk): readonly Caution[] {
  return cautionsOf(selectLedger(state));
}

const cautionsByTime = memo((of: Ledger, ahead: ReadonlySet<Id>) => {
  const all = cautionsOf(of);
  const isAhead = ({ diveId }: Caution): boolean => diveId === null || ahead.has(diveId);
  return { ahead: all.filter(isAhead), done: all.filter((caution) => !isAhead(caution)) };
});

/** Findings about what can still be changed, those of the trip as a whole among them; and those of what is done. */
export function selectCautionsByTime(state: Desk): {
  readonly ahead: readonly Caution[];
  readonly done: readonly Caution[];
} {
  return cautionsByTime(selectLedger(state), selectAhead(state));
}

/** Orders entries by room: past a limit without a figure first, no limit in reach last. */
export type RoomKey = (entry: Entry) => number;

const roomsOf = new WeakMap<Entry, Room>();

/** An entry that an edit left untouched is the same object, with the same room. */
const minutesByEntry = takingUp((known: ReadonlyMap<Entry, MinutesRoom> | undefined, of: Ledger) => {
  const { trip } = of;
  const minutesOf = new Map<Entry, MinutesRoom>();
  for (const { entries } of of.divers) {
    for (const entry of entries) minutesOf.set(entry, known?.get(entry) ?? roomMinutes(trip, entry));
  }
  return minutesOf;
});

/** Of an entry that is no longer in the ledger. */
const NO_ROOM: MinutesRoom = { min: null, minLimit: null };

const roomMinutesIn = memo((of: Ledger) => {
  const minutesOf = minutesByEntry(of);
  const rooms: RoomOf = (entry) => minutesOf.get(entry) ?? NO_ROOM;
  return {
    of: rooms,
    minutes: (entry: Entry): number | null => rooms(entry).min,
    limit: (entry: Entry): RoomLimit | null => rooms(entry).minLimit,
    /** Orders by room: past a limit without a figure comes first, no limit in reach last. */
    key: (entry: Entry): number => roomOrder(entry, rooms(entry)),
  };
});

/** Minutes of room and their limit, of the entries of the ledger as it stands: what says which is tightest. */
export function selectRooms(state: Desk): RoomOf {
  return roomMinutesIn(selectLedger(state)).of;
}

/** Minutes of room of an entry of the ledger as it stands; null where no limit is in reach, or no figure. */
export function selectRoomMin(state: Desk): (entry: Entry) => number | null {
  return roomMinutesIn(selectLedger(state)).minutes;
}

/** Which limit an entry's minutes of room are measured to; null where none is in reach. */
export function selectRoomLimit(state: Desk): (entry: Entry) => RoomLimit | null {
  return roomMinutesIn(selectLedger(state)).limit;
}

/** Orders entries by their room: past a limit without a figure first, no limit in reach last. */
export function selectRoomKey(state: Desk): RoomKey {
  return roomMinutesIn(selectLedger(state)).key;
}

/** The whole room of one entry: minutes, metres, sooner. Dearer than the minutes, so asked for what is on show. */
export function roomOfEntry(state: Desk, entry: Entry): Room | null {
  const held = roomsOf.get(entry);
  if (held) return held;
  const of = selectLedger(state);
  const diver = of.divers.find((each) => each.diver.id === entry.diver.id);
  if (!diver?.entries.includes(entry)) return null;
  const room = roomOf(of.trip, entry);
  roomsOf.set(entry, room);
  return room;
}

const opinionsOf = memo((of: DiverLedger, trip: Trip) => secondOpinions(of, trip));

/** What the table procedure says to an entry; null for one that is no longer in the ledger. */
export function secondOpinionOf(state: Desk, entry: Entry): SecondOpinion | null {
  const of = ledgerOfDiver(state, entry.diver.id);
  const at = of?.entries.indexOf(entry) ?? -1;
  return of && at >= 0 ? (opinionsOf(of, state.trip)[at] ?? null) : null;
}

/** Past a limit comes before not known; divers with the same room stay in the order of the party, as the sort is stable. */
function leastRoomFirst(entries: readonly Entry[], rooms: RoomOf): readonly Entry[] {
  const placed = entries.map((entry) => {
    const room = rooms(entry);
    const order = roomOrder(entry, room);
    return { entry, order, isUnknown: isRoomUnknown(entry, room.minLimit) };
  });
  placed.sort((a, b) => compare(a.order, b.order) || Number(a.isUnknown) - Number(b.isUnknown));
  return placed.map(({ entry }) => entry);
}

interface ByDive {
  /** In the order of the party. */
  readonly asFolded: ReadonlyMap<Id, readonly Entry[]>;
  readonly byRoom: ReadonlyMap<Id, readonly Entry[]>;
}

/** What an edit left untouched stays in the order it has. */
const entriesByDiveOf = takingUp((known: ByDive | undefined, of: Ledger): ByDive => {
  const { of: rooms } = roomMinutesIn(of);
  const asFolded = grouped(
    of.divers.flatMap(({ entries }) => entries),
    ({ dive }) => dive.id,
  );
  const byRoom = new Map<Id, readonly Entry[]>();
  for (const [id, entries] of asFolded) {
    const before = known?.asFolded.get(id);
    const isUntouched = before?.length === entries.length && entries.every((each, i) => each === before[i]);
    byRoom.set(id, isUntouched ? known!.byRoom.get(id)! : leastRoomFirst(entries, rooms));
  }
  return { asFolded, byRoom };
});

function compare(a: number, b: number): number {
  return a === b ? 0 : a < b ? -1 : 1;
}

/** For each dive id the entries of who dives it, the one with the least room first. */
export function selectEntriesByDive(state: Desk): ReadonlyMap<Id, readonly Entry[]> {
  return entriesByDiveOf(selectLedger(state)).byRoom;
}

const NO_ENTRIES: readonly Entry[] = [];

/** The entries of a dive, the one with the least room first; none where nobody can dive it. */
export function entriesOf(state: Desk, diveId: Id): readonly Entry[] {
  return selectEntriesByDive(state).get(diveId) ?? NO_ENTRIES;
}

/** The entry shown for a dive: the chosen diver's, else the one with the least room. */
export function shownEntry(state: Desk, diveId: Id): Entry | null {
  const entries = entriesOf(state, diveId);
  const { diverId } = state.selection;
  if (diverId === null) return entries[0] ?? null;
  return entries.find((entry) => entry.diver.id === diverId) ?? null;
}

const standingIn = memo((of: Ledger, diverId: Id | null, asked: ReadonlySet<Id>): Standing => {
  return standingOf(of, cautionsOf(of), roomMinutesIn(of).of, asked, diverId);
});

/** How what lies ahead of the trip stands, for the chosen diver or for everybody. */
export function selectStanding(state: Desk): Standing {
  return standingIn(selectLedger(state), state.selection.diverId, selectAhead(state));
}

/** The least room of dives that keep every limit, of the chosen diver or of anybody, and all that read the same. */
export function selectTight(state: Desk): readonly Entry[] {
  return selectStanding(state).tight;
}

/** The entry of the trip with the least room within its limits; null where none has one. */
export function selectTightest(state: Desk): Entry | null {
  return selectTight(state)[0] ?? null;
}

const tightOfDaysOf = memo((of: Ledger, diverId: Id | null): readonly Entry[] => {
  const shown = of.divers.filter(({ diver }) => diverId === null || diver.id === diverId);
  const days = grouped(
    shown.flatMap(({ entries }) => entries),
    ({ startMin }) => dayNumber(startMin),
  );
  return [...days.values()].flatMap((entries) => tightestOf(entries, roomMinutesIn(of).of));
});

/** The least room of each day, past a limit or not, and all that read the same. */
export function selectTightOfDays(state: Desk): readonly Entry[] {
  return tightOfDaysOf(selectLedger(state), state.selection.diverId);
}

const leastOf = memo((of: Ledger, ahead: ReadonlySet<Id>): Entry | null => {
  const entries = of.divers.flatMap((diver) => diver.entries.filter(({ dive }) => ahead.has(dive.id)));
  return tightestEntry(entries, roomMinutesIn(of).of);
});

/** The ledger of the chosen diver; where nobody is, of who is furthest past a limit or has the least room; else the first. */
export function selectShownLedger(state: Desk): DiverLedger | null {
  const of = selectLedger(state);
  const { divers } = of;
  const wanted = state.selection.diverId ?? leastOf(of, selectAhead(state))?.diver.id;
  return divers.find(({ diver }) => diver.id === wanted) ?? divers[0] ?? null;
}

/** From when flying is clear for the chosen diver, or for the last of the party; null without dives. */
export function selectFlyMin(state: Desk): number | null {
  const { diverId } = state.selection;
  return selectLedger(state).divers.reduce<number | null>((latest, { diver, flyAfterMin }) => {
    if (flyAfterMin === null || (diverId !== null && diver.id !== diverId)) return latest;
    return Math.max(latest ?? flyAfterMin, flyAfterMin);
  }, null);
}

/** A diver's share of a ledger, the same object while nothing of that diver changed. */
export function ledgerOfDiver(state: Desk, diverId: Id): DiverLedger | null {
  return selectLedger(state).divers.find(({ diver }) => diver.id === diverId) ?? null;
}

const chosenOf = memo((dives: readonly Dive[], ids: readonly Id[]): readonly Dive[] =>
  dives.filter((dive) => ids.includes(dive.id)),
);

/** The selected dives in the order of the trip; ids that an undo took away are passed over. */
export function selectChosenDives(state: Desk): readonly Dive[] {
  return chosenOf(state.trip.dives, state.selection.diveIds);
}

/** The one dive whose card is open: the first selected. */
export function selectChosenDive(state: Desk): Dive | null {
  return selectChosenDives(state)[0] ?? null;
}

/** Who dives a dive, in the order of the party. */
export function partyOf(trip: Trip, dive: Dive): readonly Diver[] {
  return dive.divers ? trip.party.filter((diver) => dive.divers?.includes(diver.id)) : trip.party;
}

/** A dive's place in the trip as people count it, from 1. */
export function diveNumber(trip: Trip, diveId: Id): number {
  return trip.dives.findIndex((dive) => dive.id === diveId) + 1;
}

/** A dive's place in its day, from 1. */
export function diveOfDay(trip: Trip, dive: Dive): number {
  const date = dive.startsAt.slice(0, 10);
  return (
    trip.dives.filter((each) => each.startsAt.startsWith(date)).findIndex((each) => each.id === dive.id) + 1
  );
}
