import { AIR_O2, modM, richestO2, wholeDown } from '../gas';
import type { Surroundings } from '../profile';
import { mayBreathe, mixO2 } from '../ledger/mix-choice';
import type { Diver, Mix, Trip } from '../document/types';

/** What keeps a mix from a depth, for one diver. */
export type WhyNot =
  | { readonly kind: 'mod'; readonly diver: Diver; readonly modM: number }
  | { readonly kind: 'ceiling'; readonly diver: Diver; readonly maxO2: number };

/**
 * MOD of a mix at a diver's working PO2, the trip's analysis tolerance counted as more oxygen while the mix
 * is not analysed.
 * @returns metres, exact
 * Source: core/gas.ts; the tolerance as in `mayBreathe`.
 */
export function usableModM(mix: Mix, diver: Diver, trip: Trip, around: Surroundings): number {
  const o2 = mixO2(mix);
  const richest = mix.analysedO2 === undefined ? o2 + trip.settings.analysisTolerance : o2;
  return modM(richest, diver.po2.working, around.column);
}

/**
 * Why a diver may not take a mix to a depth.
 * @param depthM metres
 * @returns null where they may
 * Source: `mayBreathe` decides; this only says which of its two rules it was.
 */
export function whyNot(
  mix: Mix,
  depthM: number,
  diver: Diver,
  trip: Trip,
  around: Surroundings,
): WhyNot | null {
  if (mayBreathe(mix, depthM, diver, trip, around)) return null;
  if (mixO2(mix) > diver.maxO2) return { kind: 'ceiling', diver, maxO2: diver.maxO2 };
  return { kind: 'mod', diver, modM: usableModM(mix, diver, trip, around) };
}

/** The reason as a sentence, in metres and percent; the ceiling as it is, the MOD rounded down. */
export function whyNotText(why: WhyNot): string {
  return why.kind === 'ceiling'
    ? `richer than the ceiling of ${Math.round(why.maxO2 * 1000) / 10} % of ${why.diver.name}`
    : `deeper than its MOD of ${wholeDown(why.modM)} m for ${why.diver.name}`;
}

/** The richest mix a diver may take to a depth, whatever is on board. */
export interface RichestMix {
  /** Exact fraction; below 0.21 not even air may go there. */
  readonly o2: number;
  /** To a tenth of a percent, rounded down, as a fraction. */
  readonly tenthO2: number;
  /** Whole percent, rounded down. */
  readonly percent: number;
  /** What holds it: the working PO2 (less the tolerance), or the diver's ceiling. */
  readonly limit: 'po2' | 'ceiling';
  readonly reachesWithAir: boolean;
}

/**
 * The theoretical best mix for a depth.
 * @param depthM metres, 0 or more
 * @returns the lesser of working PO2 / P - tolerance and the diver's ceiling, exact and rounded down
 * Source: Dalton's law (core/gas.ts `richestO2`); CONVENTIONS, "Which mix" for ceiling and tolerance.
 */
export function richestMix(depthM: number, diver: Diver, trip: Trip, around: Surroundings): RichestMix {
  const byPo2 = richestO2(diver.po2.working, depthM, around.column) - trip.settings.analysisTolerance;
  const limit = byPo2 < diver.maxO2 ? 'po2' : 'ceiling';
  const o2 = Math.min(byPo2, diver.maxO2);
  return {
    o2,
    tenthO2: wholeDown(o2 * 1000) / 1000,
    percent: wholeDown(o2 * 100),
    limit,
    reachesWithAir: o2 >= AIR_O2 - 1e-9,
  };
}
