import { leadingShare, isWithin, toleratedTensions } from '../ascent/tolerated';
import { noStopLimitMin } from '../ascent/no-stop-limit';
import { stagedAscent } from '../ascent/staged-ascent';
import { eadM, gasDensityGL, modM, po2Bar } from '../gas';
import { oxygenDoses } from '../oxygen/doses';
import { ascentLegs, runtimeMin, type Leg, type Stop } from '../profile';
import { applyMap, type AffineMap, type Lanes } from '../tissues/affine-map';
import { AIR_N2, inspiredBar } from '../tissues/compartments';
import { legsMap } from '../tissues/leg-map';
import { ambientBar, type WaterColumn } from '../water';
import type { EffectiveDive } from '../document/as-dived';
import { surroundingsAt } from '../document/waters';
import { dayNumber } from '../words/calendar';
import type { AtSurface } from './at-surface';
import { divePlan, type DivePlan } from './dive-plan';
import { gasOutcome, NO_GAS } from './gas-outcome';
import type { Carry, Entry } from './ledger-types';
import { lastLevelStay, levelLimits, levelsWithoutLimit } from './level-limits';
import { mixO2 } from './mix-choice';
import {
  beforeDive,
  broughtTo,
  madeAsPlanned,
  madeOn,
  surfaceIntervalMin,
  type BeforeDive,
  type SharedNitrogen,
} from './on-mix';
import type { Dive, Diver, Mix, Trip } from '../document/types';

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
  const whole = legsMap(ascent, plan.toLeaving);
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

/** The nitrogen of a dive with its levels, asked once of those who come to it with the same carry and limits. */
function sharedNitrogen(
  before: BeforeDive,
  plan: DivePlan,
  n2: number,
  diver: Diver,
  limits: Lanes,
): SharedNitrogen {
  const kept = before.nitrogen;
  const gradientLow = diver.gradient.low;
  if (kept?.limits === limits && kept.gradientLow === gradientLow) return kept;
  const { tensions } = before.brought;
  const outcome = nitrogenOutcome(plan, tensions, n2, diver);
  const levels = levelLimits(plan, tensions, n2, limits, outcome.noStopMin);
  before.nitrogen = { limits, gradientLow, outcome, levels };
  return before.nitrogen;
}

/** What is the same for every dive of a diver. */
export interface FoldContext {
  readonly trip: Trip;
  readonly diver: Diver;
  /** Where the diver breathes between dives, with maps that the divers of a party share. */
  readonly surface: AtSurface;
}

/**
 * Carries a diver through the surface interval and one dive: one step of the fold.
 * @param from what the diver holds before the interval
 * @param known an earlier reckoning of the same dive by the same diver on the same mix. What the nitrogen of the
 *   dives before does not touch is taken over from it: another depth in the morning changes neither the gas of the
 *   afternoon's dive nor the oxygen of the days after
 * @param mix null where none may go there: the dive is left out and nothing changes but the time
 * @returns the entry with every figure, and with the carry on surfacing
 * Source: the modules named in the imports; CONVENTIONS, "The order of reckoning".
 */
export function step(
  context: FoldContext,
  from: Carry,
  dive: Dive,
  effective: EffectiveDive,
  mix: Mix | null,
  plan: DivePlan = divePlan(effective.shape, surroundingsAt(context.trip, dive)),
  known: Entry | null = null,
): Entry {
  const { trip, diver } = context;
  const { column } = plan.around;
  const { startMin } = effective;
  const limits = surfaceLimits(column, diver.gradient.high);
  const restBar = AIR_N2 * inspiredBar(column.surfaceBar);
  const intervalMin = surfaceIntervalMin(from, startMin);
  if (mix === null) {
    const brought = broughtTo(from, startMin, context.surface);
    const day = dayNumber(startMin);
    const today = from.doses.find((dose) => dose.day === day);
    const tripOtu = from.doses.reduce((sum, dose) => sum + dose.otu, 0);
    return {
      dive,
      diver,
      from,
      after: from,
      isMade: false,
      startMin,
      surfacesMin: startMin,
      intervalMin,
      depthM: plan.profile.deepestM,
      bottomMin: plan.profile.bottomMin,
      isAsDived: effective.isAsDived,
      isAsPlanned: effective.isAsPlanned,
      legs: plan.legs,
      levelsPastLimitM: [],
      exposure: null,
      mix: null,
      o2: null,
      isAnalysed: false,
      modM: null,
      contingencyModM: null,
      po2Bar: null,
      eadM: null,
      gasDensityGL: null,
      noStopMin: null,
      unlimited: false,
      levels: levelsWithoutLimit(plan),
      isPastLimit: false,
      stops: [],
      tensionsBefore: brought.tensions,
      leading: leadingShare(brought.tensions, restBar, limits),
      cns: { before: brought.cns, after: brought.cns, day: null },
      otu: { dive: null, day: today?.otu ?? 0, trip: tripOtu },
      esot: { dive: null, day: today?.esot ?? 0 },
      gas: NO_GAS,
      table: null,
    };
  }

  const o2 = effective.analysedO2 ?? mixO2(mix);
  const n2 = 1 - o2;
  const before = beforeDive(plan, from, startMin, o2, context.surface);
  const { tensions, cns } = before.brought;
  const { outcome: nitrogen, levels } = sharedNitrogen(before, plan, n2, diver, limits);
  const made =
    nitrogen.legs === plan.legs
      ? madeAsPlanned(before, plan, o2, known)
      : madeOn(before, nitrogen, o2, oxygenDoses(nitrogen.legs, o2, startMin), known);
  const deepestBar = ambientBar(plan.profile.deepestM, column);
  const isUnlimited = nitrogen.noStopMin === Infinity;
  // Written out in full: spreading a common part into it costs ten times the arithmetic of the dive.
  return {
    dive,
    diver,
    from,
    after: made.after,
    isMade: true,
    startMin,
    surfacesMin: made.after.atMin,
    intervalMin,
    depthM: plan.profile.deepestM,
    bottomMin: plan.profile.bottomMin,
    isAsDived: effective.isAsDived,
    isAsPlanned: effective.isAsPlanned,
    legs: nitrogen.legs,
    levelsPastLimitM: nitrogen.levelsPastLimitM,
    exposure: made.exposure,
    mix,
    o2,
    isAnalysed: effective.analysedO2 !== null || mix.analysedO2 !== undefined,
    modM: modM(o2, diver.po2.working, column),
    contingencyModM: modM(o2, diver.po2.contingency, column),
    po2Bar: po2Bar(o2, deepestBar),
    eadM: eadM(o2, plan.profile.deepestM, column),
    gasDensityGL: gasDensityGL(o2, deepestBar),
    noStopMin: isUnlimited ? null : nitrogen.noStopMin,
    unlimited: isUnlimited,
    levels,
    isPastLimit: nitrogen.isPastLimit,
    stops: nitrogen.stops,
    tensionsBefore: tensions,
    leading: leadingShare(made.after.tensions, restBar, limits),
    cns: { before: cns, after: made.after.cns, day: made.cnsDay },
    otu: { dive: made.taken.otu, day: made.today.otu, trip: made.tripOtu },
    esot: { dive: made.taken.esot, day: made.today.esot },
    gas:
      known?.legs === nitrogen.legs && !known.isPastLimit && !nitrogen.isPastLimit
        ? known.gas
        : gasOutcome(plan, nitrogen, tensions, dive, diver, effective, o2, trip),
    table: before.table.reading,
  };
}
