/** Figures of a dive before and after a plan: of the party, those of whoever has least. */
import { cautionsOf } from '../../cautions/all';
import type { Dive, Id } from '../../document/types';
import type { Entry, Ledger, RoomLimit } from '../../ledger/ledger-types';
import { roomMinutes } from '../../ledger/room';
import { roomOrder } from '../../ledger/tightest';
import type { WallMin } from '../../words/calendar';

/** A dive as planned, with what it comes to for the diver who has least of each. */
export interface DiveFigures {
  readonly dive: Dive;
  readonly room: {
    /** Minutes; negative by how much the dive is too long; null: no figure, for `limit`, or no limit in reach. */
    readonly min: number | null;
    readonly limit: RoomLimit | null;
    readonly diverId: Id;
  } | null;
  /** Shortest time at the surface before it; null where it is everybody's first. */
  readonly intervalMin: number | null;
  /** Least pressure left of those on open circuit, no bar where somebody's gas does not last; null where all are on loops. */
  readonly left: { readonly bar: number | null; readonly diverId: Id } | null;
  /** Fewest minutes left of a loop's scrubber, negative where it does not last; null where nobody is on a loop. */
  readonly scrubber: { readonly min: number; readonly diverId: Id } | null;
  /** Codes of the cautions to stop or change about it. */
  readonly cautions: readonly string[];
}

function leastOf(entries: readonly Entry[], of: (entry: Entry) => number): Entry | null {
  return entries.reduce<Entry | null>(
    (least, each) => (least === null || of(each) < of(least) ? each : least),
    null,
  );
}

function isOnLoop({ loop }: Entry): boolean {
  return loop !== null;
}

/** The figures of one dive of a ledger; null where the ledger has no such dive. */
export function diveFigures(whole: Ledger, diveId: Id): DiveFigures | null {
  const { trip } = whole;
  const dive = trip.dives.find(({ id }) => id === diveId);
  if (dive === undefined) return null;
  const entries = whole.divers
    .flatMap((each) => each.entries.filter((entry) => entry.dive.id === diveId))
    .filter((entry) => entry.isMade);
  const tightest = leastOf(entries, (entry) => roomOrder(entry, roomMinutes(trip, entry)));
  const lowest = leastOf(
    entries.filter((entry) => !isOnLoop(entry)),
    ({ gas }) => gas.endBar ?? -Infinity,
  );
  const longest = leastOf(entries.filter(isOnLoop), ({ loop }) => loop!.scrubber.leftMin);
  const intervals = entries.flatMap(({ intervalMin }) => intervalMin ?? []);
  const room = tightest && roomMinutes(trip, tightest);
  return {
    dive,
    room: room && { min: room.min, limit: room.minLimit, diverId: tightest!.diver.id },
    intervalMin: intervals.length === 0 ? null : Math.min(...intervals),
    left: lowest && { bar: lowest.gas.endBar, diverId: lowest.diver.id },
    scrubber: longest && { min: longest.loop!.scrubber.leftMin, diverId: longest.diver.id },
    cautions: [
      ...new Set(
        cautionsOf(whole)
          .filter((each) => each.diveId === diveId && each.severity !== 'know')
          .map(({ code }) => code),
      ),
    ],
  };
}

/** The moment from which everybody may fly; null where nobody dives. */
export function flyAfterOf({ divers }: Ledger): WallMin | null {
  const moments = divers.flatMap(({ flyAfterMin }) => flyAfterMin ?? []);
  return moments.length === 0 ? null : Math.max(...moments);
}
