import { noStopLimitMin, type LevelStay } from '../ascent/no-stop-limit';
import { applyMap, type Lanes } from '../tissues/affine-map';
import { nitrogenInspiredBar } from '../tissues/breathed-legs';
import type { DivePlan } from './dive-plan';
import { effectiveDive } from '../document/as-dived';
import type { Entry, EntryLevel } from './ledger-types';

/** The question of the no-stop limit for one plan, on one mix, from given tensions at the start. */
export function lastLevelStay(
  plan: DivePlan,
  tensionsBefore: Lanes,
  n2Fraction: number,
  limits: Lanes,
): LevelStay {
  return {
    arrivalTensions: applyMap(plan.toArrival, tensionsBefore, n2Fraction),
    arrivalMin: plan.arrivalMin,
    inspiredN2Bar: nitrogenInspiredBar(
      plan.profile.lastLevel.toM,
      plan.profile.lastLevel.toBar,
      n2Fraction,
      plan.around.breathing,
    ),
    directAscent: plan.directAscent,
    n2Fraction,
    limits,
  };
}

/**
 * The question of a level's own no-stop limit: the minutes of the levels before it are done and do not count.
 * @param index of the level, 0 to the last
 */
export function levelStay(
  plan: DivePlan,
  index: number,
  tensionsBefore: Lanes,
  n2Fraction: number,
  limits: Lanes,
): LevelStay {
  const earlier = plan.earlierLevels[index];
  if (earlier === undefined) {
    return {
      ...lastLevelStay(plan, tensionsBefore, n2Fraction, limits),
      arrivalMin: plan.lastLevel.travelMin,
    };
  }
  return {
    arrivalTensions: applyMap(earlier.toArrival, tensionsBefore, n2Fraction),
    arrivalMin: earlier.travelMin,
    inspiredN2Bar: nitrogenInspiredBar(earlier.depthM, earlier.ambientBar, n2Fraction, plan.around.breathing),
    directAscent: earlier.directAscent,
    n2Fraction,
    limits,
  };
}

function level(depthM: number, min: number, noStopMin: number): EntryLevel {
  const unlimited = noStopMin === Infinity;
  return { depthM, min, noStopMin: unlimited ? null : noStopMin, unlimited };
}

/**
 * The levels of a dive, each with its own no-stop limit: how long it may last, the way to it included and what
 * came before it being done, so that a direct ascent from it passes nothing.
 * @param before tensions at the start of the dive, bar
 * @param wholeMin the limit of the whole dive, its last level lengthened: Infinity where there is none
 * @returns in the order of the dive; 0 minutes where a direct ascent on arrival already passes; a dive of a
 *   single level has the limit of the whole
 * Source: core/ascent/no-stop-limit.ts.
 */
export function levelLimits(
  plan: DivePlan,
  before: Lanes,
  n2Fraction: number,
  limits: Lanes,
  wholeMin: number,
): readonly EntryLevel[] {
  const { depthM, min, travelMin } = plan.lastLevel;
  // What the last level may last is what is left of the whole: the same 16 logarithms need not be taken twice.
  const last = level(depthM, min, wholeMin === 0 ? 0 : wholeMin - (plan.arrivalMin - travelMin));
  if (plan.earlierLevels.length === 0) return [last];
  return [
    ...plan.earlierLevels.map((each, index) =>
      level(each.depthM, each.min, noStopLimitMin(levelStay(plan, index, before, n2Fraction, limits))),
    ),
    last,
  ];
}

/**
 * The no-stop limit that stands for a dive where only one does, on whatever mix.
 * @param before tensions at the start of the dive, bar
 * @returns its deepest level with that level's own limit
 * Source: as `levelLimits` and `deepestLevel`.
 */
export function deepestLimit(plan: DivePlan, before: Lanes, n2Fraction: number, limits: Lanes): EntryLevel {
  const wholeMin = noStopLimitMin(lastLevelStay(plan, before, n2Fraction, limits));
  return deepestLevel(levelLimits(plan, before, n2Fraction, limits, wholeMin));
}

/** The levels of a dive that is not made: no limit is known. */
export function levelsWithoutLimit(plan: DivePlan): readonly EntryLevel[] {
  return [...plan.earlierLevels, plan.lastLevel].map(({ depthM, min }) => ({
    depthM,
    min,
    noStopMin: null,
    unlimited: false,
  }));
}

/**
 * The level whose no-stop time stands for the dive where only one does: the deepest, of two alike the one with
 * less time.
 * @param levels one or more
 * Source: CONVENTIONS, "Several levels".
 */
export function deepestLevel(levels: readonly EntryLevel[]): EntryLevel {
  return levels.reduce((held, each) => {
    if (each.depthM !== held.depthM) return each.depthM > held.depthM ? each : held;
    return (each.noStopMin ?? Infinity) < (held.noStopMin ?? Infinity) ? each : held;
  });
}

/** Whether the dive counts as its samples run, and not as levels that were planned. */
export function isRecorded({ dive, diver }: Pick<Entry, 'dive' | 'diver'>): boolean {
  return effectiveDive(dive, diver).shape.samples !== undefined;
}

/**
 * The levels that are stays at their depth: all of a plan, and of a recorded dive the deepest stay, as its last level is
 * the way there and back. Source: CONVENTIONS, "Recorded profiles".
 */
export function staysOf(entry: Pick<Entry, 'dive' | 'diver' | 'levels'>): readonly EntryLevel[] {
  const { levels } = entry;
  return levels.length < 2 || !isRecorded(entry) ? levels : levels.slice(0, -1);
}
