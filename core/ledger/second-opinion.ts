import { surroundingsOf } from '../profile';
import type { DiverLedger, Entry } from './ledger-types';
import type { Id, Trip } from '../document/types';
import type { Group } from '../tables/data';
import type { TableReading } from '../tables/procedure';
import { tableDepthFsw } from './table-depth';

/** The table's view of one entry, beside the model's. */
export interface SecondOpinion extends Omit<TableReading, 'groupAfter'> {
  readonly procedure: 'usn-rev7-air';
  readonly diveId: Id;
  /** Equivalent air depth the table was entered with, feet of sea water; null where it was not entered. */
  readonly depthFsw: number | null;
  /** Null where the table was not entered. */
  readonly groupAfter: Group | null;
  /** Both say within the limit, or both say past it; null where one of them does not tell. */
  readonly agrees: boolean | null;
}

/** Higher than this the table wants its depths corrected for altitude. Source: common practice, 300 m (1 000 ft). */
export const TABLE_UP_TO_ALTITUDE_M = 300;

function notEntered(entry: Entry, reason: string): SecondOpinion {
  return {
    procedure: 'usn-rev7-air',
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
  };
}

function opinionOf(entry: Entry, trip: Trip): SecondOpinion {
  const { altitudeM } = trip.water;
  if (altitudeM > TABLE_UP_TO_ALTITUDE_M) {
    return notEntered(
      entry,
      `The table holds up to ${TABLE_UP_TO_ALTITUDE_M} m above sea level; at ${altitudeM} m its depths need a correction that is not made here.`,
    );
  }
  const { table, o2 } = entry;
  if (table === null || o2 === null) {
    return notEntered(entry, 'No mix of the trip may go on this dive, so there is nothing to look up.');
  }
  return {
    procedure: 'usn-rev7-air',
    diveId: entry.dive.id,
    depthFsw: tableDepthFsw(entry.depthM, o2, surroundingsOf(trip)),
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
export function secondOpinions({ entries }: DiverLedger, trip: Trip): readonly SecondOpinion[] {
  return entries.map((entry) => opinionOf(entry, trip));
}
