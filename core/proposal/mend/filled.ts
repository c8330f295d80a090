/** What a shape of a dive comes to on what is breathed, as numbers. Source: as `DiveWays`. */
import { cnsFraction } from '../../oxygen/cns';
import { dailyPieces, type ClockPiece } from '../../oxygen/cns-day';
import type { OxygenBreathed } from '../../ledger/breathed-oxygen';
import type { DivePlan } from '../../ledger/dive-plan';
import type { AffineMap, Lanes } from '../../tissues/affine-map';
import { COMPARTMENT_COUNT, RATES_PER_MIN } from '../../tissues/compartments';
import type { LoopMade } from './on-loop';

/** Oxygen of a shape on what is breathed. */
export interface Clocks {
  /** Share of the single-exposure clock; Infinity above 1.6 bar. */
  readonly cns: number;
  /** What the rolling 24 h clock takes, in minutes from the start. */
  readonly pieces: readonly ClockPiece[];
  /** All of that at once; Infinity above 1.6 bar. */
  readonly dayShare: number;
}

/** A shape on an oxygen fraction, or on a loop, whoever dives it. */
export interface Filled extends Clocks {
  readonly depthM: number;
  /** As the government table is entered. */
  readonly depthFsw: number;
  readonly bottomMin: number;
  readonly runMin: number;
  /** What the dive adds to excess, as at its start, bar; less than none where it takes some away. */
  readonly gain: Lanes;
  readonly otu: number;
  /** The same, longer by the room asked for; null where none is. */
  readonly longer: Clocks | null;
}

/** How a diver makes a way. */
export interface Made {
  readonly filled: Filled;
  /** Highest excess at the start from which every way up keeps the no-stop limit, bar. */
  readonly highest: Lanes;
  /** What there is on a loop alone; null on open circuit. */
  readonly loop: LoopMade | null;
}

/** The clocks of legs. */
export function clocksOf({ legs, o2 }: OxygenBreathed): Clocks {
  const pieces = dailyPieces(legs, o2, 0);
  return {
    cns: cnsFraction(legs, o2, 'single') ?? Infinity,
    pieces: pieces ?? [],
    dayShare: pieces === null ? Infinity : pieces.reduce((sum, { share }) => sum + share, 0),
  };
}

/** What a plan adds to excess. @param n2 nitrogen fraction @param airBar what tensions rest at */
export function gainOf({ whole, runtimeMin }: DivePlan, n2: number, airBar: number): Lanes {
  const { decay, uptake } = whole;
  // Not divided by the decay: of a dive of five hours nothing is left of it in the fastest compartment, not a digit.
  return RATES_PER_MIN.map((k, i) => (n2 * uptake[i]! - (1 - decay[i]!) * airBar) * Math.exp(k * runtimeMin));
}

/** The highest excess from which every way up keeps limits. @param n2 nitrogen fraction */
export function highestOf(ups: readonly AffineMap[], n2: number, limits: Lanes, airBar: number): Lanes {
  const found = limits.map(() => Infinity);
  for (const { decay, uptake } of ups) {
    for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
      found[i] = Math.min(found[i]!, (limits[i]! - n2 * uptake[i]!) / decay[i]! - airBar);
    }
  }
  return found;
}
