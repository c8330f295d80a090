import { type Surroundings, surroundingsOf } from '../profile';
import type { DiverLedger, Entry } from './ledger-types';
import type { Id, Trip } from '../document/types';
import { ambientBar } from '../water';
import { GROUPS, type Group } from '../tables/data';
import { altitudeWaitMin, tableStep, type TableReading, type TableState } from '../tables/procedure';
import type { WallMin } from '../words/calendar';

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

/** One foot of sea water, bar. Source: U.S. Navy Diving Manual: 1 fsw = 0.30643 msw (sea water of 64 lb/ft3). */
export const BAR_PER_FSW = 0.030643;

/** Water that the table counts above the diver at the surface. Source: as above, ch. 10, "+ 33". */
const SURFACE_FSW = 33;

/** Higher than this the table wants its depths corrected for altitude. Source: common practice, 300 m (1 000 ft). */
export const TABLE_UP_TO_ALTITUDE_M = 300;

/** Cabin of an airliner, by the table's own rule. Source: table 9-6, notes. */
const CABIN_FT = 8000;
const DAY_MIN = 1440;

/**
 * Depth the table is entered with.
 * @param depthM metres @param o2 oxygen fraction, 0 to 1
 * @returns feet of sea water, 0 or more: (1 - o2)(fsw + 33)/0.79 - 33 with fsw = (P - P0)/0.030643
 * Source: U.S. Navy Diving Manual Revision 7 (2016), ch. 10, equivalent air depth.
 */
export function tableDepthFsw(depthM: number, o2: number, around: Surroundings): number {
  const { column } = around;
  const fsw = (ambientBar(depthM, column) - column.surfaceBar) / BAR_PER_FSW;
  return Math.max(0, ((1 - o2) * (fsw + SURFACE_FSW)) / 0.79 - SURFACE_FSW);
}

function notEntered(entry: Entry, groupBefore: Group | null, reason: string): SecondOpinion {
  return {
    procedure: 'usn-rev7-air',
    diveId: entry.dive.id,
    depthFsw: null,
    rowFsw: null,
    limitMin: null,
    unlimited: false,
    residualMin: null,
    equivalentMin: null,
    groupBefore,
    groupAfter: groupBefore,
    isWithin: null,
    agrees: null,
    reason,
  };
}

/** Made dives through the table, each with what the one before left; the others have no place in it. */
function walked(entries: readonly Entry[], around: Surroundings): readonly SecondOpinion[] {
  let state: TableState | null = null;
  let surfacedMin: WallMin | null = null;
  return entries.map((entry) => {
    const { o2, bottomMin, startMin, surfacesMin } = entry;
    if (!entry.isMade || o2 === null) {
      return notEntered(
        entry,
        null,
        'No mix of the trip may go on this dive, so there is nothing to look up.',
      );
    }
    const depthFsw = tableDepthFsw(entry.depthM, o2, around);
    const intervalMin = surfacedMin === null ? null : startMin - surfacedMin;
    const next = tableStep({ depthFsw, bottomMin, intervalMin }, state);
    ({ state } = next);
    surfacedMin = surfacesMin;
    const { isWithin } = next.reading;
    const agrees = isWithin === null ? null : isWithin === !entry.isPastLimit;
    return { procedure: 'usn-rev7-air', diveId: entry.dive.id, depthFsw, agrees, ...next.reading };
  });
}

/** What the table says to the dives brought to the trip, with the stops they needed, and to those of the trip. */
function opinionsOfAll({ earlier, entries }: DiverLedger, trip: Trip): readonly SecondOpinion[] {
  const all = [...earlier, ...entries];
  const { altitudeM } = trip.water;
  if (altitudeM <= TABLE_UP_TO_ALTITUDE_M) return walked(all, surroundingsOf(trip));
  const reason = `The table holds up to ${TABLE_UP_TO_ALTITUDE_M} m above sea level; at ${altitudeM} m its depths need a correction that is not made here.`;
  return all.map((entry) => notEntered(entry, null, reason));
}

/**
 * The same dives by the government air table, worked by hand: another view, not an alarm. The table takes
 * every dive as square at its deepest point and rounds up at each step, so it is stricter for several
 * levels and for many dives. Dives brought to the trip go through it like those of the trip.
 * @param diverLedger one diver's ledger @param trip the document it was computed from
 * @returns one opinion an entry, in order; what the table does not give is null with the reason
 * Source: U.S. Navy Diving Manual Revision 7 (2016), tables 9-7 and 9-8 and ch. 10.
 */
export function secondOpinions(diverLedger: DiverLedger, trip: Trip): readonly SecondOpinion[] {
  return opinionsOfAll(diverLedger, trip).slice(diverLedger.earlier.length);
}

/**
 * When the table lets a diver fly: the wait of the highest group of the 24 hours before the last surfacing, dives
 * brought to the trip included.
 * @param diverLedger one diver's ledger @param trip the document it was computed from
 * @returns group and wait, minutes after the last surfacing; null without dives or without a group
 * Source: U.S. Navy Diving Manual Revision 7 (2016), table 9-6: 8 000 ft for an airliner.
 */
export function tableFlight(
  diverLedger: DiverLedger,
  trip: Trip,
): { readonly group: Group; readonly waitMin: number } | null {
  const opinions = opinionsOfAll(diverLedger, trip);
  const all = [...diverLedger.earlier, ...diverLedger.entries];
  const made = all.filter((entry) => entry.isMade);
  const lastMin = Math.max(...made.map((entry) => entry.surfacesMin));
  let highest = -1;
  all.forEach((entry, i) => {
    const group = opinions[i]?.groupAfter ?? null;
    if (!entry.isMade || group === null || lastMin - entry.surfacesMin > DAY_MIN) return;
    highest = Math.max(highest, GROUPS.indexOf(group));
  });
  const group = GROUPS[highest];
  const waitMin = group === undefined ? null : altitudeWaitMin(group, CABIN_FT);
  return group === undefined || waitMin === null ? null : { group, waitMin };
}
