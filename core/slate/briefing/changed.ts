import { deedsOf } from '../../cautions/changed';
import type { DayDate, Trip } from '../../document/types';
import type { Said } from '../../words/said';

/**
 * What was done to a day since an earlier version of the trip: to its dives, the party and the mixes.
 * @param was the trip as it was printed or saved before @returns a sentence each; none where nothing was
 */
export function deedsOfDay(was: Trip, is: Trip, date: DayDate): readonly Said[] {
  const isOfDay = ({ startsAt }: Trip['dives'][number]): boolean => startsAt.startsWith(date);
  const now = is.dives.filter(isOfDay);
  const ids = new Set(now.map(({ id }) => id));
  const before = was.dives.filter((dive) => isOfDay(dive) || ids.has(dive.id));
  return deedsOf({ ...was, dives: before }, { ...is, dives: now }, ids);
}
