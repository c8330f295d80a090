import {
  ALTITUDE_STEPS_FT,
  ALTITUDE_WAITS,
  GROUPS,
  INTERVAL_BAND_ENDS,
  NO_STOP_ROWS,
  RESIDUAL_ROWS,
  SHORTEST_INTERVAL_MIN,
  type Group,
  type NoStopRow,
} from './data';

/** A dive as the table takes it: square, on air. */
export interface TableDive {
  /** Equivalent air depth, feet of sea water, 0 or more. */
  readonly depthFsw: number;
  /** Minutes from leaving the surface to leaving the bottom. */
  readonly bottomMin: number;
  /** Surface time since the dive before, minutes; null for a first dive. */
  readonly intervalMin: number | null;
}

/** What the table says to one dive. */
export interface TableReading {
  /** The row entered, fsw; null where the table has none so deep. */
  readonly rowFsw: number | null;
  /** The row's no-stop limit, minutes; null where there is none, or no row. */
  readonly limitMin: number | null;
  readonly unlimited: boolean;
  /** Residual nitrogen time, minutes; 0 on a first dive; null where the table gives none. */
  readonly residualMin: number | null;
  /** Residual nitrogen time and bottom time, that of a dive joined to this one included, minutes. */
  readonly equivalentMin: number | null;
  /** Group at the end of the interval; null on a first dive. */
  readonly groupBefore: Group | null;
  readonly groupAfter: Group;
  /** Within the no-stop limit; null where the table does not tell. */
  readonly isWithin: boolean | null;
  /** Why a cell is null; null where none is. */
  readonly reason: string | null;
  /** What was looked up where the dive counts as one with that before it; null where it was looked up by itself. */
  readonly joined: JoinedDives | null;
}

/** Dives under 10 minutes apart, as one: the deepest depth, feet of sea water, and the bottom time of all. */
export interface JoinedDives {
  readonly depthFsw: number;
  readonly bottomMin: number;
}

/** What a dive leaves for the next one. */
export interface TableState {
  readonly group: Group;
  /** The dive so far, should the next one follow within 10 minutes and count with it as one. */
  readonly open: {
    readonly depthFsw: number;
    readonly bottomMin: number;
    readonly groupBefore: Group | null;
  };
}

/** What the table says to a dive, and what the dive leaves. */
export interface TableStep {
  readonly reading: TableReading;
  readonly state: TableState;
}

/** Depths and times computed from metres and pressures miss a printed figure by rounding alone. */
const DUST = 1e-9;

/** Where the dagger of table 9-8 sends the reader. Source: table 9-8, note. */
const DAGGER_ROW_FSW = 30;

/** Source: table 9-7 counts a passed limit as the last column (this project's careful reading). */
const PAST_THE_LIMIT: Group = 'Z';

/**
 * Minutes of a time as the tables print it. @param text "h:mm" @returns whole minutes
 * Source: the print of tables 9-6 and 9-8.
 */
export function printedMin(text: string): number {
  const [hours, minutes] = text.split(':');
  return Number(hours) * 60 + Number(minutes);
}

/** The ends of the bands of table 9-8 in minutes: a ledger asks for them at every dive. Source: as printed there. */
const BAND_ENDS_MIN = new Map(GROUPS.map((group) => [group, INTERVAL_BAND_ENDS[group].map(printedMin)]));

/** Table 9-6 in minutes. Source: as printed there. */
const ALTITUDE_WAITS_MIN = new Map(GROUPS.map((group) => [group, ALTITUDE_WAITS[group].map(printedMin)]));

/** Source: table 9-8, lower part. */
const RESIDUAL_CELLS = new Map(RESIDUAL_ROWS);

/**
 * The row of table 9-7 for a depth: the same or the next deeper one.
 * @param depthFsw feet of sea water, 0 or more @returns null below 190 fsw
 * Source: U.S. Navy Diving Manual Revision 7 (2016), ch. 9, entering the tables.
 */
export function rowFor(depthFsw: number): NoStopRow | null {
  // Here and below a plain walk along the table: a ledger asks at every dive of every diver.
  for (const row of NO_STOP_ROWS) if (row.depthFsw >= depthFsw - DUST) return row;
  return null;
}

/**
 * The group at the end of a surface interval.
 * @param group at its start @param intervalMin minutes, 10 or more; read rounded down
 * @returns null past the last band: the next dive is a first dive
 * Source: table 9-8, upper part.
 */
export function groupAfterInterval(group: Group, intervalMin: number): Group | null {
  const whole = Math.floor(intervalMin + DUST);
  const ends = BAND_ENDS_MIN.get(group)!;
  for (let band = 0; band < ends.length; band += 1) {
    if (whole <= ends[band]!) return GROUPS[GROUPS.indexOf(group) - band]!;
  }
  return null;
}

/** Group of a single dive of this length at this row: the next longer time. Source: table 9-7. */
function groupOf(row: NoStopRow, equivalentMin: number): Group {
  const { maxMin } = row;
  for (let column = 0; column < maxMin.length; column += 1) {
    const max = maxMin[column]!;
    if (max !== null && equivalentMin <= max + DUST) return GROUPS[column]!;
  }
  return row.topGroup ?? PAST_THE_LIMIT;
}

interface Residual {
  readonly row: NoStopRow;
  readonly min: number | null;
}

/** Residual nitrogen time at a row, and the row it holds for. Source: table 9-8, lower part and its notes. */
function residualFor(group: Group, row: NoStopRow): Residual {
  const cell = RESIDUAL_CELLS.get(row.depthFsw)![GROUPS.indexOf(group)]!;
  if (cell === 'use the 30 fsw row') return residualFor(group, rowFor(DAGGER_ROW_FSW)!);
  return { row, min: cell === 'cannot be determined' ? null : cell };
}

function unreadable(groupBefore: Group | null, joined: JoinedDives | null): TableReading {
  const deepest = NO_STOP_ROWS[NO_STOP_ROWS.length - 1]!.depthFsw;
  return {
    rowFsw: null,
    limitMin: null,
    unlimited: false,
    residualMin: null,
    equivalentMin: null,
    groupBefore,
    groupAfter: PAST_THE_LIMIT,
    isWithin: null,
    reason: `The table ends at ${deepest} feet of sea water; the dives after this one count from group Z.`,
    joined,
  };
}

function read(
  { depthFsw, bottomMin }: JoinedDives,
  groupBefore: Group | null,
  joined: JoinedDives | null,
): TableReading {
  const entered = rowFor(depthFsw);
  if (entered === null) return unreadable(groupBefore, joined);
  const { row, min: residualMin } =
    groupBefore === null ? { row: entered, min: 0 } : residualFor(groupBefore, entered);
  const { limitMin } = row;
  const unlimited = limitMin === null;
  // Both written out in full, as an entry is: spreading a common part costs more than the reading.
  if (residualMin === null) {
    // Such cells stand only where the group is at or above the row's asterisk, the most any time there
    // can give: the dive leaves the diver in the group they came with, and no time is past a limit.
    return {
      rowFsw: row.depthFsw,
      limitMin,
      unlimited,
      residualMin,
      groupBefore,
      equivalentMin: null,
      groupAfter: groupBefore!,
      isWithin: true,
      reason: `The table gives no residual nitrogen time for group ${groupBefore} at ${row.depthFsw} fsw; there is no limit at that depth, and the group is kept.`,
      joined,
    };
  }
  const equivalentMin = residualMin + Math.ceil(bottomMin - DUST);
  const isWithin = limitMin === null || equivalentMin <= limitMin;
  return {
    rowFsw: row.depthFsw,
    limitMin,
    unlimited,
    residualMin,
    groupBefore,
    equivalentMin,
    groupAfter: isWithin ? groupOf(row, equivalentMin) : PAST_THE_LIMIT,
    isWithin,
    reason: unlimited ? `The table sets no limit at ${row.depthFsw} fsw.` : null,
    joined,
  };
}

/**
 * One step of the hand procedure: enter with a dive and what the dives before left.
 * Depth rounds up to the next row, time to the next minute and column, the interval down. Under 10 minutes
 * at the surface the two dives count as one of the deepest depth and both times; past the last band the
 * dive is a first dive. Once a limit is passed the group counts as Z.
 * @param dive depth 0 or more, bottom time above 0 @param before null for the diver's first dive
 * @returns the reading, and the state for the dive after
 * Source: U.S. Navy Diving Manual Revision 7 (2016), tables 9-7 and 9-8 with their notes; the dives under
 * 10 minutes apart by the rule of earlier revisions.
 */
export function tableStep(dive: TableDive, before: TableState | null): TableStep {
  const joins =
    before !== null && dive.intervalMin !== null && dive.intervalMin < SHORTEST_INTERVAL_MIN - DUST;
  const joined = joins
    ? {
        depthFsw: Math.max(dive.depthFsw, before.open.depthFsw),
        bottomMin: dive.bottomMin + before.open.bottomMin,
      }
    : null;
  const { depthFsw, bottomMin } = joined ?? dive;
  const groupBefore = joins
    ? before.open.groupBefore
    : before === null || dive.intervalMin === null
      ? null
      : groupAfterInterval(before.group, dive.intervalMin);
  const reading = read(joined ?? dive, groupBefore, joined);
  return { reading, state: { group: reading.groupAfter, open: { depthFsw, bottomMin, groupBefore } } };
}

/** The highest ascent to altitude that the table has, feet. Source: as `altitudeWaitMin`. */
export const HIGHEST_INCREASE_FT = ALTITUDE_STEPS_FT.at(-1)!;

/**
 * Interval the table asks for before an ascent to altitude.
 * @param group highest of the 24 hours before @param increaseFt feet, 0 or more; read at the next head up
 * @returns minutes; above `HIGHEST_INCREASE_FT`, where the table does not hold, those of its last column: it would ask for
 *   no less there
 * Source: U.S. Navy Diving Manual Revision 7 (2016), table 9-6 and its notes; above it a careful reading of this project.
 */
export function altitudeWaitMin(group: Group, increaseFt: number): number {
  // Where there is none so high it is -1, which is the last.
  const column = ALTITUDE_STEPS_FT.findIndex((headFt) => headFt >= increaseFt);
  return ALTITUDE_WAITS_MIN.get(group)!.at(column)!;
}
