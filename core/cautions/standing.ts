/** How a trip stands, in the order in which it is asked: what passes a limit, what is to adjust, what is tightest. */
import { NOTHING, said, type Piece, type Said } from '../words/said';
import { countSaid } from '../words/terms';
import type { Id } from '../document/types';
import type { Entry, Ledger } from '../ledger/ledger-types';
import { isPastRoom, tightestOf, type RoomOf } from '../ledger/tightest';
import type { Caution } from './caution';

/** Of the dives that are asked about, in the order of the trip. */
export interface Standing {
  readonly dives: readonly Id[];
  /** Some dives of the trip are not asked about: they are done. */
  readonly isUnderWay: boolean;
  /** Past a limit for somebody, by room or by a caution to stop for; those without a mix are told apart. */
  readonly past: readonly Id[];
  /** No mix on board can be used there, for somebody. */
  readonly withoutMix: readonly Id[];
  /** Neither, but with something to adjust. */
  readonly toAdjust: readonly Id[];
  /** Cautions of the trip as a whole that are to stop for, such as a flight too soon. */
  readonly pastTrip: readonly Caution[];
  /**
   * The least room among those that keep every limit, and all whose room reads the same; none where none has a limit.
   * A dive past a limit is not tight, it is past.
   */
  readonly tight: readonly Entry[];
}

/**
 * @param asked ids of the dives, such as those ahead @param cautions of the same ledger
 * @param diverId whose dives alone are looked at; null: everybody's
 * Source: CONVENTIONS, "Room"; the limits as in each caution.
 */
export function standingOf(
  ledger: Ledger,
  cautions: readonly Caution[],
  roomOf: RoomOf,
  asked: ReadonlySet<Id>,
  diverId: Id | null,
): Standing {
  const isTheirs = (id: Id | null): boolean => diverId === null || id === null || id === diverId;
  const entries: Entry[] = [];
  const theirs = new Set<Id>();
  const withoutMix = new Set<Id>();
  const past = new Set<Id>();
  for (const each of ledger.divers) {
    if (!isTheirs(each.diver.id)) continue;
    for (const entry of each.entries) {
      const { id } = entry.dive;
      if (!asked.has(id)) continue;
      entries.push(entry);
      theirs.add(id);
      if (!entry.isMade) withoutMix.add(id);
      if (isPastRoom(entry, roomOf(entry))) past.add(id);
    }
  }
  const toAdjust = new Set<Id>();
  const pastTrip: Caution[] = [];
  for (const caution of cautions) {
    if (!isTheirs(caution.diverId) || caution.severity === 'know') continue;
    if (caution.diveId === null) {
      if (caution.severity === 'stop') pastTrip.push(caution);
    } else if (asked.has(caution.diveId)) {
      (caution.severity === 'stop' ? past : toAdjust).add(caution.diveId);
    }
  }
  const dives = ledger.trip.dives
    .map(({ id }) => id)
    .filter((id) => asked.has(id) && (diverId === null || theirs.has(id)));
  const isSettled = (id: Id): boolean => withoutMix.has(id) || past.has(id);
  return {
    dives,
    isUnderWay: ledger.trip.dives.some(({ id }) => !asked.has(id)),
    past: dives.filter((id) => past.has(id) && !withoutMix.has(id)),
    withoutMix: dives.filter((id) => withoutMix.has(id)),
    toAdjust: dives.filter((id) => toAdjust.has(id) && !isSettled(id)),
    pastTrip,
    tight: tightestOf(
      entries.filter(({ dive }) => !isSettled(dive.id)),
      roomOf,
    ),
  };
}

/** What a trip begins with, before any dive is named. */
export interface State {
  /** "All 22 dives are within limits", "two dives pass a limit"; no stop behind it, as what follows hangs on it. */
  readonly says: Said;
  /** The dives it is about; none where all is well. */
  readonly diveIds: readonly Id[];
  readonly isPast: boolean;
}

/** What is done is told elsewhere: of a trip under way the state is that of the dives ahead. */
function aheadOf(isUnderWay: boolean): Said {
  return isUnderWay ? said` ahead` : NOTHING;
}

function allOf(count: number, whose: Piece | null, ahead: Said): Said {
  if (whose !== null)
    return count === 1
      ? said`the dive${ahead} of ${whose} is`
      : said`all ${count} dives${ahead} of ${whose} are`;
  return count === 1
    ? said`the one dive${ahead} is`
    : count === 2
      ? said`both dives${ahead} are`
      : said`all ${count} dives${ahead} are`;
}

/**
 * The state of a trip in one clause: what is past a limit goes before what has no mix, before the trip's own limits,
 * before what is to adjust.
 * @param standing with one dive or more @param whose the name of the diver whose dives alone are looked at
 */
export function stateSaid(standing: Standing, whose: string | null): State {
  const { dives, past, withoutMix, toAdjust, pastTrip, isUnderWay } = standing;
  const ahead = aheadOf(isUnderWay);
  const all = allOf(dives.length, whose, ahead);
  if (past.length > 0) {
    const says =
      past.length === 1
        ? said`one dive${ahead} passes a limit`
        : said`${countSaid(past.length)} dives${ahead} pass a limit`;
    return { says, diveIds: past, isPast: true };
  }
  if (withoutMix.length > 0) {
    const says =
      withoutMix.length === 1
        ? said`one dive${ahead} has no mix that can be used there`
        : said`${countSaid(withoutMix.length)} dives${ahead} have no mix that can be used there`;
    return { says, diveIds: withoutMix, isPast: true };
  }
  if (pastTrip.length > 0) {
    return { says: said`${all} within limits, but the trip is not`, diveIds: [], isPast: true };
  }
  if (toAdjust.length > 0) {
    const says = said`${all} within limits; ${countSaid(toAdjust.length)} to adjust`;
    return { says, diveIds: toAdjust, isPast: false };
  }
  return { says: said`${all} within limits`, diveIds: [], isPast: false };
}
