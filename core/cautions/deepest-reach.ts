import { modM } from '../gas';
import { mixO2 } from '../ledger/mix-choice';
import type { Diver, Mix, Trip } from '../document/types';
import { DUST } from './rule';
import type { WaterColumn } from '../water';

/**
 * How deep a diver may go on the best of some mixes.
 * @param mixes of the trip @param column the water dived
 * @returns metres; -1 where the diver may go nowhere on them
 * Source: MOD at the working PO2, as when "auto" chooses a mix (core/ledger/mix-choice.ts).
 */
export function deepestReachM(diver: Diver, mixes: readonly Mix[], trip: Trip, column: WaterColumn): number {
  const mods = mixes
    .filter((mix) => mixO2(mix) <= diver.maxO2 + DUST)
    .map((mix) => mixO2(mix) + (mix.analysedO2 === undefined ? trip.settings.analysisTolerance : 0))
    .map((richest) => modM(richest, diver.po2.working, column));
  return Math.max(-1, ...mods);
}
