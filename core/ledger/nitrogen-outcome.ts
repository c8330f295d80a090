/** What nitrogen makes of one dive: its no-stop limit, and the way up that it takes, on whatever is breathed. */
import { noStopLimitMin } from '../ascent/no-stop-limit';
import { stagedAscent } from '../ascent/staged-ascent';
import { isWithin, toleratedTensions } from '../ascent/tolerated';
import type { Diver } from '../document/types';
import { ascentLegs, runtimeMin, type Leg, type Stop } from '../profile';
import { applyMap, type AffineMap, type Lanes } from '../tissues/affine-map';
import { breathedMap } from '../tissues/breathed-legs';
import type { WaterColumn } from '../water';
import type { DivePlan } from './dive-plan';
import { lastLevelStay } from './level-limits';

/** Bottom time and limit may differ by this much before one counts as past the other: rounding, minutes. */
const SAME_MIN = 1e-9;

const NONE: readonly never[] = [];

interface KnownLimits {
  readonly gradientHigh: number;
  readonly limits: Lanes;
}

const limitsKnown = new WeakMap<WaterColumn, KnownLimits[]>();

/** Tolerated tensions at the surface of a water; kept with it, as a party has few gradients. */
export function surfaceLimits(column: WaterColumn, gradientHigh: number): Lanes {
  let known = limitsKnown.get(column);
  if (!known) limitsKnown.set(column, (known = []));
  // So few are sooner looked through than found by a fraction.
  for (const each of known) if (each.gradientHigh === gradientHigh) return each.limits;
  const limits = toleratedTensions(column.surfaceBar, gradientHigh);
  known.push({ gradientHigh, limits });
  return limits;
}

/** What the nitrogen of a dive comes to. */
export interface NitrogenOutcome {
  readonly noStopMin: number;
  readonly levelsPastLimitM: readonly number[];
  readonly isPastLimit: boolean;
  readonly stops: readonly Stop[] | null;
  readonly legs: readonly Leg[];
  readonly runtimeMin: number;
  readonly whole: AffineMap;
}

/**
 * The nitrogen of one dive: its no-stop limit, and the legs and map it is made with, required stops included.
 * @param before tensions at its start, bar @param n2 nitrogen fraction
 * Source: core/ascent; CONVENTIONS, "Required stops".
 */
export function nitrogenOutcome(plan: DivePlan, before: Lanes, n2: number, diver: Diver): NitrogenOutcome {
  const limits = surfaceLimits(plan.around.column, diver.gradient.high);
  const noStopMin = noStopLimitMin(lastLevelStay(plan, before, n2, limits));
  if (plan.isRecorded) return recordedOutcome(plan, before, n2, diver, noStopMin, limits);
  const levelsPastLimitM =
    plan.earlierLevels.length === 0
      ? NONE
      : plan.earlierLevels
          .filter(({ toSurface }) => !isWithin(applyMap(toSurface, before, n2), limits))
          .map(({ depthM }) => depthM);
  const isOver = plan.profile.bottomMin > noStopMin + SAME_MIN;
  const isPastLimit = isOver || levelsPastLimitM.length > 0;
  // Written out in full, as is the entry: spreading a common part costs more than the arithmetic of the dive.
  if (!isOver) {
    const { legs, whole } = plan;
    return {
      noStopMin,
      levelsPastLimitM,
      isPastLimit,
      stops: NONE,
      legs,
      runtimeMin: plan.runtimeMin,
      whole,
    };
  }
  const leaving = applyMap(plan.toLeaving, before, n2);
  const lastM = plan.profile.lastLevel.toM;
  const stops = stagedAscent(leaving, lastM, n2, diver.gradient, plan.around);
  if (stops === null) {
    const { legs, whole } = plan;
    return { noStopMin, levelsPastLimitM, isPastLimit, stops, legs, runtimeMin: plan.runtimeMin, whole };
  }
  // The required stops take the place of the safety stop: the last of them lies shallower than it.
  const ascent = ascentLegs(lastM, stops, plan.around);
  const legs = [...plan.profile.toLastLevel, plan.profile.lastLevel, ...ascent];
  const whole = breathedMap(ascent, plan.around.breathing, plan.toLeaving);
  return { noStopMin, levelsPastLimitM, isPastLimit, stops, legs, runtimeMin: runtimeMin(legs), whole };
}

/**
 * The nitrogen of a recorded dive: what was passed at any moment, and the stops that would have been due on leaving the
 * bottom; the legs are as they were made, whatever was due.
 */
function recordedOutcome(
  plan: DivePlan,
  before: Lanes,
  n2: number,
  diver: Diver,
  noStopMin: number,
  limits: Lanes,
): NitrogenOutcome {
  const moments = [...plan.earlierLevels, ...plan.momentsUp];
  const past = moments.filter(({ toSurface }) => !isWithin(applyMap(toSurface, before, n2), limits));
  const isOver = plan.profile.bottomMin > noStopMin + SAME_MIN;
  const lastM = plan.profile.lastLevel.toM;
  return {
    noStopMin,
    levelsPastLimitM: past.length === 0 ? NONE : [Math.max(...past.map(({ depthM }) => depthM))],
    isPastLimit: isOver || past.length > 0,
    stops: isOver
      ? stagedAscent(applyMap(plan.toLeaving, before, n2), lastM, n2, diver.gradient, plan.around)
      : NONE,
    legs: plan.legs,
    runtimeMin: plan.runtimeMin,
    whole: plan.whole,
  };
}
