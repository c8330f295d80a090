import { siteOf } from '../document/site-of';
import { makesDive } from '../document/as-dived';
import type { Dive, Site, Trip } from '../document/types';
import { HOURS_BEFORE_FLIGHT } from '../ledger/flying';
import { ledger } from '../ledger/ledger';
import { dayNumber, wallMin } from '../words/calendar';
import { INTERVAL_MIN, SHORTEST_MIN } from './starting-days';
import { fitted, withDive, type End, type Fitting } from './starting-dive';
import { DEPTH_STEPS } from './starting-steps';
import { whyNone, type LeftOut } from './starting-words';

/** No dive is drafted longer, minutes. Source: as in starting-sheet.ts. */
const LONGEST_MIN = 120;

/** The trip with its days ahead drafted again, and the dives that no draft was found for, with why. */
export interface DraftedAhead {
  readonly trip: Trip;
  readonly leftOut: readonly LeftOut[];
}

function endOf({ flight }: Trip, next: Dive | undefined): End {
  const flightMin =
    flight === null ? Infinity : wallMin(flight.at) - HOURS_BEFORE_FLIGHT.severalDivesOrDays * 60;
  const nextMin = next === undefined ? Infinity : wallMin(next.startsAt) - INTERVAL_MIN;
  return flightMin < nextMin ? { byMin: flightMin, for: 'flight' } : { byMin: nextMin, for: 'next-dive' };
}

/** Whether anybody of the party makes a dive. */
function isMade(trip: Trip, dive: Dive): boolean {
  return trip.party.some(({ id }) => makesDive(dive, id));
}

/** The deepest that the site goes, and everybody who makes the dive may. */
function wishedM(trip: Trip, dive: Dive, site: Site): number {
  const makers = trip.party.filter(({ id }) => makesDive(dive, id));
  return Math.min(site.depthM, ...makers.map(({ maxDepthM }) => maxDepthM));
}

/**
 * Drafts the dives ahead of a trip again: each keeps its site, start and divers, and what is analysed, on board or
 * noted of it; depth, levels, time and mix are laid out afresh, as long as they fit, one dive after the other.
 * @param doneCount how many dives of the trip, in its order, stay as they are
 * @param depthUnit in which depths are whole
 * @returns the trip; a dive that nothing fits for is left out of it and told
 * Source: limits as in the ledger and the cautions; the search is that of the first draft (starting-dive.ts).
 */
export function draftedAhead(trip: Trip, doneCount: number, depthUnit: 'm' | 'ft'): DraftedAhead {
  const ahead = trip.dives.slice(doneCount).filter((dive) => isMade(trip, dive));
  const standing = trip.dives.filter((dive) => !ahead.includes(dive));
  const days = trip.dives.map(({ startsAt }) => dayNumber(wallMin(startsAt)));
  const planned = trip.dives.map(({ bottomMin }) => bottomMin);
  const asked: Omit<Fitting, 'trip' | 'ledger'> = {
    divingDays: [...new Set(days)],
    longestMin: Math.min(LONGEST_MIN, Math.max(SHORTEST_MIN, ...planned)),
    rising: trip.dives.some(({ legs }) => legs !== undefined),
    steps: DEPTH_STEPS[depthUnit],
    depthUnit,
  };
  const leftOut: LeftOut[] = [];
  let drafted: Trip = { ...trip, dives: standing };
  for (const [at, dive] of ahead.entries()) {
    const {
      depthM: _depthM,
      bottomMin: _bottomMin,
      legs: _legs,
      mix: _mix,
      safetyStop: _stop,
      ...kept
    } = dive;
    const { id, startsAt, siteId } = dive;
    const site = siteOf(trip, { siteId })!;
    const date = startsAt.slice(0, 10);
    const isFirstOfDay = !drafted.dives.some(
      (each) => each.startsAt.startsWith(date) && each.startsAt < startsAt,
    );
    const depthM = wishedM(trip, dive, site);
    const wish = { id, site, startsAt, depthM, isFirstOfDay, named: kept };
    const end = endOf(trip, ahead[at + 1]);
    const outcome = fitted({ ...asked, trip: drafted, ledger: ledger(drafted) }, wish, end);
    if (outcome.fits) drafted = withDive(drafted, outcome.dive);
    else leftOut.push({ startsAt, reason: whyNone(outcome.held, outcome.depthM, depthM, trip.party.length) });
  }
  return { trip: drafted, leftOut };
}
