import { leadingShare, isWithin, toleratedTensions } from '../ascent/tolerated';
import { noStopLimitMin } from '../ascent/no-stop-limit';
import { stagedAscent } from '../ascent/staged-ascent';
import { eadM, gasDensityGL, modM, po2Bar } from '../gas';
import { cnsAfterInterval } from '../oxygen/cns';
import { DAY_MIN, dayPeak } from '../oxygen/cns-day';
import { oxygenDoses, sharedDoses } from '../oxygen/doses';
import { ascentLegs, runtimeMin, type Leg, surroundingsOf, type Stop } from '../profile';
import { applyMap, compose, type AffineMap, type Lanes } from '../tissues/affine-map';
import { AIR_N2, inspiredBar } from '../tissues/compartments';
import { intervalMap, legsMap } from '../tissues/leg-map';
import { ambientBar, type WaterColumn } from '../water';
import type { EffectiveDive } from '../document/as-dived';
import { dayNumber } from '../words/calendar';
import { divePlan, type DivePlan } from './dive-plan';
import { gasOutcome, NO_GAS } from './gas-outcome';
import type { Carry, DayDose, Entry, Exposure } from './ledger-types';
import { lastLevelStay, levelLimits, levelsWithoutLimit } from './level-limits';
import { mixO2 } from './mix-choice';
import type { Dive, Diver, Mix, Trip } from '../document/types';

/** Bottom time and limit may differ by this much before one counts as past the other: rounding, minutes. */
const SAME_MIN = 1e-9;

const limitsKnown = new WeakMap<WaterColumn, Map<number, Lanes>>();

/** Tolerated tensions at the surface of a water; kept with it, as a party has few gradients. */
export function surfaceLimits(column: WaterColumn, gradientHigh: number): Lanes {
  let byGradient = limitsKnown.get(column);
  if (!byGradient) limitsKnown.set(column, (byGradient = new Map()));
  let limits = byGradient.get(gradientHigh);
  if (!limits) byGradient.set(gradientHigh, (limits = toleratedTensions(column.surfaceBar, gradientHigh)));
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
  const levelsPastLimitM = plan.earlierLevels
    .filter(({ map, directAscent }) => !isWithin(applyMap(compose(map, directAscent), before, n2), limits))
    .map(({ depthM }) => depthM);
  const isOver = plan.profile.bottomMin > noStopMin + SAME_MIN;
  const isPastLimit = isOver || levelsPastLimitM.length > 0;
  const asPlanned = { legs: plan.legs, runtimeMin: plan.runtimeMin, whole: plan.whole };
  if (!isOver) return { noStopMin, levelsPastLimitM, isPastLimit, stops: [], ...asPlanned };

  const leaving = applyMap(plan.toLeaving, before, n2);
  const lastM = plan.profile.lastLevel.toM;
  const stops = stagedAscent(leaving, lastM, n2, diver.gradient, plan.around);
  if (stops === null) return { noStopMin, levelsPastLimitM, isPastLimit, stops, ...asPlanned };
  // The required stops take the place of the safety stop: the last of them lies shallower than it.
  const ascent = ascentLegs(lastM, stops, plan.around);
  const legs = [...plan.profile.toLastLevel, plan.profile.lastLevel, ...ascent];
  const whole = legsMap(ascent, plan.toLeaving);
  return { noStopMin, levelsPastLimitM, isPastLimit, stops, legs, runtimeMin: runtimeMin(legs), whole };
}

/** Adds a dose to its day; days stay in order because dives do. */
function withDose(doses: readonly DayDose[], dose: DayDose): readonly DayDose[] {
  const last = doses[doses.length - 1];
  if (last?.day !== dose.day) return [...doses, dose];
  return [...doses.slice(0, -1), { day: dose.day, otu: last.otu + dose.otu, esot: last.esot + dose.esot }];
}

/** Exposures a dive starting at `startMin` may still share a 24 h window with. */
function recent(exposures: readonly Exposure[], startMin: number): readonly Exposure[] {
  return exposures.filter((exposure) => exposure.endMin > startMin - DAY_MIN);
}

function cnsDayPeak(earlier: readonly Exposure[], current: Exposure): number | null {
  if (current.pieces === null) return null;
  const pieces = [];
  for (const exposure of earlier) {
    if (exposure.pieces === null) return null;
    pieces.push(...exposure.pieces);
  }
  return dayPeak(pieces, current.pieces, current.startMin);
}

/** The very exposure of an earlier reckoning, where nothing of it has changed. */
function sameExposure(
  known: Entry | null,
  startMin: number,
  endMin: number,
  pieces: Exposure['pieces'],
): Exposure | null {
  const exposure = known?.exposure ?? null;
  return exposure?.startMin === startMin && exposure.endMin === endMin && exposure.pieces === pieces
    ? exposure
    : null;
}

/** Whether all that shares a 24 h window with a dive is what it was: the same objects. */
function isSameDay(known: Entry | null, exposure: Exposure, earlier: readonly Exposure[]): known is Entry {
  if (known?.exposure !== exposure) return false;
  const before = recent(known.from.exposures, exposure.startMin);
  return before.length === earlier.length && before.every((each, i) => each === earlier[i]);
}

/** Where a dive begins: the carry brought through the surface interval. */
function carriedTo(carry: Carry, startMin: number, surfaceBar: number, intervals: Map<number, AffineMap>) {
  // A climb to altitude seeds the carry without a dive; at rest there is nothing to carry.
  const sinceMin = startMin - carry.atMin;
  if (sinceMin === Infinity) return { tensions: carry.tensions, cns: carry.cns };
  const givenOffMin = Math.max(0, sinceMin);
  let map = intervals.get(givenOffMin);
  if (!map) intervals.set(givenOffMin, (map = intervalMap(surfaceBar, givenOffMin)));
  return {
    tensions: applyMap(map, carry.tensions, AIR_N2),
    cns: carry.cns === null ? null : cnsAfterInterval(carry.cns, givenOffMin),
  };
}

/** What is the same for every dive of a diver. */
export interface FoldContext {
  readonly trip: Trip;
  readonly diver: Diver;
  /** Maps of surface intervals by their minutes, shared by the divers of a party. */
  readonly intervals: Map<number, AffineMap>;
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
  plan: DivePlan = divePlan(effective.shape, surroundingsOf(context.trip)),
  known: Entry | null = null,
): Entry {
  const { trip, diver } = context;
  const { column } = plan.around;
  const { startMin } = effective;
  const before = carriedTo(from, startMin, column.surfaceBar, context.intervals);
  const lastSurfacing = from.exposures[from.exposures.length - 1]?.endMin;
  const limits = surfaceLimits(column, diver.gradient.high);
  const restBar = AIR_N2 * inspiredBar(column.surfaceBar);
  const day = dayNumber(startMin);
  const tripOtu = from.doses.reduce((sum, dose) => sum + dose.otu, 0);
  const today = from.doses.find((dose) => dose.day === day);
  const intervalMin = lastSurfacing === undefined ? null : startMin - lastSurfacing;
  if (mix === null) {
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
      tensionsBefore: before.tensions,
      leading: leadingShare(before.tensions, restBar, limits),
      cns: { before: before.cns, after: before.cns, day: null },
      otu: { dive: null, day: today?.otu ?? 0, trip: tripOtu },
      esot: { dive: null, day: today?.esot ?? 0 },
      gas: NO_GAS,
    };
  }

  const o2 = effective.analysedO2 ?? mixO2(mix);
  const n2 = 1 - o2;
  const nitrogen = nitrogenOutcome(plan, before.tensions, n2, diver);
  const after = applyMap(nitrogen.whole, before.tensions, n2);
  const surfacesMin = startMin + nitrogen.runtimeMin;
  const taken =
    nitrogen.legs === plan.legs
      ? sharedDoses(plan.doses, plan.legs, o2, startMin)
      : oxygenDoses(nitrogen.legs, o2, startMin);
  const cnsAfter = before.cns === null || taken.cns === null ? null : before.cns + taken.cns;
  const exposure = sameExposure(known, startMin, surfacesMin, taken.pieces) ?? {
    startMin,
    endMin: surfacesMin,
    pieces: taken.pieces,
  };
  const earlier = recent(from.exposures, startMin);
  const dose = { day, otu: taken.otu, esot: taken.esot };
  const doses = withDose(from.doses, dose);
  const dayDose = doses[doses.length - 1]!;
  const deepestBar = ambientBar(plan.profile.deepestM, column);
  const isUnlimited = nitrogen.noStopMin === Infinity;
  // Written out in full: spreading a common part into it costs ten times the arithmetic of the dive.
  return {
    dive,
    diver,
    from,
    after: {
      atMin: surfacesMin,
      tensions: after,
      cns: cnsAfter,
      doses,
      exposures: [...earlier, exposure],
    },
    isMade: true,
    startMin,
    surfacesMin,
    intervalMin,
    depthM: plan.profile.deepestM,
    bottomMin: plan.profile.bottomMin,
    isAsDived: effective.isAsDived,
    isAsPlanned: effective.isAsPlanned,
    legs: nitrogen.legs,
    levelsPastLimitM: nitrogen.levelsPastLimitM,
    exposure,
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
    levels: levelLimits(plan, before.tensions, n2, limits, nitrogen.noStopMin),
    isPastLimit: nitrogen.isPastLimit,
    stops: nitrogen.stops,
    tensionsBefore: before.tensions,
    leading: leadingShare(after, restBar, limits),
    cns: {
      before: before.cns,
      after: cnsAfter,
      day: isSameDay(known, exposure, earlier) ? known.cns.day : cnsDayPeak(earlier, exposure),
    },
    otu: { dive: dose.otu, day: dayDose.otu, trip: tripOtu + dose.otu },
    esot: { dive: dose.esot, day: dayDose.esot },
    gas:
      known?.legs === nitrogen.legs && !known.isPastLimit && !nitrogen.isPastLimit
        ? known.gas
        : gasOutcome(plan, nitrogen, before.tensions, dive, diver, effective, o2, trip),
  };
}
