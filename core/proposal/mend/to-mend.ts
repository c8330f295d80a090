/** What is still to be mended in a trip, by the ledger's own cautions. Source: DEVELOPERS, "What mending looks for". */
import type { Caution } from '../../cautions/caution';
import { cautionsOf } from '../../cautions/all';
import { climbBeforeOtherView } from '../../cautions/climb-before-other-view';
import { climbTooSoon } from '../../cautions/climb-too-soon';
import { flightBeforeOtherView } from '../../cautions/flight-before-other-view';
import { flightTooSoon } from '../../cautions/flight-too-soon';
import type { Id, Trip } from '../../document/types';
import { waterOf } from '../../document/waters';
import type { Entry, Ledger } from '../../ledger/ledger-types';
import { ledger } from '../../ledger/ledger';
import { roomMinutes } from '../../ledger/room';

/** Room may fall short by this much through rounding alone, minutes. */
export const SAME_ROOM_MIN = 1e-6;

const BY_HOURS = flightTooSoon.code;
const BY_OTHER_VIEW = flightBeforeOtherView.code;

/** Of a flight by another view, and of a way up after dives by any: judged by the ledger, plan by plan. */
const JUDGED: ReadonlySet<string> = new Set([BY_OTHER_VIEW, climbTooSoon.code, climbBeforeOtherView.code]);

/**
 * Whether a caution is that of a flight earlier than the government table or the model has it, or of going up to a
 * greater height too soon.
 */
export function isByOtherView({ code }: Pick<Caution, 'code'>): boolean {
  return JUDGED.has(code);
}

/** Whether a trip has anything that such a caution could be about. */
export function hasWayUp({ flight, events = [], sites, water }: Trip): boolean {
  return (
    flight !== null ||
    events.length > 0 ||
    sites.some((site) => waterOf(site, water).altitudeM !== water.altitudeM)
  );
}

/** By whom and by what rule somebody is held. */
export function holdOf({ code, diverId }: Pick<Caution, 'code' | 'diverId'>): string {
  return `${code} ${diverId}`;
}

/** Whether a caution is that of a flight before the published hours. */
export function isByHours({ code }: Pick<Caution, 'code'>): boolean {
  return code === BY_HOURS;
}

/** Of such cautions those that the dives done alone make: no move gives back what they hold. */
export function heldByDone({ trip }: Ledger, aheadIds: ReadonlySet<Id>): readonly Caution[] {
  if (!hasWayUp(trip)) return [];
  const done = ledger({ ...trip, dives: trip.dives.filter(({ id }) => !aheadIds.has(id)) });
  return cautionsOf(done).filter(isByOtherView);
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
      severity !== 'know' && (diveId === null ? code === BY_HOURS || JUDGED.has(code) : aheadIds.has(diveId)),
  );
  if (!found.some(isByOtherView)) return found;
  const held = new Set(heldByDone(whole, aheadIds).map(holdOf));
  return found.filter((each) => !isByOtherView(each) || !held.has(holdOf(each)));
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
