/** What is along on a loop, as limits of room. */
import { loopOn, loopSettingsOf } from '../document/loops';
import type { Cylinder, Trip } from '../document/types';
import { increasingRoot } from '../numeric';
import { contentL } from '../supply';
import { bailOutWay } from './bail-out';
import { longer, shapeOf } from './changed-dive';
import { newDivePlan, planOf, type DivePlan } from './dive-plan';
import { surfaceLimits } from './nitrogen-outcome';
import type { Entry, RoomLimit } from './ledger-types';

/** Roots are found to this on the side that keeps the limit, minutes. */
const ROOT_TOLERANCE = 1e-6;

/** Longer than this no dive is thought, minutes. */
const LONGEST_ADDED_MIN = 1440;

interface Left {
  readonly amount: number;
  readonly limit: RoomLimit;
}

function usableL({ waterL, fillBar, reserveBar }: Cylinder, o2: number, trip: Trip): number {
  const law = trip.settings.gasLaw;
  return contentL(waterL, fillBar, o2, law) - contentL(waterL, reserveBar, o2, law);
}

/**
 * Minutes longer that oxygen and scrubber of a loop last; negative where they do not last now. The diluent is used by
 * going down and not by staying.
 * @param entry of a dive on a loop
 * Source: CONVENTIONS, "On a loop".
 */
export function loopSupplies(trip: Trip, entry: Entry): readonly Left[] {
  const { gear } = loopOn(entry.dive, entry.diver)!;
  const { oxygenLpm } = loopSettingsOf(trip.settings);
  const { oxygen, scrubber } = entry.loop!;
  const oxygenL = usableL(gear.oxygenCylinder, 1, trip) - oxygen.usedL;
  return [
    { amount: oxygenL / oxygenLpm, limit: 'oxygen' },
    { amount: scrubber.leftMin, limit: 'scrubber' },
  ];
}

/**
 * Litres of bail-out that are missing at the worst moment of a dive, were it this one; negative what is left, Infinity where
 * no ascent was found.
 * Source: as `bailOutWay`.
 */
export function shortOfBailOutL(trip: Trip, entry: Entry, plan: DivePlan): number {
  const { gear } = loopOn(entry.dive, entry.diver)!;
  const limits = surfaceLimits(plan.around.column, entry.diver.gradient.high);
  const way = bailOutWay(trip, plan, shapeOf(entry), entry.tensionsBefore, gear, entry.diver, limits);
  return way === null ? Infinity : -way.spareL;
}

/**
 * Minutes longer until the bail-out no longer brings the diver to the surface.
 * @param soonestOther minutes to the first of the other limits
 * @returns null where one of those comes first; no minutes where it does not last now, as the depth decides that
 */
export function minutesToBailOut(trip: Trip, entry: Entry, soonestOther: number): Left | null {
  const plan = planOf(trip, entry);
  const short = (byMin: number): number =>
    shortOfBailOutL(
      trip,
      entry,
      byMin === 0 ? plan : newDivePlan(longer(shapeOf(entry), byMin), plan.around),
    );
  if (short(0) > 0) return { amount: -Infinity, limit: 'bail-out' };
  const latestMin = Math.min(soonestOther, LONGEST_ADDED_MIN);
  if (latestMin <= 0 || short(latestMin) <= 0) return null;
  return { amount: increasingRoot(short, 0, latestMin, ROOT_TOLERANCE), limit: 'bail-out' };
}

/** What of the loop does not last on a dive, whatever the interval before it; null where all does. Source: as `loopSupplies`. */
export function loopShortage(trip: Trip, entry: Entry, plan: DivePlan): RoomLimit | null {
  const short = loopSupplies(trip, entry).find(({ amount }) => amount < 0);
  return short?.limit ?? (shortOfBailOutL(trip, entry, plan) > 0 ? 'bail-out' : null);
}
