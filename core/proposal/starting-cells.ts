import { siteOf } from '../document/site-of';
import { checkTrip } from '../document/check-trip';
import { diversFor } from '../document/may-dive';
import type { Id, Trip } from '../document/types';
import { ledger } from '../ledger/ledger';
import type { ProfileShape } from '../profile';
import type { WallTime } from '../words/calendar';
import type { Slot } from './starting-days';
import { stopIn } from './starting-steps';
import { severeKeys, withDive } from './starting-dive';

/**
 * What is said of one dive of a draft: that there is none, that it is at a site, or that it stays as it is while the
 * others are drafted around it.
 */
export type CellAsk =
  | { readonly kind: 'drop'; readonly startsAt: WallTime }
  | { readonly kind: 'site'; readonly startsAt: WallTime; readonly siteId: Id }
  | {
      readonly kind: 'lock';
      readonly startsAt: WallTime;
      readonly siteId: Id;
      readonly shape: Pick<ProfileShape, 'depthM' | 'bottomMin' | 'legs'>;
    };

/** What is said of the dive at a time; the last word counts. */
export function cellAsk(cells: readonly CellAsk[], startsAt: WallTime): CellAsk | undefined {
  return cells.findLast((cell) => cell.startsAt === startsAt);
}

/** The trip with its locked dives, and when those were to be that cannot stay. */
export interface Locks {
  readonly trip: Trip;
  readonly lost: readonly WallTime[];
}

/**
 * Puts the locked dives into a trip that has none yet, each as it is, as long as no caution to stop or change comes
 * of it: answers may have changed since it was locked.
 * @param slots where dives can be; a lock elsewhere is passed over, as is one at a site that is gone
 * @returns the trip, and when the locked dives start that cannot stay as they are
 * Source: cautions as in core/cautions.
 */
export function keptLocks(
  empty: Trip,
  { cells, depthUnit }: { readonly cells: readonly CellAsk[]; readonly depthUnit: 'm' | 'ft' },
  slots: readonly Slot[],
): Locks {
  const lost: WallTime[] = [];
  let trip = empty;
  const known = severeKeys(ledger(empty));
  for (const { startsAt } of slots) {
    const ask = cellAsk(cells, startsAt);
    if (ask?.kind !== 'lock') continue;
    const site = siteOf(trip, ask);
    const named = site && diversFor(site, trip.party);
    if (!named) continue;
    const dive = {
      id: `at-${startsAt}`,
      siteId: ask.siteId,
      startsAt,
      ...ask.shape,
      mix: 'auto' as const,
      ...named,
      ...stopIn(depthUnit, ask.shape),
    };
    const next = withDive(trip, dive);
    const isKept =
      checkTrip(next).length === 0 && [...severeKeys(ledger(next))].every((key) => known.has(key));
    if (isKept) trip = next;
    else lost.push(startsAt);
  }
  return { trip, lost };
}
