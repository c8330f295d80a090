import type { DiverLedger, Entry } from './ledger-types';
import type { Id, Trip } from '../document/types';
import { isOneWater, surroundingsAt, waterAt } from '../document/waters';
import { wallMin } from '../words/calendar';
import type { Dived } from './flying';
import { SHORTEST_INTERVAL_MIN, type Group } from '../tables/data';
import type { TableReading } from '../tables/procedure';
import { loopDepthFsw } from './loop-depth';
import { tableDepthFsw } from './table-depth';

/** The table's view of one entry, beside the model's. */
export interface SecondOpinion extends Omit<TableReading, 'groupAfter'> {
  readonly procedure: 'usn-rev7-air';
  readonly diveId: Id;
  /** Equivalent air depth the table was entered with, feet of sea water; null where it was not entered. */
  readonly depthFsw: number | null;
  /** Null where the table was not entered. */
  readonly groupAfter: Group | null;
  readonly holds: TableHolds;
  /** Both say within the limit, or both say past it; null where one of them does not tell. */
  readonly agrees: boolean | null;
}

/** Higher than this the table wants its depths corrected for altitude. Source: common practice, 300 m (1 000 ft). */
export const TABLE_UP_TO_ALTITUDE_M = 300;

/** Whether the table may be entered with a dive: by its height, and by that of the dives it counts on from. */
export type TableHolds = 'holds' | 'too high' | 'after a dive too high';

/** How high a dive of a diver was made, metres: one brought along before the climb to the trip's height at the sea. */
export function heightOfDive(trip: Trip, { dive, diver, startMin }: Entry, isEarlier: boolean): number {
  const water = waterAt(trip, dive);
  const isBelow = isEarlier && diver.arrivedAt !== undefined && startMin < wallMin(diver.arrivedAt);
  return isBelow && water === trip.water ? 0 : water.altitudeM;
}

/** Whether no dive of a trip can be too high for the table, as on most: nothing has to be asked of each. */
export function holdsEverywhere(trip: Trip): boolean {
  return isOneWater(trip) && trip.water.altitudeM <= TABLE_UP_TO_ALTITUDE_M;
}

/**
 * Up to where the table holds, dive by dive.
 * Source: as `TABLE_UP_TO_ALTITUDE_M`; residual nitrogen of a dive at altitude is told by no row of the table.
 */
export function tableHolds({ earlier, entries }: Dived, trip: Trip): ReadonlyMap<Entry, TableHolds> {
  const holds = new Map<Entry, TableHolds>();
  let isTainted = false;
  const note = (entry: Entry, isEarlier: boolean): void => {
    const isTooHigh = heightOfDive(trip, entry, isEarlier) > TABLE_UP_TO_ALTITUDE_M;
    const countsOn =
      (entry.table?.groupBefore ?? null) !== null || (entry.intervalMin ?? Infinity) < SHORTEST_INTERVAL_MIN;
    const isAfter = isTainted && countsOn;
    holds.set(entry, isTooHigh ? 'too high' : isAfter ? 'after a dive too high' : 'holds');
    if (entry.isMade) isTainted = isTooHigh || isAfter;
  };
  for (const entry of earlier) note(entry, true);
  for (const entry of entries) note(entry, false);
  return holds;
}

function notEntered(entry: Entry, holds: TableHolds, reason: string): SecondOpinion {
  return {
    procedure: 'usn-rev7-air',
    holds,
    diveId: entry.dive.id,
    depthFsw: null,
    rowFsw: null,
    limitMin: null,
    unlimited: false,
    residualMin: null,
    equivalentMin: null,
    groupBefore: null,
    groupAfter: null,
    isWithin: null,
    agrees: null,
    reason,
    joined: null,
  };
}

function opinionOf(entry: Entry, trip: Trip, holds: TableHolds): SecondOpinion {
  if (holds === 'after a dive too high') {
    return notEntered(
      entry,
      holds,
      `The dive before, whose group the table counts on from, was made higher than the ${TABLE_UP_TO_ALTITUDE_M} m up to which the table holds.`,
    );
  }
  if (holds === 'too high') {
    const { altitudeM } = waterAt(trip, entry.dive);
    return notEntered(
      entry,
      holds,
      `The table holds up to ${TABLE_UP_TO_ALTITUDE_M} m above sea level; at ${altitudeM} m its depths need a correction that is not made here.`,
    );
  }
  const { table, o2, loop } = entry;
  if (table === null || (o2 === null && loop === null)) {
    return notEntered(
      entry,
      holds,
      'No mix of the trip can be used on this dive, so there is nothing to look up.',
    );
  }
  return {
    procedure: 'usn-rev7-air',
    holds,
    diveId: entry.dive.id,
    depthFsw:
      loop === null
        ? tableDepthFsw(entry.depthM, o2!, surroundingsAt(trip, entry.dive))
        : loopDepthFsw(entry, trip),
    ...table,
    agrees: table.isWithin === null ? null : table.isWithin === !entry.isPastLimit,
  };
}

/**
 * The same dives by the government air table, worked by hand: another view, not an alarm. The table takes
 * every dive as square at its deepest point and rounds up at each step, so it is stricter for several
 * levels and for many dives. Dives brought to the trip go through it like those of the trip.
 * @param diverLedger one diver's ledger @param trip the document it was computed from
 * @returns one opinion an entry, in order; what the table does not give is null with the reason
 * Source: U.S. Navy Diving Manual Revision 7 (2016), tables 9-7 and 9-8 and ch. 10.
 */
export function secondOpinions(dived: DiverLedger, trip: Trip): readonly SecondOpinion[] {
  const holds = tableHolds(dived, trip);
  return dived.entries.map((entry) => opinionOf(entry, trip, holds.get(entry)!));
}
