import type { LoopBreathing } from '../breathing';
import { loopSettingsOf, type LoopOnDive } from '../document/loops';
import type { Trip } from '../document/types';
import { surroundingsAt } from '../document/waters';
import type { Surroundings } from '../profile';
import type { Entry } from './ledger-types';

const known = new WeakMap<Surroundings, Map<string, Surroundings>>();

/** Surroundings in which a loop is breathed; the same object for the same figures of a loop, kept with its water. */
export function loopAround(around: Surroundings, breathing: LoopBreathing): Surroundings {
  let byLoop = known.get(around);
  if (!byLoop) known.set(around, (byLoop = new Map()));
  const key = Object.values(breathing).join(' ');
  let own = byLoop.get(key);
  if (!own) byLoop.set(key, (own = { ...around, breathing }));
  return own;
}

/**
 * What is breathed on a loop.
 * @param diluentO2 oxygen fraction of the diluent, as analysed where known
 * Source: CONVENTIONS, "Constant PO2".
 */
export function loopBreathing(trip: Trip, { setpoints }: LoopOnDive, diluentO2: number): LoopBreathing {
  const { lowBar, highBar, switchM } = setpoints;
  const { toleranceBar } = loopSettingsOf(trip.settings);
  return { is: 'loop', lowBar, highBar, switchM, diluentO2, toleranceBar };
}

/** Water, rates and what is breathed, as an entry has them. */
export function aroundOf(trip: Trip, { dive, loop }: Pick<Entry, 'dive' | 'loop'>): Surroundings {
  const around = surroundingsAt(trip, dive);
  return loop === null ? around : loopAround(around, loop.breathing);
}
