import type { Entry, WallMin } from './ledger-types';

/**
 * Hours at the surface before a flight, by what was dived. The hours are a floor: the guideline calls for
 * "substantially longer" than 18 h after required stops, shown as 24 h, and later measurements found
 * bubbles in flight in some divers even after 24 h.
 * Source: P. J. Sheffield, R. D. Vann (eds), Flying After Recreational Diving, workshop proceedings,
 * May 2, 2002 (2004); cabin altitude 610 to 2438 m. Bubbles after 24 h: D. Cialoni et al., Aviat Space
 * Environ Med 2014;85(10):993-998.
 */
export const HOURS_BEFORE_FLIGHT = { oneNoStopDive: 12, severalDivesOrDays: 18, requiredStops: 24 } as const;

/** Which row of the guideline holds. */
export type FlyingRow = keyof typeof HOURS_BEFORE_FLIGHT;

/**
 * The row of the guideline that holds after some dives of one diver, read the careful way: a single dive
 * with required stops anywhere on the trip makes it the longest; more than one dive, or a first dive that
 * has an interval because the diver arrived with dives done, makes it several.
 * @param entries of one diver, in order
 * @returns null without dives
 * Source: as `HOURS_BEFORE_FLIGHT`; that it looks at the whole trip is the careful reading.
 */
export function flyingRow(entries: readonly Entry[]): FlyingRow | null {
  const first = entries[0];
  if (first === undefined) return null;
  if (entries.some((entry) => entry.isPastLimit)) return 'requiredStops';
  return entries.length > 1 || first.intervalMin !== null ? 'severalDivesOrDays' : 'oneNoStopDive';
}

/**
 * The moment from which flying is clear: the hours of the row, counted from the latest surfacing.
 * @param entries of one diver, in order
 * @returns minutes of wall-clock time; null without dives
 * Source: as `HOURS_BEFORE_FLIGHT`.
 */
export function flyAfterMin(entries: readonly Entry[]): WallMin | null {
  const row = flyingRow(entries);
  if (row === null) return null;
  const lastMin = Math.max(...entries.map((entry) => entry.surfacesMin));
  return lastMin + HOURS_BEFORE_FLIGHT[row] * 60;
}
