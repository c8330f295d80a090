/** One dive of a diver on a breathing loop: a step of the fold beside that of open circuit. */
import { leadingShare } from '../ascent/tolerated';
import type { EffectiveDive } from '../document/as-dived';
import { loopSettingsOf, type LoopOnDive } from '../document/loops';
import type { LoopBreathing } from '../breathing';
import type { Cylinder, Dive, LoopGear, Mix, Trip } from '../document/types';
import { gasDensityGL, modM } from '../gas';
import { oxygenDoses } from '../oxygen/doses';
import { surroundingsAt } from '../document/waters';
import { runtimeMin, type Leg } from '../profile';
import { contentL, pressureBar } from '../supply';
import { tableStep } from '../tables/procedure';
import { loopPo2Bar, PURE_NITROGEN } from '../tissues/breathed-legs';
import { AIR_N2, inspiredBar } from '../tissues/compartments';
import { ambientBar } from '../water';
import { bailOutMixes, bailOutWay } from './bail-out';
import { loopOxygen } from './breathed-oxygen';
import { divePlan } from './dive-plan';
import { nitrogenOutcome, surfaceLimits } from './nitrogen-outcome';
import type { FoldContext } from './fold-context';
import { NO_GAS } from './gas-outcome';
import type { Carry, Entry, LoopFigures, LoopGas } from './ledger-types';
import { levelLimits } from './level-limits';
import { loopAround, loopBreathing } from './loop-around';
import { fswOnLoop } from './loop-depth';
import { mixO2 } from './mix-choice';
import { broughtTo, madeOn, surfaceIntervalMin } from './on-mix';

/** Litres that a loop takes of its diluent, as every descent presses it together. Source: Boyle's law. */
function filledUpL(legs: readonly Leg[], volumeL: number): number {
  return legs.reduce((litres, { fromBar, toBar }) => litres + volumeL * Math.max(0, toBar - fromBar), 0);
}

function loopGas({ waterL, fillBar }: Cylinder, o2: number, usedL: number, { settings }: Trip): LoopGas {
  const filledL = contentL(waterL, fillBar, o2, settings.gasLaw);
  return { usedL, leftBar: pressureBar(waterL, filledL - usedL, o2, settings.gasLaw) };
}

/**
 * What oxygen and diluent of a loop come to over legs.
 * Source: CONVENTIONS, "On a loop".
 */
export function loopGases(
  trip: Trip,
  { oxygenCylinder, diluentCylinder }: LoopGear,
  { diluentO2 }: LoopBreathing,
  legs: readonly Leg[],
): Pick<LoopFigures, 'oxygen' | 'diluentGas'> {
  const { oxygenLpm, volumeL } = loopSettingsOf(trip.settings);
  return {
    oxygen: loopGas(oxygenCylinder, 1, oxygenLpm * runtimeMin(legs), trip),
    diluentGas: loopGas(diluentCylinder, diluentO2, filledUpL(legs, volumeL), trip),
  };
}

/** The diluent of a loop on a dive, and what is in it. */
function diluentOf(trip: Trip, onLoop: LoopOnDive): Mix {
  return trip.mixes.find(({ id }) => id === onLoop.diluent)!;
}

/**
 * Carries a diver through the surface interval and one dive on a loop.
 * @param from what the diver holds before the interval
 * @returns the entry with every figure; what there is on open circuit alone is null
 * Source: CONVENTIONS, "Constant PO2"; CONVENTIONS, "On a loop".
 */
export function loopStep(
  { trip, diver, surface }: FoldContext,
  from: Carry,
  dive: Dive,
  effective: EffectiveDive,
  onLoop: LoopOnDive,
): Entry {
  const diluent = diluentOf(trip, onLoop);
  const breathing = loopBreathing(trip, onLoop, mixO2(diluent));
  const plan = divePlan(effective.shape, loopAround(surroundingsAt(trip, dive), breathing));
  const { column } = plan.around;
  const { startMin } = effective;
  const { deepestM, bottomMin } = plan.profile;
  const limits = surfaceLimits(column, diver.gradient.high);
  const intervalMin = surfaceIntervalMin(from, startMin);
  const brought = broughtTo(from, startMin, surface);
  const nitrogen = nitrogenOutcome(plan, brought.tensions, PURE_NITROGEN, diver);
  const depthFsw = fswOnLoop(nitrogen.legs, breathing, plan.around);
  const table = tableStep({ depthFsw, bottomMin, intervalMin }, from.table);
  const oxygen = loopOxygen(nitrogen.legs, breathing);
  const doses = oxygenDoses(oxygen.legs, oxygen.o2, startMin);
  const before = { from, startMin, surface, brought, table, made: null, nitrogen: null };
  const made = madeOn(before, nitrogen, 1 - PURE_NITROGEN, doses, null);
  const deepestBar = ambientBar(deepestM, column);
  const po2Bar = loopPo2Bar(deepestM, deepestBar, breathing);
  const isUnlimited = nitrogen.noStopMin === Infinity;
  const { gear } = onLoop;
  const usedMin = runtimeMin(nitrogen.legs);
  const scrubberMin = (onLoop.isFresh ? 0 : from.scrubberMin) + usedMin;
  const bailOut = bailOutWay(trip, plan, effective.shape, brought.tensions, gear, diver, limits);
  const diluentModM = modM(breathing.diluentO2, diver.po2.working, column);
  return {
    dive,
    diver,
    from,
    after: { ...made.after, scrubberMin },
    isMade: true,
    startMin,
    surfacesMin: made.after.atMin,
    intervalMin,
    depthM: deepestM,
    bottomMin,
    isAsDived: effective.isAsDived,
    isAsPlanned: effective.isAsPlanned,
    legs: nitrogen.legs,
    levelsPastLimitM: nitrogen.levelsPastLimitM,
    exposure: made.exposure,
    loop: {
      breathing,
      diluent,
      diluentModM,
      bailOutModM: bailOutMixes(trip, gear, diver, plan.around).at(-1)!.modM,
      ...loopGases(trip, gear, breathing, nitrogen.legs),
      scrubber: { usedMin: scrubberMin, leftMin: gear.scrubberMin - scrubberMin },
      bailOut,
    },
    mix: null,
    o2: null,
    isAnalysed: false,
    modM: null,
    contingencyModM: null,
    po2Bar,
    eadM: null,
    gasDensityGL: gasDensityGL(Math.min(1, po2Bar / deepestBar), deepestBar),
    noStopMin: isUnlimited ? null : nitrogen.noStopMin,
    unlimited: isUnlimited,
    levels: levelLimits(plan, brought.tensions, PURE_NITROGEN, limits, nitrogen.noStopMin),
    isPastLimit: nitrogen.isPastLimit,
    stops: nitrogen.stops,
    tensionsBefore: brought.tensions,
    leading: leadingShare(made.after.tensions, AIR_N2 * inspiredBar(column.surfaceBar), limits),
    cns: made.cns,
    otu: made.otu,
    esot: made.esot,
    gas: NO_GAS,
    table: table.reading,
  };
}
