import { AIR_O2 } from '../gas';
import type { Dive, DiveShape, Diver, Id, Mix, Trip } from '../document/types';
import { isSameShare, mixOfShare, type StockRequest } from './shares';

/**
 * Whether a dive may still get another mix: it starts on or after the date, and nothing of it has been
 * dived or analysed.
 * @param fromDate "2027-03-08"; null: any dive
 * Source: this project's.
 */
export function isOpen(dive: Dive, fromDate: string | null): boolean {
  return (fromDate === null || dive.startsAt.slice(0, 10) >= fromDate) && !dive.asDived?.length;
}

/** Air as it stands on board, or a new mix for it. A boat that blends can always fill air (common practice). */
export function airOf(mixes: readonly Mix[]): Mix {
  return mixOfShare(Math.round(AIR_O2 * 100), mixes);
}

/** Whether a mix is air by its label. */
export function isAir(mix: Mix): boolean {
  return isSameShare(mix.o2, AIR_O2);
}

/**
 * Air and the mixes of a list, leanest first, each once.
 * @param percents whole percents of the list @param mixes those on board, kept as they are where a share matches
 * Source: this project's.
 */
export function stockMixes(percents: readonly number[], mixes: readonly Mix[]): readonly Mix[] {
  const listed = percents.map((percent) => mixOfShare(percent, mixes)).filter((mix) => !isAir(mix));
  return [airOf(mixes), ...listed];
}

/** The mixes a dive that keeps its plan chooses among: those it chose among before. */
function kept<Shape extends DiveShape>(dive: Shape, ids: readonly Id[]): Shape {
  return dive.mix === 'auto' && dive.onBoard === undefined ? { ...dive, onBoard: ids } : dive;
}

function keptDiver(diver: Diver, ids: readonly Id[]): Diver {
  return diver.before?.length ? { ...diver, before: diver.before.map((dive) => kept(dive, ids)) } : diver;
}

/**
 * A trip made ready for any list: its open dives on "auto", the others held to the mixes they had. Done once;
 * `stockedTrip` then puts a list on board.
 */
export interface OpenTrip {
  readonly trip: Trip;
  readonly openIds: ReadonlySet<Id>;
  /** Dives, earlier dives of a diver, or loops, that keep the mixes they had. */
  readonly hasKept: boolean;
}

/**
 * Opens a trip to another stock.
 * @param trip as it stands @param request whose date says which dives are open
 * @returns the trip with its open dives on "auto"; the other dives choose among the mixes they had
 * Source: this project's.
 */
export function openTrip(trip: Trip, request: Pick<StockRequest, 'fromDate'>): OpenTrip {
  const openIds = new Set(trip.dives.filter((dive) => isOpen(dive, request.fromDate)).map((dive) => dive.id));
  const hasKept =
    openIds.size < trip.dives.length ||
    // A loop names mixes of the trip whatever is stocked besides.
    trip.party.some(({ before, loop }) => (before?.length ?? 0) > 0 || loop !== undefined);
  const ids = trip.mixes.map((mix) => mix.id);
  const opened = (dive: Dive): Dive => {
    if (!openIds.has(dive.id)) return kept(dive, ids);
    if (dive.mix === 'auto' && dive.onBoard === undefined) return dive;
    const { onBoard: _, ...rest } = dive;
    return { ...rest, mix: 'auto' };
  };
  return {
    openIds,
    hasKept,
    trip: {
      ...trip,
      party: hasKept ? trip.party.map((diver) => keptDiver(diver, ids)) : trip.party,
      dives: trip.dives.map(opened),
    },
  };
}

/**
 * An open trip with a list on board: the definition of what a list comes to.
 * @param percents whole percents of the list
 * @returns a trip whose open dives choose the richest that can be used there of air and the list; mixes that
 *   kept dives need stay in the document
 * Source: CONVENTIONS, "Which mix".
 */
export function stockedTrip(open: OpenTrip, percents: readonly number[]): Trip {
  const { trip, openIds, hasKept } = open;
  const stock = stockMixes(percents, trip.mixes);
  if (!hasKept) return { ...trip, mixes: stock };
  const onBoard = stock.map((mix) => mix.id);
  const others = trip.mixes.filter((mix) => !stock.includes(mix));
  return {
    ...trip,
    mixes: [...stock, ...others],
    dives: trip.dives.map((dive) => (openIds.has(dive.id) ? { ...dive, onBoard } : dive)),
  };
}
