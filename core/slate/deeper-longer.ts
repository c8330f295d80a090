import { NO_BREAK } from '../line-breaks';
import { levelsOf, travelMin, type ProfileShape, surroundingsOf } from '../profile';
import { effectiveDive } from '../document/as-dived';
import type { Entry } from '../ledger/ledger-types';
import { deeper, entryWith, longer } from '../ledger/changed-dive';
import { spareL } from '../ledger/gas-outcome';
import type { Trip } from '../document/types';
import { M_PER_FOOT } from '../units';
import { depthAsPrintedM, depths, diveDepths, down, joined, up, words, type SlateUnits } from './figures';
import { noStopFigures } from './levels';

/** Next steps are round depths and times: 3 m or 10 ft, and 5 min. Source: common practice. */
const STEP_M = 3;
const STEP_FT = 10;
const STEP_MIN = 5;

const STEPS = 2;

/** Depths within this of each other are the same, so that 27 m is not its own next step. */
const SAME = 1e-6;

/** The small table: what a little deeper or longer would cost, as words. */
export interface DeeperLonger {
  /** "At", "no-stop", "45 min", "50 min" */
  readonly head: readonly string[];
  readonly rows: readonly DeeperRow[];
}

export interface DeeperRow {
  readonly depth: string;
  readonly depthM: number;
  /** The no-stop time and one cell a time step; or one sentence why the row is not to be dived. */
  readonly cells: readonly string[] | string;
}

/** The next `STEPS` multiples of a step beyond a value. */
function nextSteps(value: number, step: number): readonly number[] {
  const first = Math.floor(value / step + SAME) + 1;
  return Array.from({ length: STEPS }, (_, i) => (first + i) * step);
}

/** From the depth as it is printed, so that no two rows read alike. */
function depthSteps({ depthM, isAsDived }: Entry, units: SlateUnits): readonly number[] {
  const round = isAsDived ? up : down;
  return units === 'imperial'
    ? nextSteps(round(depthM / M_PER_FOOT), STEP_FT).map((ft) => ft * M_PER_FOOT)
    : nextSteps(round(depthM, 0.1), STEP_M);
}

/** The depths of a shape, "24 m", or of each of its levels, "30/18 m". */
function depthWords(shape: ProfileShape, entry: Entry, units: SlateUnits): string {
  const each = levelsOf(shape).map(({ depthM }) => diveDepths({ ...entry, depthM }, units));
  return each[0]!
    .map(({ unit }, i) => `${each.map((figures) => figures[i]!.value).join('/')} ${unit}`)
    .join(' / ');
}

/** Why a depth is not to be dived at all; null where it may be. */
function barred(entry: Entry, depthM: number, units: SlateUnits): string | null {
  if (entry.modM !== null && depthM > entry.modM + SAME) {
    return `past the MOD of ${joined(depths(entry.modM, 'limit', units))}`;
  }
  if (depthM > entry.diver.maxDepthM + SAME) {
    return `past your own limit of ${joined(depths(entry.diver.maxDepthM, 'limit', units))}`;
  }
  return null;
}

/** Stops in few signs, "6 m: 1, 3 m: 4" minutes; more than two as the first depth and the minutes in all. */
function stopWords(stops: NonNullable<Entry['stops']>, units: SlateUnits): string {
  const at = (depthM: number): string =>
    joined(depths(depthM, 'exposure', units === 'imperial' ? 'imperial' : 'metric'));
  // Depth and minutes hold together; between two stops the line may break.
  const one = (depthM: number, min: number): string => `${at(depthM)}: ${up(min)}`.replaceAll(' ', NO_BREAK);
  if (stops.length <= STEPS) return stops.map((stop) => one(stop.depthM, stop.min)).join(', ');
  return `from ${one(
    stops[0]!.depthM,
    stops.reduce((sum, stop) => sum + stop.min, 0),
  )}`;
}

/** What a longer stay costs: nothing, stops, or more than there is of gas or of an oxygen limit. */
function costOf(trip: Trip, variant: Entry, units: SlateUnits): string {
  const { cns } = variant;
  if (variant.stops === null) return 'no ascent';
  if (spareL(variant, trip) < -SAME) return 'gas short';
  if (cns.after === null || cns.day === null) return 'past PO2';
  if (cns.after > 1 + SAME) return 'past CNS';
  if (cns.day > 1 + SAME) return 'past CNS 24 h';
  return variant.stops.length === 0
    ? variant.isPastLimit
      ? 'past limit'
      : 'no stops'
    : stopWords(variant.stops, units);
}

/**
 * The table "deeper / longer": the planned depth and the next two depth steps, with the no-stop time (of
 * each level, in their order) and the stops (minutes at a depth) that each of the next two time steps would cost.
 * @param entry one that is made
 * @returns words; a depth past the MOD or the diver's own limit says so and gives no time
 * Source: the same functions as the ledger (core/ledger/room.ts); steps are common practice.
 */
export function deeperLonger(trip: Trip, entry: Entry, units: SlateUnits): DeeperLonger {
  const { shape } = effectiveDive(entry.dive, entry.diver);
  const around = surroundingsOf(trip);
  const times = nextSteps(up(entry.bottomMin), STEP_MIN);
  const rows = [depthAsPrintedM(entry, units), ...depthSteps(entry, units)].map((depthM): DeeperRow => {
    const lower = deeper(shape, depthM - entry.depthM);
    const depth = depthWords(lower, entry, units);
    const why = barred(entry, depthM, units);
    if (why !== null) return { depth, depthM, cells: why };
    let fromM = 0;
    for (const level of levelsOf(lower)) {
      if (travelMin(fromM, level.depthM, around) > level.min) {
        return { depth, depthM, cells: 'no time left after the way down' };
      }
      fromM = level.depthM;
    }
    const planned = entryWith(trip, entry, lower);
    return {
      depth,
      depthM,
      cells: [
        words(noStopFigures(planned.levels)),
        ...times.map((min) =>
          costOf(trip, entryWith(trip, entry, longer(lower, min - entry.bottomMin)), units),
        ),
      ],
    };
  });
  return { head: ['At', 'no-stop', ...times.map((min) => `${down(min)} min`)], rows };
}
