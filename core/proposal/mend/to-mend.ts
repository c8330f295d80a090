/** What is still to be mended in a trip, by the ledger's own cautions. Source: DEVELOPERS, "What mending looks for". */
import type { Caution } from '../../cautions/caution';
import { cautionsOf } from '../../cautions/all';
import { flightBeforeOtherView } from '../../cautions/flight-before-other-view';
import { flightTooSoon } from '../../cautions/flight-too-soon';
import type { Id, Trip } from '../../document/types';
import type { Entry, Ledger } from '../../ledger/ledger-types';
import { ledger } from '../../ledger/ledger';
import { roomMinutes } from '../../ledger/room';

/** Room may fall short by this much through rounding alone, minutes. */
export const SAME_ROOM_MIN = 1e-6;

const BY_HOURS = flightTooSoon.code;
const BY_OTHER_VIEW = flightBeforeOtherView.code;

/** Whether a caution is that of a flight earlier than the government table or the model has it. */
export function isByOtherView({ code }: Pick<Caution, 'code'>): boolean {
  return code === BY_OTHER_VIEW;
}

/** Whether a caution is that of a flight before the published hours. */
export function isByHours({ code }: Pick<Caution, 'code'>): boolean {
  return code === BY_HOURS;
}

/** The divers whom the dives done alone keep from the flight by the table or the model: no move gives that back. */
export function heldByDone({ trip }: Ledger, aheadIds: ReadonlySet<Id>): ReadonlySet<Id | null> {
  if (trip.flight === null) return new Set();
  const done = ledger({ ...trip, dives: trip.dives.filter(({ id }) => !aheadIds.has(id)) });
  return new Set(
    cautionsOf(done)
      .filter(isByOtherView)
      .map(({ diverId }) => diverId),
  );
}

/**
 * The cautions to stop or change that moves on the dives ahead can do something about: those of these dives, and the
 * flight's, by the published hours and by the other views. Of dives that are done nothing can be mended, nor of what the
 * divers brought along.
 * @param aheadIds dives that are not done
 */
export function cautionsToMend(whole: Ledger, aheadIds: ReadonlySet<Id>): readonly Caution[] {
  const found = cautionsOf(whole).filter(
    ({ severity, diveId, code }) =>
      severity !== 'know' &&
      (diveId === null ? code === BY_HOURS || code === BY_OTHER_VIEW : aheadIds.has(diveId)),
  );
  if (!found.some(isByOtherView)) return found;
  const held = heldByDone(whole, aheadIds);
  return found.filter((each) => !isByOtherView(each) || !held.has(each.diverId));
}

/** Ids of the dives that are not done. */
export function aheadIdsOf({ dives }: Trip, doneCount: number): ReadonlySet<Id> {
  return new Set(dives.slice(doneCount).map(({ id }) => id));
}

/** Whether an entry keeps so many minutes of room; where no limit is in reach it does. */
export function keepsRoom(trip: Trip, entry: Entry, leastRoomMin: number): boolean {
  const { min, minLimit } = roomMinutes(trip, entry);
  return min === null ? minLimit === null : min >= leastRoomMin - SAME_ROOM_MIN;
}
