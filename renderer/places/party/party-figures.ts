/** How the divers of a party stand, derived from the ledger. */
import type { DiverLedger, Entry, Ledger, RoomLimit } from '../../../core/ledger/ledger-types';
import type { Dive, Diver, Id, Trip } from '../../../core/document/types';
import { isRoomUnknown, roomOrder, tightestOf, type RoomOf } from '../../../core/ledger/tightest';
import { memo } from '../../store/memo';
import { selectLedger, selectRooms } from '../../store/selectors';
import type { Desk } from '../../store/store';
import type { WallMin } from '../../../core/words/calendar';

/** One diver over the whole trip. */
export interface DiverFigures {
  readonly diver: Diver;
  readonly dives: number;
  /** The dive with the least room; null where none has a limit in reach. */
  readonly tightest: Entry | null;
  /** How many further dives of theirs have a room that reads the same. */
  readonly alike: number;
  /** Nobody has less room, as it is shown; several may have as little. */
  readonly isTightestOfParty: boolean;
  readonly flyAfterMin: WallMin | null;
  /** The last of the party to be clear to fly, where they are not all clear at once. */
  readonly isLastToFly: boolean;
}

/** The entry with the least room, else one of which nothing is known; null where no limit is in reach on any. */
export function tightestEntry(entries: readonly Entry[], roomOf: RoomOf): Entry | null {
  const isUnknown = (entry: Entry): boolean => isRoomUnknown(entry, roomOf(entry).minLimit);
  return tightestOf(entries, roomOf)[0] ?? entries.find(isUnknown) ?? null;
}

/** In the order of the party. */
export function partyFigures({ divers }: Ledger, roomOf: RoomOf): readonly DiverFigures[] {
  const tightest = divers.map(({ entries }) => tightestEntry(entries, roomOf));
  const ofParty = tightestOf(
    tightest.filter((entry) => entry !== null),
    roomOf,
  );
  const clears = divers.map(({ flyAfterMin }) => flyAfterMin).filter((min) => min !== null);
  const lastMin = Math.max(...clears);
  const isStaggered = clears.some((min) => min !== lastMin);
  return divers.map(({ diver, entries, flyAfterMin }, at) => ({
    diver,
    dives: entries.length,
    tightest: tightest[at] ?? null,
    alike: Math.max(0, tightestOf(entries, roomOf).length - 1),
    isTightestOfParty: ofParty.some((entry) => entry === tightest[at]),
    flyAfterMin,
    isLastToFly: isStaggered && flyAfterMin === lastMin,
  }));
}

/** A diver on a dive: no entry where they do not make it. */
export interface GridCell {
  readonly entry: Entry | null;
  readonly roomMin: number | null;
  /** No figure, and past a limit. */
  readonly isPast: boolean;
  readonly limit: RoomLimit | null;
  /** The least room of the dive's divers, as it is shown; several may have as little. */
  readonly isTightest: boolean;
}

export interface GridRow {
  readonly diver: Diver;
  /** In the order of the dives asked for. */
  readonly cells: readonly GridCell[];
}

/** Divers down, dives across. */
export function roomGrid({ divers }: Ledger, dives: readonly Dive[], roomOf: RoomOf): readonly GridRow[] {
  const entryOf = divers.map(
    ({ entries }: DiverLedger) => new Map<Id, Entry>(entries.map((entry) => [entry.dive.id, entry])),
  );
  const tight = new Set(
    dives.flatMap(({ id }) =>
      tightestOf(
        entryOf.flatMap((byDive) => byDive.get(id) ?? []),
        roomOf,
      ),
    ),
  );
  return divers.map(({ diver }, at) => ({
    diver,
    cells: dives.map(({ id }) => {
      const entry = entryOf[at]!.get(id) ?? null;
      return {
        entry,
        roomMin: entry === null ? null : roomOf(entry).min,
        isPast: entry !== null && roomOrder(entry, roomOf(entry)) === Number.NEGATIVE_INFINITY,
        limit: entry === null ? null : roomOf(entry).minLimit,
        isTightest: entry !== null && tight.has(entry),
      };
    }),
  }));
}

const figuresOf = memo(partyFigures);
const gridOf = memo(roomGrid);
const divesOn = memo((trip: Trip, date: string | null): readonly Dive[] =>
  date === null ? trip.dives : trip.dives.filter(({ startsAt }) => startsAt.startsWith(date)),
);

export function selectPartyFigures(state: Desk): readonly DiverFigures[] {
  return figuresOf(selectLedger(state), selectRooms(state));
}

/** The dives of a day, or of the whole trip; a day that an edit emptied shows the whole trip. */
export function selectDivesOn(state: Desk, date: string | null): readonly Dive[] {
  const dives = divesOn(state.trip, date);
  return dives.length === 0 ? state.trip.dives : dives;
}

export function selectRoomGrid(state: Desk, date: string | null): readonly GridRow[] {
  return gridOf(selectLedger(state), selectDivesOn(state, date), selectRooms(state));
}
