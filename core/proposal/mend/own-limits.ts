import { siteOf } from '../../document/site-of';
import type { Dive, Diver, Trip } from '../../document/types';
import { DENSITY_LIMIT_GL, gasDensityGL, isAbovePo2, modM, po2Bar } from '../../gas';
import { keptOut } from '../../document/may-dive';
import type { DivePlan } from '../../ledger/dive-plan';
import { gasOutcome } from '../../ledger/gas-outcome';
import { spareAsPlannedL } from '../../ledger/limits-kept';
import { LAST_LIMIT_BAR } from '../../oxygen/limits';
import { contentL } from '../../supply';
import { ambientBar } from '../../water';
import { SAME_ROOM_MIN } from './to-mend';

/** Limits and figures may differ by this much through rounding alone, as in the cautions. */
const DUST = 1e-9;

/** As in the caution about the reserve, bar. */
const SAME_BAR = 1e-6;

/** Within the no-stop limit: no stops, and the legs as they are planned. */
function withoutStops({ legs }: DivePlan) {
  return { legs, stops: [], isPastLimit: false, levelsPastLimitM: [] };
}

/**
 * Whether a diver may go to the depth of a dive and to its site, and breathe what is breathed there for its density.
 * @param o2 oxygen fraction at the deepest point
 * Source: core/cautions.
 */
export function mayGoTo(
  trip: Trip,
  dive: Dive,
  diver: Diver,
  o2: number,
  { around, profile }: DivePlan,
): boolean {
  const { deepestM } = profile;
  const site = siteOf(trip, dive);
  return (
    deepestM <= diver.maxDepthM + DUST &&
    (site === undefined || (deepestM <= site.depthM + DUST && keptOut(site, diver) === null)) &&
    gasDensityGL(o2, ambientBar(deepestM, around.column)) <= DENSITY_LIMIT_GL + DUST
  );
}

/**
 * Whether a dive keeps, for one diver on one mix, the limits in which no other dive has a part: those of depth, oxygen
 * pressure, density and gas, each as the caution about it has it. It is taken to keep the no-stop limit.
 * @param o2 oxygen fraction
 * Source: core/cautions.
 */
export function keepsOwnLimits(trip: Trip, dive: Dive, diver: Diver, o2: number, plan: DivePlan): boolean {
  const { column } = plan.around;
  const { deepestM } = plan.profile;
  const { working, contingency } = diver.po2;
  const bar = ambientBar(deepestM, column);
  if (
    isAbovePo2(po2Bar(o2, bar), Math.min(working, contingency, LAST_LIMIT_BAR)) ||
    deepestM > modM(o2, working, column) + DUST ||
    o2 > diver.maxO2 + DUST ||
    !mayGoTo(trip, dive, diver, o2, plan)
  )
    return false;
  const gas = gasOutcome(plan, withoutStops(plan), [], dive, diver, { endBar: null, shape: dive }, o2, trip);
  if (gas.endBar === null || gas.endBar < diver.cylinder.reserveBar - SAME_BAR) return false;
  const minimumL = contentL(diver.cylinder.waterL, gas.minimumBar!, o2, trip.settings.gasLaw);
  return gas.contentL! - gas.usedAtLeavingL! >= minimumL - DUST;
}

/** Whether the gas of a dive leaves its room. @param longer the plan of the dive, longer by the room asked for */
export function keepsGasRoom(trip: Trip, diver: Diver, o2: number, longer: DivePlan): boolean {
  const dustL = SAME_ROOM_MIN * diver.surfaceRateLpm * longer.profile.lastLevel.toBar;
  return spareAsPlannedL(trip, { diver }, o2, longer) >= -dustL;
}
