import { printed, printedSi } from '../words/quantity';
import { figure, said, type Said } from '../words/said';
import { AIR_O2, modM, richestO2 } from '../gas';
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

/** The reason: the ceiling as it is set, the MOD rounded down. */
export function whyNotSaid(why: WhyNot): Said {
  return why.kind === 'ceiling'
    ? said`richer than the ceiling of ${figure('oxygenSet', why.maxO2)} of ${why.diver.name}`
    : said`deeper than its MOD of ${figure('depthLimit', why.modM)} for ${why.diver.name}`;
}

/** How rich a mix may be, "34.8 %, in whole percent 34 %". */
export function richestSaid({ tenthO2, percent, reachesWithAir }: RichestMix): Said {
  if (!reachesWithAir) return said`not even air can be used there`;
  const whole = figure('oxygenLimit', percent / 100);
  return tenthO2 === percent / 100
    ? said`${whole}`
    : said`${figure('oxygenLimitFine', tenthO2)}, in whole percent ${whole}`;
}

/** The richest mix a diver may take to a depth, whatever is on board. */
export interface RichestMix {
  /** Exact fraction; below 0.21 not even air can be used there. */
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
    tenthO2: printedSi(o2, 'oxygenLimitFine', 'metric'),
    percent: printed(o2, 'oxygenLimit', 'metric'),
    limit,
    reachesWithAir: o2 >= AIR_O2 - 1e-9,
  };
}
