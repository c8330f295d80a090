import { leadingShare } from '../ascent/tolerated';
import { eadM, gasDensityGL, modM, po2Bar } from '../gas';
import { oxygenDoses } from '../oxygen/doses';
import type { Lanes } from '../tissues/affine-map';
import { AIR_N2, inspiredBar } from '../tissues/compartments';
import { ambientBar } from '../water';
import type { EffectiveDive } from '../document/as-dived';
import { surroundingsAt } from '../document/waters';
import { loopOn } from '../document/loops';
import { dayNumber } from '../words/calendar';
import { divePlan, type DivePlan } from './dive-plan';
import type { FoldContext } from './fold-context';
import { gasOutcome, NO_GAS } from './gas-outcome';
import type { Carry, Entry } from './ledger-types';
import { levelLimits, levelsWithoutLimit } from './level-limits';
import { loopStep } from './loop-step';
import { mixO2 } from './mix-choice';
import { nitrogenOutcome, surfaceLimits } from './nitrogen-outcome';
import {
  beforeDive,
  broughtTo,
  madeAsPlanned,
  madeOn,
  surfaceIntervalMin,
  type BeforeDive,
  type SharedNitrogen,
} from './on-mix';
import type { Dive, Diver, Mix } from '../document/types';

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
  const onLoop = dive.loops === undefined ? null : loopOn(dive, diver);
  if (onLoop !== null) return loopStep(context, from, dive, effective, onLoop);
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
      loop: null,
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
  const before = beforeDive(plan, from, startMin, o2, context.surface, known);
  const { tensions } = before.brought;
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
    loop: null,
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
    cns: made.cns,
    otu: made.otu,
    esot: made.esot,
    gas:
      known?.legs === nitrogen.legs && !known.isPastLimit && !nitrogen.isPastLimit
        ? known.gas
        : gasOutcome(plan, nitrogen, tensions, dive, diver, effective, o2, trip),
    table: before.table.reading,
  };
}
