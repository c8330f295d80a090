import { type Surroundings, surroundingsOf } from '../profile';
import type { DiverLedger, Entry, Exposure } from './ledger-types';
import type { Dive, Id, Trip } from '../document/types';
import { ambientBar } from '../water';
import type { Group } from '../tables/data';
import { tableStep, type TableReading, type TableState } from '../tables/procedure';
import type { WallMin } from '../words/calendar';
import type { Dived } from './flying';

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

/** What the table said to a dive, what it came after, and what it left. */
interface Walked {
  readonly dive: Dive;
  readonly o2: number;
  readonly depthM: number;
  readonly bottomMin: number;
  readonly before: TableState | null;
  readonly surfacedMin: WallMin | null;
  readonly isPastLimit: boolean;
  readonly opinion: SecondOpinion;
  readonly state: TableState;
}

/**
 * Kept with what was breathed, which divers share who made all the same dives on the same mixes: asked once of them, and
 * anew only from the first dive that changed.
 */
const walkedKnown = new WeakMap<Exposure, Walked>();

function walkedEntry(
  entry: Entry,
  exposure: Exposure,
  o2: number,
  around: Surroundings,
  before: TableState | null,
  surfacedMin: WallMin | null,
): Walked {
  const { dive, depthM, bottomMin, isPastLimit } = entry;
  const known = walkedKnown.get(exposure);
  if (
    known !== undefined &&
    known.dive === dive &&
    known.o2 === o2 &&
    known.depthM === depthM &&
    known.bottomMin === bottomMin &&
    known.before === before &&
    known.surfacedMin === surfacedMin &&
    known.isPastLimit === isPastLimit
  ) {
    return known;
  }
  const depthFsw = tableDepthFsw(depthM, o2, around);
  const intervalMin = surfacedMin === null ? null : entry.startMin - surfacedMin;
  const { reading, state } = tableStep({ depthFsw, bottomMin, intervalMin }, before);
  const agrees = reading.isWithin === null ? null : reading.isWithin === !isPastLimit;
  const opinion = {
    procedure: 'usn-rev7-air' as const,
    diveId: dive.id,
    depthFsw,
    rowFsw: reading.rowFsw,
    limitMin: reading.limitMin,
    unlimited: reading.unlimited,
    residualMin: reading.residualMin,
    equivalentMin: reading.equivalentMin,
    groupBefore: reading.groupBefore,
    groupAfter: reading.groupAfter,
    isWithin: reading.isWithin,
    agrees,
    reason: reading.reason,
  };
  const result = { dive, o2, depthM, bottomMin, before, surfacedMin, isPastLimit, opinion, state };
  walkedKnown.set(exposure, result);
  return result;
}

/** Made dives through the table, each with what the one before left; the others have no place in it. */
function walked(entries: readonly Entry[], around: Surroundings): readonly SecondOpinion[] {
  let state: TableState | null = null;
  let surfacedMin: WallMin | null = null;
  return entries.map((entry) => {
    if (entry.exposure === null || entry.o2 === null) {
      return notEntered(
        entry,
        null,
        'No mix of the trip may go on this dive, so there is nothing to look up.',
      );
    }
    const next = walkedEntry(entry, entry.exposure, entry.o2, around, state, surfacedMin);
    ({ state } = next);
    surfacedMin = entry.surfacesMin;
    return next.opinion;
  });
}

/**
 * What the table says to the dives brought to the trip, with the stops they needed, and to those of the trip.
 * @returns one opinion an entry, those brought first
 * Source: as `secondOpinions`.
 */
export function opinionsOfAll({ earlier, entries }: Dived, trip: Trip): readonly SecondOpinion[] {
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
