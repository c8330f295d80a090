/** A dive ahead on a breathing loop: what there is of it on open circuit too, and what scrubber and bail-out ask besides. */
import { setpointBar, type LoopBreathing } from '../../breathing';
import type { LoopOnDive } from '../../document/loops';
import { effectiveDive } from '../../document/as-dived';
import type { Dive, Diver, Trip } from '../../document/types';
import { surroundingsAt } from '../../document/waters';
import { isAbovePo2, modM } from '../../gas';
import { atSurface } from '../../ledger/at-surface';
import { bailOutMixes, bailOutWay, straightOnBailOut } from '../../ledger/bail-out';
import { loopOxygen } from '../../ledger/breathed-oxygen';
import { longer } from '../../ledger/changed-dive';
import { divePlan, newDivePlan, type DivePlan } from '../../ledger/dive-plan';
import type { Carry } from '../../ledger/ledger-types';
import { waysUp, waysUpAndAsPlanned } from '../../ledger/limits-kept';
import { loopAround, loopBreathing } from '../../ledger/loop-around';
import { fswOnLoop } from '../../ledger/loop-depth';
import { loopGases, loopStep } from '../../ledger/loop-step';
import { mixO2 } from '../../ledger/mix-choice';
import { surfaceLimits } from '../../ledger/nitrogen-outcome';
import { LAST_LIMIT_BAR } from '../../oxygen/limits';
import { otu } from '../../oxygen/otu';
import { surroundingsOf, type ProfileShape, type Surroundings } from '../../profile';
import type { Lanes } from '../../tissues/affine-map';
import { loopPo2Bar, PURE_NITROGEN } from '../../tissues/breathed-legs';
import { ambientBar } from '../../water';
import type { WallMin } from '../../words/calendar';
import { clocksOf, gainOf, highestOf, type Filled, type Made } from './filled';
import { mayGoTo } from './own-limits';
import { keepsRoom } from './to-mend';

/** Limits and figures may differ by this much through rounding alone, as in the cautions. */
const DUST = 1e-9;

/** As in the caution about the cylinders of a loop, bar. */
const SAME_BAR = 1e-6;

/** As in the caution about bail-out, litres. */
const SAME_L = 1e-6;

/** Below a limit of tensions by so much nothing can be past it by rounding, bar. */
const SAME_TENSION_BAR = 1e-9;

/** A loop with what is breathed on it, in the water of a dive. */
export interface Loop extends LoopOnDive {
  readonly breathing: LoopBreathing;
  readonly around: Surroundings;
}

/** A dive on a loop as one diver makes it. */
export interface LoopMade {
  readonly trip: Trip;
  /** With its moves made but for the start. */
  readonly dive: Dive;
  readonly diver: Diver;
  readonly loop: Loop;
  readonly plan: DivePlan;
  /** Minutes of room asked for; 0 where none are. */
  readonly leastRoomMin: number;
  /** Tensions at the start up to which bail-out takes no required stop, so that it lasts or does not whatever they are. */
  readonly easy: { readonly tensions: Lanes; readonly isShort: boolean };
}

/** A loop as it is breathed on a dive. */
export function loopIn(trip: Trip, dive: Dive, onLoop: LoopOnDive): Loop {
  const diluent = trip.mixes.find(({ id }) => id === onLoop.diluent)!;
  const breathing = loopBreathing(trip, onLoop, mixO2(diluent));
  return { ...onLoop, breathing, around: loopAround(surroundingsAt(trip, dive), breathing) };
}

/** Tolerated anywhere: a way up that needs no stop. */
const NO_LIMITS: Lanes = Array.from({ length: 16 }, () => Infinity);
const NO_TENSIONS: Lanes = NO_LIMITS.map(() => 0);

type BailingOut = Omit<LoopMade, 'easy' | 'leastRoomMin'>;

/** Whether bail-out is short with no more than a safety stop on the way up. */
function isBailOutShort({ trip, diver, loop, plan }: BailingOut, shape: ProfileShape): boolean {
  const way = bailOutWay(trip, plan, shape, NO_TENSIONS, loop.gear, diver, NO_LIMITS);
  return way === null || way.spareL < -SAME_L;
}

/** Up to these tensions at the start, bar, no way up on bail-out takes a required stop. */
function easyTensions({ trip, diver, loop, plan }: BailingOut): Lanes {
  const limits = surfaceLimits(loop.around.column, diver.gradient.high);
  return highestOf(straightOnBailOut(trip, plan, loop.gear, diver), PURE_NITROGEN, limits, SAME_TENSION_BAR);
}

/**
 * Whether a dive on a loop keeps the limits in which no other dive has a part, each as the caution about it has it. It is
 * taken to keep the no-stop limit.
 * Source: core/cautions.
 */
function keepsLoopLimits(made: BailingOut): boolean {
  const { trip, dive, diver, loop, plan } = made;
  const { gear, breathing } = loop;
  const { column } = plan.around;
  const { deepestM } = plan.profile;
  const { working, contingency } = diver.po2;
  const bar = ambientBar(deepestM, column);
  const po2 = loopPo2Bar(deepestM, bar, breathing);
  const setpoint = setpointBar(breathing, deepestM);
  if (
    isAbovePo2(po2, Math.min(setpoint, working, contingency, LAST_LIMIT_BAR)) ||
    deepestM > modM(breathing.diluentO2, working, column) + DUST ||
    deepestM > bailOutMixes(trip, gear, diver, plan.around).at(-1)!.modM + DUST ||
    !mayGoTo(trip, dive, diver, Math.min(1, po2 / bar), plan)
  )
    return false;
  const { oxygen, diluentGas } = loopGases(trip, gear, breathing, plan.legs);
  return (
    (oxygen.leftBar ?? -Infinity) >= gear.oxygenCylinder.reserveBar - SAME_BAR &&
    (diluentGas.leftBar ?? -Infinity) >= gear.diluentCylinder.reserveBar - SAME_BAR &&
    plan.runtimeMin <= gear.scrubberMin + DUST &&
    // With stops it only takes more.
    !isBailOutShort(made, { ...dive, safetyStop: null })
  );
}

function filledOn(
  { dive, loop: { breathing, around }, plan }: BailingOut,
  longerPlan: DivePlan | null,
  airBar: number,
): Filled {
  const oxygen = loopOxygen(plan.legs, breathing);
  return {
    depthM: plan.profile.deepestM,
    depthFsw: fswOnLoop(plan.legs, breathing, around),
    bottomMin: dive.bottomMin,
    runMin: plan.runtimeMin,
    gain: gainOf(plan, PURE_NITROGEN, airBar),
    otu: otu(oxygen.legs, oxygen.o2),
    ...clocksOf(oxygen),
    longer: longerPlan && clocksOf(loopOxygen(longerPlan.legs, breathing)),
  };
}

/**
 * How a diver makes a dive on a loop.
 * @param dive with its moves made but for the start @param leastRoomMin minutes of room asked for; 0: none
 * @param airBar what tensions rest at where the party stays
 * @returns null where the dive passes a limit of its own
 */
export function madeOnLoop(
  trip: Trip,
  dive: Dive,
  diver: Diver,
  loop: Loop,
  leastRoomMin: number,
  airBar: number,
): Made | null {
  const plan = divePlan(dive, loop.around);
  const made: BailingOut = { trip, dive, diver, loop, plan };
  if (!keepsLoopLimits(made)) return null;
  const longerPlan = leastRoomMin === 0 ? null : newDivePlan(longer(dive, leastRoomMin), loop.around);
  const limits = surfaceLimits(loop.around.column, diver.gradient.high);
  const ups = [...waysUpAndAsPlanned(plan), ...(longerPlan === null ? [] : waysUp(longerPlan))];
  return {
    filled: filledOn(made, longerPlan, airBar),
    highest: highestOf(ups, PURE_NITROGEN, limits, airBar),
    loop: {
      ...made,
      leastRoomMin,
      easy: { tensions: easyTensions(made), isShort: isBailOutShort(made, dive) },
    },
  };
}

/** How long a scrubber was used since it was packed, after a dive. @param usedMin before it */
export function scrubbedMin({ loop, plan }: LoopMade, usedMin: number): number {
  return (loop.isFresh ? 0 : usedMin) + plan.runtimeMin;
}

/** Whether bail-out is short, with the stops that it costs. */
function isShortFrom({ trip, dive, diver, loop, plan }: LoopMade, tensions: Lanes): boolean {
  const limits = surfaceLimits(loop.around.column, diver.gradient.high);
  const way = bailOutWay(trip, plan, dive, tensions, loop.gear, diver, limits);
  return way === null || way.spareL < -SAME_L;
}

/**
 * Whether scrubber, bail-out and the room asked for are kept after what a diver holds; no-stop limit and clocks are.
 * @param from what is held at the start of the dive
 * Source: core/cautions.
 */
export function keepsOnLoop(made: LoopMade, from: Carry): boolean {
  const { trip, dive, diver, loop, leastRoomMin, easy } = made;
  if (scrubbedMin(made, from.scrubberMin) > loop.gear.scrubberMin + DUST) return false;
  const isEasy = from.tensions.every((tension, i) => tension <= easy.tensions[i]!);
  if (isEasy ? easy.isShort : isShortFrom(made, from.tensions)) return false;
  if (leastRoomMin === 0) return true;
  // Minutes to where bail-out is short have no formula: the ledger's own step tells them.
  const startMin: WallMin = from.atMin;
  const surface = atSurface(trip, surroundingsOf(trip).column.surfaceBar);
  const entry = loopStep(
    { trip, diver, surface },
    from,
    dive,
    { ...effectiveDive(dive, diver), startMin },
    loop,
  );
  return keepsRoom(trip, entry, leastRoomMin);
}
