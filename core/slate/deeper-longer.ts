import { surroundingsAt } from '../document/waters';
import { levelsOf, travelMin, type ProfileShape, type Stop } from '../profile';
import { effectiveDive } from '../document/as-dived';
import type { Entry } from '../ledger/ledger-types';
import { deepestLevel } from '../ledger/level-limits';
import { deeper, entryWith, longer } from '../ledger/changed-dive';
import { loopModM } from '../ledger/loop-said';
import { planOf } from '../ledger/dive-plan';
import { spareL } from '../ledger/gas-outcome';
import { loopShortage } from '../ledger/loop-room';
import type { Trip } from '../document/types';
import { M_PER_FOOT } from '../units';
import { NO_BREAK } from '../line-breaks';
import { rounded } from '../words/quantity';
import { inOneSystem, shown, wordsOf, type Reader, type Words } from '../words/reader';
import { bare, figure, said, type Said } from '../words/said';
import { NO_END, SHORT_LIMITS } from '../words/terms';
import { depthAsPrintedM } from './figures';
import { slanted, stressed } from './markup';

/** Next steps are round depths and times: 3 m or 10 ft, and 5 min. Source: common practice. */
const STEP_M = 3;
const STEP_FT = 10;
const STEP_MIN = 5;

/** Time steps; and depth steps, of which several levels take one: they are longer to read. */
const STEPS = 2;

/** Depths within this of each other are the same, so that 27 m is not its own next step. */
const SAME = 1e-6;

/** What a little deeper or longer would cost, in words. */
export interface DeeperLonger {
  /** "If deeper or longer: stops, minutes in all" */
  readonly title: string;
  /** "at", "no-stop", "for 45 min", "for 50 min"; of several levels without the second. */
  readonly head: readonly string[];
  readonly rows: readonly DeeperRow[];
}

export interface DeeperRow {
  readonly depth: string;
  readonly depthM: number;
  /** A cell a column of the head; or one sentence why the row is not to be dived. */
  readonly cells: readonly string[] | string;
}

/** The next `count` multiples of a step beyond a value. */
function nextSteps(value: number, step: number, count: number): readonly number[] {
  const first = Math.floor(value / step + SAME) + 1;
  return Array.from({ length: count }, (_, i) => (first + i) * step);
}

const variantsKnown = new WeakMap<ProfileShape, Map<string, ProfileShape>>();

/** The shape so much deeper and longer: one object for all divers of a dive, so that what it costs is planned once. */
function variantOf(shape: ProfileShape, byM: number, byMin: number): ProfileShape {
  const known = variantsKnown.get(shape) ?? new Map<string, ProfileShape>();
  variantsKnown.set(shape, known);
  const key = `${byM} ${byMin}`;
  let variant = known.get(key);
  if (variant === undefined) {
    const lower = byM === 0 ? shape : deeper(shape, byM);
    variant = byMin === 0 ? lower : longer(lower, byMin);
    known.set(key, variant);
  }
  return variant;
}

/** From the depth as it is printed, so that no two rows read alike. */
function depthSteps({ depthM, isAsDived, levels }: Entry, units: Reader['units']): readonly number[] {
  const toward = isAsDived ? 'up' : 'down';
  const count = levels.length > 1 ? 1 : STEPS;
  return units === 'imperial'
    ? nextSteps(rounded(depthM / M_PER_FOOT, 0, toward), STEP_FT, count).map((ft) => ft * M_PER_FOOT)
    : nextSteps(rounded(depthM, 1, toward), STEP_M, count);
}

/** The depths of a shape, "24 m", or of each of its levels, "30, 18 m"; in each system that is read. */
function depthWords(shape: ProfileShape, { isAsDived }: Entry, reader: Reader): string {
  const each = levelsOf(shape).map(({ depthM }) =>
    shown(figure(isAsDived ? 'depthMet' : 'depthSet', depthM), reader),
  );
  return each[0]!
    .map(
      ({ unit }, i) => `${each.map((figures) => figures[i]!.value).join(`,${NO_BREAK}`)}${NO_BREAK}${unit}`,
    )
    .join(', ');
}

/** Why a depth is not to be dived at all; null where it may be. */
function barred(entry: Entry, depthM: number): Said | null {
  const modM = entry.loop === null ? entry.modM : loopModM(entry.loop);
  if (modM !== null && depthM > modM + SAME) {
    return said`past the MOD of ${figure('depthLimit', modM)}`;
  }
  if (depthM > entry.diver.maxDepthM + SAME) {
    return said`past your own limit of ${figure('depthLimit', entry.diver.maxDepthM)}`;
  }
  return null;
}

/**
 * Stops as their depths and the minutes in all, "6–3 m 2 min": one depth alone would be taken for the whole. In feet
 * the head has the unit, and a colon parts the two numbers: "20–10: 3 min".
 */
function stopsSaid(stops: readonly Stop[], hasUnit: boolean): Said {
  const [first, last] = [stops[0]!, stops[stops.length - 1]!];
  const end = hasUnit ? figure('depthMet', last.depthM) : bare('depthMet', last.depthM);
  const depths = first === last ? said`${end}` : said`${bare('depthMet', first.depthM)}–${end}`;
  const whole = stops.reduce((sum, { min }) => sum + min, 0);
  return stressed(said`${slanted(depths)}${hasUnit ? '' : ':'} ${figure('minutesMet', whole)}`);
}

/** What a longer stay costs: nothing, stops, or more than there is of gas or of an oxygen limit. */
function costOf(trip: Trip, variant: Entry, hasUnit: boolean): Said {
  const { cns } = variant;
  if (variant.stops === null) return stressed(said`no ascent`);
  const short = variant.loop === null ? null : loopShortage(trip, variant, planOf(trip, variant));
  if (short !== null) return stressed(said`${SHORT_LIMITS[short]} short`);
  if (variant.loop === null && spareL(variant, trip) < -SAME) return stressed(said`gas short`);
  if (cns.after === null || cns.day === null) return stressed(said`past ${SHORT_LIMITS.po2}`);
  if (cns.after > 1 + SAME) return stressed(said`past ${SHORT_LIMITS.cns}`);
  if (cns.day > 1 + SAME) return stressed(said`past ${SHORT_LIMITS['cns-day']}`);
  if (variant.stops.length > 0) return stopsSaid(variant.stops, hasUnit);
  return variant.isPastLimit ? stressed(said`past limit`) : said`no stops`;
}

/** A cell in which a stop holds together where its line breaks. */
function held(words: Words, cell: Said): string {
  return words(cell).replaceAll(' ', NO_BREAK);
}

/**
 * The grid "if deeper or longer": the planned depth and the next steps, with the no-stop time and what each of the next
 * two time steps would cost: nothing, stops in minutes, or more gas than there is.
 * @param entry one that is made
 * @returns words; a depth past the MOD or the diver's own limit says so and gives no time
 * Source: the same functions as the ledger (core/ledger/room.ts); steps are common practice.
 */
export function deeperLonger(trip: Trip, entry: Entry, reader: Reader): DeeperLonger {
  const words = wordsOf(inOneSystem(reader));
  const { shape } = effectiveDive(entry.dive, entry.diver);
  const around = surroundingsAt(trip, entry.dive);
  const isOne = entry.levels.length === 1;
  const hasUnit = reader.units === 'metric';
  const unit = shown(figure('depthMet', 0), inOneSystem(reader))[0]!.unit;
  const times = nextSteps(rounded(entry.bottomMin, 0, 'up'), STEP_MIN, STEPS);
  const depths = [depthAsPrintedM(entry, reader.units), ...depthSteps(entry, reader.units)];
  const rows = depths.map((depthM): DeeperRow => {
    const lower = variantOf(shape, depthM - entry.depthM, 0);
    const depth = depthWords(lower, entry, reader);
    const why = barred(entry, depthM);
    if (why !== null) return { depth, depthM, cells: words(why) };
    let fromM = 0;
    for (const level of levelsOf(lower)) {
      if (travelMin(fromM, level.depthM, around) > level.min) {
        return { depth, depthM, cells: words(said`no time left after the way down`) };
      }
      fromM = level.depthM;
    }
    const variants = times.map((min) =>
      entryWith(trip, entry, variantOf(shape, depthM - entry.depthM, min - entry.bottomMin)),
    );
    const costs = variants.map((variant) => held(words, costOf(trip, variant, hasUnit)));
    // However long a level lasts, its limit is the same; what was recorded has the way there in it.
    const asked = shape.samples === undefined ? variants[0]! : entryWith(trip, entry, lower);
    const { noStopMin, unlimited } = deepestLevel(asked.levels);
    const noStop = words(unlimited ? NO_END : said`${bare('minutesLeft', noStopMin)}`);
    return { depth, depthM, cells: isOne ? [noStop, ...costs] : costs };
  });
  const stops = hasUnit ? said`stops, minutes in all` : said`stops in ${unit}, minutes in all`;
  return {
    title: words(said`${stressed(said`If deeper or longer:`)} ${stops}`),
    head: [
      words(said`at`),
      ...(isOne ? [words(SHORT_LIMITS['no-stop'])] : []),
      ...times.map((min) =>
        words(isOne ? said`for ${figure('minutesMet', min)}` : said`${figure('minutesMet', min)} in all`),
      ),
    ],
    rows,
  };
}
