/** Which evening is open: never part of the trip, never undone. What is logged in it is in `log.ts`, loaded with it. */
import { saysDived } from '../../core/document/as-dived';
import type { DayDate, Dive } from '../../core/document/types';
import { wallDate } from '../../core/words/calendar';
import { desk, type Desk, type Evening } from '../store/store';

/** Opens the evening of a day, or goes to another step of it. */
export function showEvening(evening: Evening): void {
  desk.setState({ evening });
}

export function closeEvening(): void {
  desk.setState({ evening: null });
}

function dateOf({ startsAt }: Dive): DayDate {
  return startsAt.slice(0, 10);
}

/**
 * The day whose log is wanted, of a trip with dives: of the chosen dive; else today, where the trip has dives on it;
 * else the first day with a dive that nothing is known of yet.
 */
export function dayToLog({ trip, selection, nowMin }: Desk): DayDate {
  const chosen = trip.dives.find(({ id }) => selection.diveIds.includes(id));
  if (chosen) return dateOf(chosen);
  const today = nowMin === null ? null : wallDate(nowMin);
  if (today !== null && trip.dives.some((dive) => dateOf(dive) === today)) return today;
  const open = trip.dives.find(({ asDived, notDived }) => !asDived?.some(saysDived) && !notDived);
  return dateOf(open ?? trip.dives.at(-1)!);
}
