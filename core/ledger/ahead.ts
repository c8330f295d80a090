import { effectiveDive, missedDive, saysDived } from '../document/as-dived';
import { dayNumber, wallMin, type WallMin } from '../words/calendar';
import type { Dive, Id, Trip } from '../document/types';

const NOBODY = { id: '' };

/** Whether anybody's record says that a dive was made. */
function isLogged({ asDived = [] }: Dive): boolean {
  return asDived.some(saysDived);
}

/** Whether nobody is left to make a dive: all on it missed it. */
function isMissedByAll(dive: Dive, { party }: Trip): boolean {
  return party.every(({ id }) => missedDive(dive, id) !== null || dive.divers?.includes(id) === false);
}

/**
 * Up to when a trip is done: the start of the last dive that is logged, or the clock where that is later and the trip
 * is under way. The clock of another week says nothing: a trip that is only looked at is all ahead.
 * @param nowMin wall minutes at the trip's place; null where no clock is known
 * @returns wall minutes; null where nothing is done
 * Source: CONVENTIONS, "Past and ahead".
 */
export function doneUntilMin(trip: Trip, nowMin: WallMin | null): WallMin | null {
  const first = trip.dives[0];
  const last = trip.dives.at(-1);
  if (!first || !last) return null;
  const logged = trip.dives.findLast(isLogged);
  const loggedMin = logged === undefined ? null : effectiveDive(logged, NOBODY).startMin;
  const isUnderWay =
    nowMin !== null &&
    dayNumber(nowMin) >= dayNumber(wallMin(first.startsAt)) &&
    dayNumber(nowMin) <= dayNumber(wallMin(last.startsAt)) + 1;
  if (!isUnderWay) return loggedMin;
  return loggedMin === null ? nowMin : Math.max(nowMin, loggedMin);
}

/**
 * The dives that can still be changed: not logged, not missed by all, and begun neither before the clock nor before a
 * dive that is logged.
 * @param nowMin as in `doneUntilMin`
 * Source: as `doneUntilMin`.
 */
export function divesAhead(trip: Trip, nowMin: WallMin | null): ReadonlySet<Id> {
  const untilMin = doneUntilMin(trip, nowMin) ?? -Infinity;
  return new Set(
    trip.dives
      .filter((dive) => wallMin(dive.startsAt) > untilMin && !isLogged(dive) && !isMissedByAll(dive, trip))
      .map(({ id }) => id),
  );
}
