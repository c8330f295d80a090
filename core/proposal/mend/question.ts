/** What the search is asked: of all dives ahead, or of one of them. Source: DEVELOPERS, "What mending looks for". */
import type { Caution } from '../../cautions/caution';
import { loopOn } from '../../document/loops';
import type { Id, Trip } from '../../document/types';
import { ledger } from '../../ledger/ledger';
import type { Ledger } from '../../ledger/ledger-types';
import { mendedTrip, type Plan } from './carried-out';
import type { MendRequest } from './request';
import { aheadIdsOf, cautionsToMend, hasWayUp, heldByDone, isByHours, isByOtherView } from './to-mend';

export interface Question {
  /** As it is searched: for one dive alone it ends with that dive. */
  readonly trip: Trip;
  /** Its dives done are those that stay as they are. */
  readonly request: MendRequest;
  /** What has to go. */
  readonly toMend: readonly Caution[];
  /** Whether what a plan leads to later on may be; null: there is nothing later. @param plan of every dive searched */
  readonly accepts: ((plan: Plan) => boolean) | null;
  /**
   * Whether a plan keeps the flight by the table and the model, and every way up to a greater height; null: there is none.
   * Kept apart: a later start may serve it, as the table goes by steps.
   */
  readonly keepsViews: ((plan: Plan) => boolean) | null;
  /** Divers whom table and model may go on keeping from the flight. */
  readonly mayMiss: ReadonlySet<Id | null>;
  /** Whether a start later than it need be may serve what lies behind the dives searched. */
  readonly needsEveryStart: boolean;
}

function keyOf({ code, diveId, diverId }: Caution): string {
  return `${code} ${diveId} ${diverId}`;
}

function diversOf(cautions: readonly Caution[]): ReadonlySet<Id | null> {
  return new Set(cautions.map(({ diverId }) => diverId));
}

/** Whether the party stays at another height before the last of its dives. */
function isStayBetween({ events = [], dives }: Trip): boolean {
  const last = dives.at(-1);
  return last !== undefined && events.some(({ from }) => from <= last.startsAt);
}

/**
 * Whether a dive ahead is made on a loop. Its bail-out goes by whole minutes of stops, so that less nitrogen before it may
 * ask for more of one mix; and shallow it gives off more than the surface does.
 */
function isLoopAhead({ party, dives }: Trip, doneCount: number): boolean {
  return dives.slice(doneCount).some((dive) => party.some((diver) => loopOn(dive, diver) !== null));
}

/** Cautions of a plan that were not there before. */
export function comeBy(before: readonly Caution[], after: readonly Caution[]): readonly Caution[] {
  const known = new Set(before.map(keyOf));
  return after.filter((each) => !known.has(keyOf(each)));
}

/**
 * The question that a request asks of a trip.
 *
 * For one dive: its own cautions go, none comes, and all others may stay. Moves are made on it and on the dives before
 * it, back to the last that is done or has a caution of its own. So no dive that is moved, nor any between, is past its
 * limit in a plan, and what holds for all dives together holds for them.
 * @param before the ledger of the trip @param request of which `onlyDiveId`, where there is one, is a dive of the trip
 */
export function questionOf(before: Ledger, request: MendRequest): Question {
  const { trip } = before;
  const { doneCount, onlyDiveId, steps } = request;
  const aheadIds = aheadIdsOf(trip, doneCount);
  const all = cautionsToMend(before, aheadIds);
  const hasLoop = isLoopAhead(trip, doneCount);
  const cautionsAfter = (plan: Plan): readonly Caution[] =>
    cautionsToMend(ledger(mendedTrip(trip, plan, steps), before), aheadIds);
  if (onlyDiveId === null) {
    return {
      trip,
      request,
      toMend: all,
      // Stays at other heights between dives are left out of the search, so its plans are judged with them.
      // The bail-out of a loop jumps by minutes, where rounding may decide.
      accepts: isStayBetween(trip) || hasLoop ? (plan) => cautionsAfter(plan).every(isByOtherView) : null,
      keepsViews: hasWayUp(trip) ? (plan) => !cautionsAfter(plan).some(isByOtherView) : null,
      mayMiss: diversOf(heldByDone(before, aheadIds)),
      needsEveryStart: hasLoop,
    };
  }
  const at = trip.dives.findIndex(({ id }) => id === onlyDiveId);
  const cautioned = new Set(all.map(({ diveId }) => diveId));
  const lastStuck = trip.dives.findLastIndex(({ id }, i) => i < at && cautioned.has(id));
  const isFlightPast = all.some(isByHours);
  const searched: Trip = {
    ...trip,
    dives: trip.dives.slice(0, at + 1),
    // A flight that leaves too soon already may go on doing so.
    flight: isFlightPast ? null : trip.flight,
  };
  const accepts = (plan: Plan): boolean => {
    const made = mendedTrip(trip, plan, steps);
    const isInOrder = made.dives.every(
      ({ startsAt }, i) => i === 0 || made.dives[i - 1]!.startsAt <= startsAt,
    );
    return isInOrder && comeBy(all, cautionsAfter(plan)).every(isByOtherView);
  };
  // Less nitrogen before a dive with required stops may lengthen what it leaves: there alone a later start may serve.
  const needsEveryStart =
    hasLoop ||
    before.divers.some(({ entries }) =>
      entries.some(({ dive, isPastLimit }) => isPastLimit && trip.dives.indexOf(dive) > at),
    );
  return {
    trip: searched,
    request: { ...request, doneCount: Math.max(doneCount, lastStuck + 1) },
    toMend: all.filter(({ diveId }) => diveId === onlyDiveId),
    accepts,
    keepsViews: hasWayUp(trip) ? (plan) => !comeBy(all, cautionsAfter(plan)).some(isByOtherView) : null,
    mayMiss: diversOf([...heldByDone(before, aheadIds), ...all.filter(isByOtherView)]),
    needsEveryStart,
  };
}
