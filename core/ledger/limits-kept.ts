import type { Trip } from '../document/types';
import { modM } from '../gas';
import { cnsFraction } from '../oxygen/cns';
import { dailyPieces, dayPeak, type ClockPiece } from '../oxygen/cns-day';
import { surroundingsAt } from '../document/waters';
import type { Leg } from '../profile';
import { contentL } from '../supply';
import { compose, type AffineMap, type Lanes } from '../tissues/affine-map';
import { COMPARTMENT_COUNT } from '../tissues/compartments';
import { nitrogenOf, oxygenBreathed } from './breathed-oxygen';
import type { DivePlan } from './dive-plan';
import { surfaceLimits } from './nitrogen-outcome';
import { emergencyGasOf } from './gas-outcome';
import type { Carry, Entry, RoomLimit } from './ledger-types';

/** Depths may pass a limit by this much through rounding alone, metres. */
const SAME_DEPTH_M = 1e-9;

/**
 * How far past a limit a dive is, for one diver on one mix, were it made as planned: 0 or less is kept. Required
 * stops, and what they take of gas and oxygen, are no part of it: a dive that keeps its no-stop limit has none, and
 * one that does not keep it is past a limit anyway. So each of these rises with depth and with time at the last level.
 */
export interface AskedDive {
  readonly trip: Trip;
  readonly entry: Entry;
  readonly n2: number;
  /** Tolerated on surfacing, bar. */
  readonly surfaceLimits: Lanes;
  /** Of the dives before, what a 24 h window may still hold; null where one of them passed 1.6 bar. Put together once. */
  readonly earlierPieces: () => readonly ClockPiece[] | null;
}

function piecesOf(carry: Carry): readonly ClockPiece[] | null {
  const pieces: ClockPiece[] = [];
  for (const exposure of carry.exposures) {
    if (exposure.pieces === null) return null;
    pieces.push(...exposure.pieces);
  }
  return pieces;
}

function once<T>(make: () => T): () => T {
  let held: { readonly made: T } | null = null;
  return () => (held ??= { made: make() }).made;
}

/** @param entry one that is made */
export function askedDive(trip: Trip, entry: Entry): AskedDive {
  return {
    trip,
    entry,
    n2: nitrogenOf(entry),
    surfaceLimits: surfaceLimits(surroundingsAt(trip, entry.dive).column, entry.diver.gradient.high),
    earlierPieces: once(() => piecesOf(entry.from)),
  };
}

/**
 * From the start of a dive to the surface, by every way on which its limit counts: straight up from the end of
 * each level. At a shallow last level gas is given off: there it counts on arrival, elsewhere on leaving.
 */
export function waysUp(plan: DivePlan): readonly AffineMap[] {
  return [
    ...plan.earlierLevels.map(({ map, directAscent }) => compose(map, directAscent)),
    ...plan.momentsUp.map(({ toSurface }) => toSurface),
    compose(plan.toArrival, plan.directAscent),
    compose(plan.toLeaving, plan.directAscent),
  ];
}

/**
 * As `waysUp`, and the way as planned: with a safety stop that takes up more than it gives off a dive surfaces past the
 * limit that it keeps without.
 * Source: CONVENTIONS, "No-stop limit".
 */
export function waysUpAndAsPlanned(plan: DivePlan): readonly AffineMap[] {
  return [...waysUp(plan), plan.whole];
}

/**
 * Bar by which the compartment that is furthest past its limit surfaces above it, on the worst way up.
 * Source: core/ascent/no-stop-limit.ts.
 */
export function pastNoStopBar({ entry, n2, surfaceLimits: limits }: AskedDive, plan: DivePlan): number {
  let furthest = -Infinity;
  for (const { decay, uptake } of waysUp(plan)) {
    for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
      const past = decay[i]! * entry.tensionsBefore[i]! + n2 * uptake[i]! - limits[i]!;
      if (past > furthest) furthest = past;
    }
  }
  return furthest;
}

/** Share of the single-exposure clock past the whole of it; Infinity where it tells nothing. Source: core/oxygen/cns.ts. */
export function pastCns({ entry }: AskedDive, legs: readonly Leg[]): number {
  const oxygen = oxygenBreathed(legs, entry);
  const own = cnsFraction(oxygen.legs, oxygen.o2, 'single');
  return own === null || entry.cns.before === null ? Infinity : entry.cns.before + own - 1;
}

/**
 * Share of the 24 h clock past the whole of it, at its highest from entry to surfacing; Infinity where it tells nothing.
 * @param startMin wall minutes
 * Source: core/oxygen/cns-day.ts.
 */
export function pastCnsDay(
  { entry, earlierPieces }: AskedDive,
  legs: readonly Leg[],
  startMin: number,
): number {
  const oxygen = oxygenBreathed(legs, entry);
  const own = dailyPieces(oxygen.legs, oxygen.o2, startMin);
  const earlier = earlierPieces();
  return own === null || earlier === null ? Infinity : dayPeak(earlier, own, startMin) - 1;
}

/**
 * Litres left above what must remain on open circuit, were the dive made as planned; negative where one of the two is not left.
 * @param o2 oxygen fraction @returns litres at 1 bar
 * Source: CONVENTIONS, "Minimum gas".
 */
export function spareAsPlannedL(
  trip: Trip,
  { diver }: Pick<Entry, 'diver'>,
  o2: number,
  plan: DivePlan,
): number {
  const law = trip.settings.gasLaw;
  const { waterL, fillBar, reserveBar } = diver.cylinder;
  const filledL = contentL(waterL, fillBar, o2, law);
  const reserveL = contentL(waterL, reserveBar, o2, law);
  const usedL = diver.surfaceRateLpm * plan.breathedBarMin;
  const usedAtLeavingL = diver.surfaceRateLpm * plan.atLeavingBarMin;
  const minimumL = Math.max(reserveL, emergencyGasOf(plan, [], diver).litres);
  return Math.min(filledL - usedL - reserveL, filledL - usedAtLeavingL - minimumL);
}

/** A limit of depth, and the metres left to it: negative where it is passed. */
export interface DepthLimit {
  readonly amount: number;
  readonly limit: Extract<RoomLimit, 'mod' | 'diver-depth'>;
}

/**
 * The limit of depth that is met first: the MOD at the working PO2, on a loop that of diluent and bail-out, or the diver's
 * own. Source: core/gas.ts.
 */
export function depthLimit(trip: Trip, { dive, loop, o2, diver, depthM }: Entry): DepthLimit {
  const deepestM =
    loop === null
      ? modM(o2!, diver.po2.working, surroundingsAt(trip, dive).column)
      : Math.min(loop.diluentModM, loop.bailOutModM);
  const toMod = deepestM - depthM;
  const toOwn = diver.maxDepthM - depthM;
  return toMod <= toOwn ? { amount: toMod, limit: 'mod' } : { amount: toOwn, limit: 'diver-depth' };
}

/** The limit of depth a dive is past; null where it keeps both. Source: as `depthLimit`. */
export function passedDepth(trip: Trip, entry: Entry): DepthLimit['limit'] | null {
  const { amount, limit } = depthLimit(trip, entry);
  return amount < -SAME_DEPTH_M ? limit : null;
}
