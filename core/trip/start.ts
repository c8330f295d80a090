import { cnsAfterInterval } from '../oxygen/cns';
import { oxygenDoses } from '../oxygen/doses';
import type { Surroundings } from '../profile';
import { applyMap, type Lanes } from '../tissues/affine-map';
import { AIR_N2, restTensions } from '../tissues/compartments';
import { intervalMap } from '../tissues/leg-map';
import { SEA_LEVEL_BAR } from '../water';
import { dayNumber, wallMin } from './clock';
import { newDivePlan } from './dive-plan';
import type { Carry, DayDose, Exposure, WallMin } from './ledger-types';
import { mixFor, mixO2 } from './mix-choice';
import type { Diver, EarlierDive, Trip } from './types';

/** Adds a dose to its day; days stay in order because dives do. */
export function withDose(doses: readonly DayDose[], dose: DayDose): readonly DayDose[] {
  const last = doses[doses.length - 1];
  if (last?.day !== dose.day) return [...doses, dose];
  return [...doses.slice(0, -1), { day: dose.day, otu: last.otu + dose.otu, esot: last.esot + dose.esot }];
}

/** Tensions after breathing air at the surface, over a climb to altitude where one falls in between. */
function rested(tensions: Lanes, fromMin: WallMin, toMin: WallMin, climbMin: WallMin, surfaceBar: number): Lanes {
  const seaLevelMin = Math.max(0, Math.min(climbMin, toMin) - fromMin);
  const atAltitudeMin = Math.max(0, toMin - fromMin - seaLevelMin);
  const atClimb = applyMap(intervalMap(SEA_LEVEL_BAR, seaLevelMin), tensions, AIR_N2);
  return applyMap(intervalMap(surfaceBar, atAltitudeMin), atClimb, AIR_N2);
}

function earlierO2(dive: EarlierDive, diver: Diver, trip: Trip, around: Surroundings): number | null {
  if (dive.o2 !== undefined) return dive.o2;
  const mix = mixFor(dive, diver, trip, around);
  return mix === null ? null : mixO2(mix);
}

/**
 * What a diver brings to the trip: at rest, or with earlier dives and a climb to altitude carried through
 * by the same maps. Dives before the climb count as made at sea level.
 * @returns the carry at the last of those moments; `atMin` -Infinity for a diver at rest
 * Source: NUMBERS of this project: at rest before the first dive; the seeds are the ledger's own maps.
 */
export function startCarry(trip: Trip, diver: Diver, around: Surroundings): Carry {
  const { surfaceBar } = around.column;
  const climbMin = diver.arrivedAt === undefined ? -Infinity : wallMin(diver.arrivedAt);
  const seaLevel: Surroundings = { ...around, column: { ...around.column, surfaceBar: SEA_LEVEL_BAR } };
  let tensions = restTensions(climbMin > -Infinity ? SEA_LEVEL_BAR : surfaceBar);
  let atMin = -Infinity;
  let cns: number | null = 0;
  let doses: readonly DayDose[] = [];
  const exposures: Exposure[] = [];
  for (const dive of diver.before ?? []) {
    const startMin = wallMin(dive.startsAt);
    const water = startMin < climbMin ? seaLevel : around;
    const o2 = earlierO2(dive, diver, trip, water);
    if (o2 === null) continue;
    const plan = newDivePlan(dive, water);
    if (atMin > -Infinity) {
      tensions = rested(tensions, atMin, startMin, climbMin, surfaceBar);
      cns = cns === null ? null : cnsAfterInterval(cns, startMin - atMin);
    }
    tensions = applyMap(plan.whole, tensions, 1 - o2);
    atMin = startMin + plan.runtimeMin;
    const taken = oxygenDoses(plan.legs, o2, startMin);
    cns = cns === null || taken.cns === null ? null : cns + taken.cns;
    doses = withDose(doses, { day: dayNumber(startMin), otu: taken.otu, esot: taken.esot });
    exposures.push({ startMin, endMin: atMin, pieces: taken.pieces });
  }
  if (climbMin > -Infinity && climbMin > atMin) {
    if (atMin > -Infinity) {
      tensions = rested(tensions, atMin, climbMin, climbMin, surfaceBar);
      cns = cns === null ? null : cnsAfterInterval(cns, climbMin - atMin);
    }
    atMin = climbMin;
  }
  return { atMin, tensions, cns, doses, exposures };
}
