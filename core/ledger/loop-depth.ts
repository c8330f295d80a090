import type { LoopBreathing } from '../breathing';
import type { Leg, Surroundings } from '../profile';
import { nitrogenLegs } from '../tissues/breathed-legs';
import { inspiredBar } from '../tissues/compartments';
import type { Entry } from './ledger-types';
import { aroundOf } from './loop-around';
import { fswOfNitrogen } from './table-depth';
import type { Trip } from '../document/types';

/**
 * Depth that the government table is entered with for legs on a loop: by the most nitrogen inspired on them.
 * @returns feet of sea water, 0 or more
 * Source: CONVENTIONS, "On a loop".
 */
export function fswOnLoop(legs: readonly Leg[], loop: LoopBreathing, around: Surroundings): number {
  const most = nitrogenLegs(legs, loop).reduce(
    (bar, { fromBar, toBar }) => Math.max(bar, inspiredBar(fromBar), inspiredBar(toBar)),
    0,
  );
  return fswOfNitrogen(most, around);
}

/** The same of an entry. @param entry of a dive on a loop */
export function loopDepthFsw(entry: Entry, trip: Trip): number {
  return fswOnLoop(entry.legs, entry.loop!.breathing, aroundOf(trip, entry));
}
