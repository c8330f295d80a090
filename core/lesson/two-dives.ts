/** Exercises of two dives: the CNS clock over both, and residual nitrogen by the government air table. */
import { AIR_O2 } from '../gas';
import { CNS_HALF_TIME_MIN } from '../oxygen/cns';
import { NOAA_LIMITS } from '../oxygen/limits';
import { assert } from '../result';
import { GROUPS, INTERVAL_BAND_ENDS, NO_STOP_ROWS, RESIDUAL_ROWS } from '../tables/data';
import { tableStep } from '../tables/procedure';
import { fraction } from '../words/formula';
import { said, worked, type Said } from '../words/said';
import type { Draw } from './drawing-lots';
import {
  depthSaid,
  isRound,
  plain,
  pressureAt,
  pressureSaid,
  shortest,
  type Exercise,
  type NeededRows,
  type Ruler,
} from './exercise';
import { gasSaid, PERCENTS, WORKING_PO2 } from './single-dive';

/** Draws that fail the limits are drawn anew, no oftener than this. Source: choice of this project. */
const MOST_DRAWS = 20_000;

/** An exercise by lot. */
export type Drawn = (draw: Draw) => Exercise;

/** The first drawn that is an exercise. */
function untilOne(tried: (draw: Draw) => Exercise | null): Drawn {
  return (draw) => {
    for (let i = 0; i < MOST_DRAWS; i += 1) {
      const exercise = tried(draw);
      if (exercise !== null) return exercise;
    }
    assert(false, 'of two dives some keep the limits');
  };
}

const FEET_A_STEP = 33;

/** Feet of a depth of the sheet, by the rule of thumb. */
function feetOf(depth: number, { step }: Ruler): number {
  return (depth * FEET_A_STEP) / step;
}

/** "1 h 30 min". */
function timeSaid(min: number): Said {
  const hours = Math.floor(min / 60);
  const rest = min % 60;
  if (hours === 0) return said`${rest} min`;
  return rest === 0 ? said`${hours} h` : said`${hours} h ${rest} min`;
}

/** A dive whose share of the CNS limit is a whole percent. */
interface CountedDive {
  readonly percent: number;
  readonly depth: number;
  readonly min: number;
  readonly po2: number;
  readonly limitMin: number;
  readonly sharePercent: number;
}

/** Minutes that a dive of an exercise lasts. Source: choice of this project. */
const DIVE_MINUTES = Array.from({ length: 46 }, (_, i) => i + 15);

function countedDives(ruler: Ruler): readonly CountedDive[] {
  return PERCENTS.flatMap((percent) =>
    ruler.depths.flatMap((depth) => {
      const po2 = plain((percent / 100) * pressureAt(depth, ruler));
      const row = NOAA_LIMITS.find((each) => Math.abs(each.po2Bar - po2) < 1e-9);
      if (row === undefined || po2 > WORKING_PO2) return [];
      return DIVE_MINUTES.flatMap((min): readonly CountedDive[] => {
        const sharePercent = plain((min / row.singleMin) * 100);
        return isRound(sharePercent, 0)
          ? [{ percent, depth, min, po2, limitMin: row.singleMin, sharePercent }]
          : [];
      });
    }),
  );
}

/** Feet at which air has the same nitrogen, never below 0. Source: CONVENTIONS, "The government table". */
function eadFeet({ percent, depth }: CountedDive, ruler: Ruler): number {
  const nitrogen = 1 - percent / 100;
  return Math.max(0, ((feetOf(depth, ruler) + FEET_A_STEP) * nitrogen) / (1 - AIR_O2) - FEET_A_STEP);
}

/** Whether both dives keep the no-stop limits of the government table at their equivalent depths. */
function areWithin(first: CountedDive, intervalMin: number, second: CountedDive, ruler: Ruler): boolean {
  const one = tableStep({ depthFsw: eadFeet(first, ruler), bottomMin: first.min, intervalMin: null }, null);
  const two = tableStep({ depthFsw: eadFeet(second, ruler), bottomMin: second.min, intervalMin }, one.state);
  return one.reading.isWithin === true && two.reading.isWithin === true;
}

/** Half-times at the surface, and how often that halves in words. */
const HALVINGS = [1, 2, 3] as const;
const OFTEN: Readonly<Record<(typeof HALVINGS)[number], Said>> = {
  1: said`halved once`,
  2: said`halved twice`,
  3: said`halved three times`,
};

/** All two dives may add up to. Source: choice of this project, well inside the limit. */
const MOST_CNS_PERCENT = 80;

/** The table of limits, as far as an exercise may need it. */
function limitRows({ pressureUnit }: Ruler): NeededRows {
  const rows = NOAA_LIMITS.filter(({ po2Bar }) => po2Bar <= WORKING_PO2);
  return [
    [said`PO2, ${pressureUnit}`, ...rows.map(({ po2Bar }) => said`${worked(po2Bar, 1)}`)],
    [said`for at most so many minutes`, ...rows.map(({ singleMin }) => said`${singleMin}`)],
  ];
}

function countedSaid({ percent, depth, min }: CountedDive, ruler: Ruler): Said {
  return said`${min} min at ${depthSaid(depth, ruler)} on ${gasSaid(percent)}`;
}

function shareNote({ percent, depth, min, po2, limitMin }: CountedDive, ruler: Ruler): Said {
  const pressure = shortest(pressureAt(depth, ruler), 1);
  return said`${worked(percent / 100, 2)} × ${pressure} = ${pressureSaid(po2, ruler)}: ${min} of ${limitMin} min.`;
}

/**
 * Two dives, the second no deeper, whose shares of the CNS limit are whole percents, also once the first has halved.
 * Source: NOAA Diving Manual, oxygen partial pressure limits, as in core/oxygen/limits.ts; the half-time is a
 * convention of the trade; both dives keep the no-stop limits of the government table.
 */
export function cnsExercises(ruler: Ruler): Drawn {
  const dives = countedDives(ruler);
  return untilOne((draw) => {
    const first = draw(dives);
    const halvings = draw(HALVINGS);
    const second = draw(dives);
    const left = first.sharePercent / 2 ** halvings;
    const intervalMin = halvings * CNS_HALF_TIME_MIN;
    const sum = left + second.sharePercent;
    if (!isRound(left, 0) || sum > MOST_CNS_PERCENT || second.depth > first.depth) return null;
    if (!areWithin(first, intervalMin, second, ruler)) return null;
    return {
      kind: 'cns',
      given: {
        oxygenPercent1: first.percent,
        depth1: first.depth,
        min1: first.min,
        intervalMin,
        oxygenPercent2: second.percent,
        depth2: second.depth,
        min2: second.min,
      },
      asks: said`A diver spends ${countedSaid(first, ruler)}, then ${timeSaid(intervalMin)} at the surface, then ${countedSaid(second, ruler)}. What does the CNS clock read at the end?`,
      answer: { value: sum, decimals: 0, unit: '%' },
      working: [
        fraction([first.min], [first.limitMin]),
        said`= ${shortest(first.sharePercent)} %, ${OFTEN[halvings]} = ${shortest(left)} %, ${shortest(left)} % +`,
        fraction([second.min], [second.limitMin]),
      ],
      notes: [shareNote(first, ruler), shareNote(second, ruler)],
      rows: limitRows(ruler),
    };
  });
}

/** Rows of the table that are used here, feet of sea water; a row of 10 ft stands for 3 m. */
const ROWS_FSW = [40, 50, 60, 70, 80, 90, 100, 110, 120, 130];
const M_A_ROW = 3;
const FEET_A_ROW = 10;

/** Surface intervals asked about, minutes. Source: choice of this project. */
const INTERVALS = Array.from({ length: 22 }, (_, i) => 30 + i * 15);

/** Bottom times of the table's exercises, minutes. Source: choice of this project. */
const FIVES = Array.from({ length: 11 }, (_, i) => 10 + i * 5);

/** How long the next dive may last where that is asked, minutes. Source: choice of this project. */
const LONGEST = [10, 90] as const;

function rowDepth(fsw: number, { system }: Ruler): number {
  return system === 'imperial' ? fsw : (fsw / FEET_A_ROW) * M_A_ROW;
}

/** A depth with the row that it is read in, where these differ in unit. */
function rowSaid(fsw: number, ruler: Ruler): Said {
  const depth = depthSaid(rowDepth(fsw, ruler), ruler);
  return ruler.system === 'imperial' ? depth : said`${depth} (${fsw} ft)`;
}

function neededRows(firstFsw: number, group: string, secondFsw: number, ruler: Ruler): NeededRows {
  const row = NO_STOP_ROWS.find(({ depthFsw }) => depthFsw === firstFsw)!;
  const [, residual] = RESIDUAL_ROWS.find(([depthFsw]) => depthFsw === secondFsw)!;
  const second = NO_STOP_ROWS.find(({ depthFsw }) => depthFsw === secondFsw)!;
  const ends = INTERVAL_BAND_ENDS[group as (typeof GROUPS)[number]];
  const last = GROUPS.indexOf(group as (typeof GROUPS)[number]);
  const upTo = Math.max(last + 1, 1);
  return [
    [
      said`${rowSaid(firstFsw, ruler)}, limit ${row.limitMin!} min: up to so many minutes give group`,
      ...row.maxMin.flatMap((min, at) => (min === null ? [] : [said`${GROUPS[at]!} ${min}`])),
    ],
    [
      said`from ${group}, after up to so long at the surface, group`,
      ...ends.map((end, at) => said`${GROUPS[last - at]!} ${end}`),
    ],
    [
      said`${rowSaid(secondFsw, ruler)}, limit ${second.limitMin!} min: residual nitrogen, min`,
      ...residual.slice(0, upTo).map((min, at) => said`${GROUPS[at]!} ${String(min)}`),
    ],
  ];
}

/**
 * Two dives on air within the no-stop limits of the government table, the second no deeper: the equivalent time of the
 * second, or how long it may last.
 * Source: U.S. Navy Diving Manual Revision 7 (2016), tables 9-7 and 9-8, by core/tables/procedure.ts.
 */
export function residualExercises(ruler: Ruler): Drawn {
  return untilOne((draw) => {
    const firstFsw = draw(ROWS_FSW);
    const { limitMin: firstLimitMin } = NO_STOP_ROWS.find(({ depthFsw }) => depthFsw === firstFsw)!;
    const firstMin = draw(FIVES.filter((min) => min <= firstLimitMin!));
    const intervalMin = draw(INTERVALS);
    const secondFsw = draw(ROWS_FSW);
    const secondMin = draw(FIVES);
    const asksLongest = draw([false, true]);
    const first = tableStep({ depthFsw: firstFsw, bottomMin: firstMin, intervalMin: null }, null);
    const second = tableStep({ depthFsw: secondFsw, bottomMin: secondMin, intervalMin }, first.state);
    const { residualMin, equivalentMin, limitMin, groupBefore, isWithin, rowFsw } = second.reading;
    if (first.reading.isWithin !== true || isWithin !== true || secondFsw > firstFsw) return null;
    if (rowFsw !== secondFsw || !residualMin || limitMin === null || equivalentMin === null) return null;
    const longest = limitMin - residualMin;
    if (asksLongest && (longest < LONGEST[0] || longest > LONGEST[1])) return null;
    const group = first.reading.groupAfter;
    const how = said`${firstMin} min at ${rowSaid(firstFsw, ruler)} give group ${group}; after ${timeSaid(intervalMin)} it is ${groupBefore!}, and ${residualMin} min at ${rowSaid(secondFsw, ruler)}.`;
    const before = said`A diver spends ${firstMin} min at ${depthSaid(rowDepth(firstFsw, ruler), ruler)} on air, then ${timeSaid(intervalMin)} at the surface.`;
    const at = depthSaid(rowDepth(secondFsw, ruler), ruler);
    const shared = {
      kind: 'residual',
      rows: neededRows(firstFsw, group, secondFsw, ruler),
    } as const;
    const given = {
      rowFsw1: firstFsw,
      min1: firstMin,
      intervalMin,
      rowFsw2: secondFsw,
    };
    return asksLongest
      ? {
          ...shared,
          given,
          asks: said`${before} How long may the next dive on air be at ${at}, to stay within the no-stop limit?`,
          answer: { value: longest, decimals: 0, unit: 'min' },
          working: [limitMin, '−', residualMin],
          notes: [how],
        }
      : {
          ...shared,
          given: { ...given, min2: secondMin },
          asks: said`${before} The next dive on air is ${secondMin} min at ${at}. What is its equivalent time, and is it within the no-stop limit?`,
          answer: { value: equivalentMin, decimals: 0, unit: 'min' },
          working: [residualMin, '+', secondMin],
          notes: [how, said`It is within the limit of ${limitMin} min.`],
        };
  });
}
