import { runtimeMin } from '../profile';
import type { DiverLedger } from './ledger-types';
import type { WallMin } from '../words/calendar';

/**
 * Hours at the surface before a flight, by what was dived. The hours are a floor: the guideline calls for
 * "substantially longer" than 18 h after required stops, shown as 24 h, and later measurements found
 * bubbles in flight in some divers even after 24 h. Of a dive brought along whose mix nobody knows it cannot be told
 * whether it needed stops: it is read as one that did, which is this project's careful reading.
 * Source: P. J. Sheffield, R. D. Vann (eds), Flying After Recreational Diving, workshop proceedings,
 * May 2, 2002 (2004); cabin altitude 610 to 2438 m. Bubbles after 24 h: D. Cialoni et al., Aviat Space
 * Environ Med 2014;85(10):993-998.
 */
export const HOURS_BEFORE_FLIGHT = {
  oneNoStopDive: 12,
  severalDivesOrDays: 18,
  requiredStops: 24,
  unknownMix: 24,
} as const;

/** Which row of the guideline holds. */
export type FlyingRow = keyof typeof HOURS_BEFORE_FLIGHT;

/** The dives of a diver: those brought to the trip, and those of the trip. */
export type Dived = Pick<DiverLedger, 'earlier' | 'entries'>;

/**
 * The row of the guideline that holds after the dives of one diver, read the careful way: a single dive
 * with required stops anywhere on the trip, or brought to it, makes it the longest; more than one dive makes it
 * several.
 * @returns null without dives
 * Source: as `HOURS_BEFORE_FLIGHT`; that it looks at the whole trip: CONVENTIONS, "Hours before flying".
 */
export function flyingRow({ earlier, entries }: Dived): FlyingRow | null {
  let dives = earlier.length;
  let needsStops = earlier.some((entry) => entry.isPastLimit);
  for (const entry of entries) {
    if (!entry.isMade) continue;
    dives += 1;
    needsStops ||= entry.isPastLimit;
  }
  if (dives === 0) return null;
  if (needsStops) return 'requiredStops';
  // Brought ones were dived, whether or not their mix is known.
  if (earlier.some((entry) => !entry.isMade)) return 'unknownMix';
  return dives > 1 ? 'severalDivesOrDays' : 'oneNoStopDive';
}

/**
 * The latest surfacing of a diver, the dives brought to the trip included.
 * @returns minutes of wall-clock time; of a dive without a known mix, as its profile has it; null without dives
 * Source: definition.
 */
export function lastSurfacingMin({ earlier, entries }: Dived): WallMin | null {
  let latest = -Infinity;
  for (const { isMade, startMin, surfacesMin, legs } of earlier) {
    latest = Math.max(latest, isMade ? surfacesMin : startMin + runtimeMin(legs));
  }
  for (const { isMade, surfacesMin } of entries) if (isMade) latest = Math.max(latest, surfacesMin);
  return latest === -Infinity ? null : latest;
}
