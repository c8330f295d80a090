/** What is still to be mended in a trip, by the ledger's own cautions. Source: DEVELOPERS, "What mending looks for". */
import type { Caution } from '../../cautions/caution';
import { cautionsOf } from '../../cautions/all';
import type { Id, Trip } from '../../document/types';
import type { Entry, Ledger } from '../../ledger/ledger-types';
import { roomMinutes } from '../../ledger/room';

/** Room may fall short by this much through rounding alone, minutes. */
export const SAME_ROOM_MIN = 1e-6;

/**
 * The cautions to stop or change that moves on the dives ahead can do something about: those of these dives, and the
 * flight's. Of dives that are done nothing can be mended, nor of what the divers brought along.
 * @param aheadIds dives that are not done
 */
export function cautionsToMend(whole: Ledger, aheadIds: ReadonlySet<Id>): readonly Caution[] {
  return cautionsOf(whole).filter(
    ({ severity, diveId, code }) =>
      severity !== 'know' && (diveId === null ? code === 'flight-too-soon' : aheadIds.has(diveId)),
  );
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
