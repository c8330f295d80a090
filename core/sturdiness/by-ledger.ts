/** Dives of a run by the ledger's own steps: what the quick way leaves over, what draws the curves, and what both are held to. */
import { modM } from '../gas';
import type { AtSurface } from '../ledger/at-surface';
import { deeper, longer } from '../ledger/changed-dive';
import { divePlan, type DivePlan } from '../ledger/dive-plan';
import { loopOn, loopSettingsOf } from '../document/loops';
import { step } from '../ledger/entry';
import { gasOutcome, spareL } from '../ledger/gas-outcome';
import type { Carry, Entry } from '../ledger/ledger-types';
import { loopSupplies } from '../ledger/loop-room';
import { loopStep } from '../ledger/loop-step';
import { nitrogenOutcome } from '../ledger/nitrogen-outcome';
import { minutesLeft } from '../ledger/room';
import type { Dive, Diver, Trip } from '../document/types';
import { cnsFraction } from '../oxygen/cns';
import type { AffineMap, Lanes } from '../tissues/affine-map';
import type { WaterColumn } from '../water';
import type { DiveTable } from './dive-table';
import { CM, SECONDS } from './scatter';
import type { CellTable, TripTable } from './trip-table';

/** What a run drew for a dive: whole centimetres deeper, seconds longer and minutes later; fewer are less. */
export interface DrawnDive {
  cm: number;
  seconds: number;
  startMin: number;
}

/** What a run drew for a diver on a dive. */
export interface DrawnCell {
  readonly rateLpm: number;
  readonly o2: number;
}

/** Limits that a run may pass, each a bit. Source: those of CONVENTIONS, "Room", in this project's own code. */
export const PASSED = {
  'no-stop': 1,
  gas: 2,
  mod: 4,
  'diver-depth': 8,
  cns: 16,
  'cns-day': 32,
  oxygen: 64,
  scrubber: 128,
  'bail-out': 256,
} as const;

/** One of them. */
export type PassedLimit = keyof typeof PASSED;

/** A depth or a share may pass its limit by this much through rounding alone, metres and fractions and litres. */
const DUST = 1e-9;

/** The dive as a run has it; the start is each diver's own. */
export function scatteredDive({ dive, wantedStop }: DiveTable, { cm, seconds }: DrawnDive): Dive {
  return { ...dive, ...longer(deeper({ ...dive, safetyStop: wantedStop }, cm / CM), seconds / SECONDS) };
}

/** The diver as they breathe on a dive of a run; on bail-out as much more, or less. */
export function breathing(person: Diver, rateLpm: number): Diver {
  if (rateLpm === person.surfaceRateLpm) return person;
  const { loop, surfaceRateLpm } = person;
  const byLpm = loop?.bailOutRateLpm;
  return {
    ...person,
    surfaceRateLpm: rateLpm,
    ...(byLpm !== undefined && { loop: { ...loop!, bailOutRateLpm: (byLpm * rateLpm) / surfaceRateLpm } }),
  };
}

/**
 * The trip as a diver of a run uses oxygen on a loop: who breathes more uses as much more.
 * @returns the trip itself on open circuit
 * Source: CONVENTIONS, "How sturdy a plan is".
 */
export function asUsed(trip: Trip, { person, isOnLoop }: CellTable, rateLpm: number): Trip {
  if (!isOnLoop || rateLpm === person.surfaceRateLpm) return trip;
  const { settings } = trip;
  const oxygenLpm = (loopSettingsOf(settings).oxygenLpm * rateLpm) / person.surfaceRateLpm;
  return { ...trip, settings: { ...settings, loops: { ...settings.loops, oxygenLpm } } };
}

/**
 * A dive of a run as the ledger has it: the cylinder stays the one planned.
 * @param dive as scattered @param from what the diver holds on surfacing from the dive before
 * Source: as `step`.
 */
export function scatteredEntry(
  { trip, dives }: Pick<TripTable, 'trip' | 'dives'>,
  cell: CellTable,
  dive: Dive,
  drawn: DrawnDive,
  { rateLpm, o2 }: DrawnCell,
  from: Carry,
  surface: AtSurface,
): Entry {
  const effective = {
    shape: dive,
    startMin: cell.startMin + drawn.startMin,
    analysedO2: o2,
    analysedMix: null,
    isAsDived: false,
    isAsPlanned: false,
    endBar: null,
  };
  const diver = breathing(cell.person, rateLpm);
  const context = { trip, diver, surface };
  if (cell.isOnLoop) return loopStep(context, from, dive, effective, loopOn(dive, diver)!);
  const plan: DivePlan = divePlan(dive, dives[cell.dive]!.around);
  return step(context, from, dive, effective, cell.mix, plan);
}

/** What becomes of a dive past its limit. */
interface PastLimit {
  readonly whole: AffineMap;
  /** What its stops take longer, minutes. */
  readonly stopsMin: number;
  /** Shares of both oxygen limits, fractions. */
  readonly singleShare: number;
  readonly dailyShare: number;
  /** Litres left above what must remain, stops reckoned. */
  readonly spareL: number;
}

/**
 * A dive of a run past its limit, with the stops that costs. Past it at an earlier level alone none are made, but gas has
 * to last through those of going up from there.
 * @param o2 oxygen fraction, with which the deepest point keeps to 1.6 bar @param before tensions at its start, bar
 * Source: as `nitrogenOutcome` and `gasOutcome`.
 */
export function madePastLimit(
  { trip, around }: Pick<TripTable, 'trip' | 'around'>,
  dive: Dive,
  diver: Diver,
  o2: number,
  before: Lanes,
): PastLimit {
  const plan = divePlan(dive, around);
  const outcome = nitrogenOutcome(plan, before, 1 - o2, diver);
  const effective = { endBar: null, shape: dive };
  const gas = gasOutcome(plan, outcome, before, dive, diver, effective, o2, trip);
  return {
    whole: outcome.whole,
    stopsMin: outcome.runtimeMin - plan.runtimeMin,
    singleShare: cnsFraction(outcome.legs, o2, 'single')!,
    dailyShare: cnsFraction(outcome.legs, o2, 'daily')!,
    spareL: spareL({ gas, diver, o2 }, trip),
  };
}

/** Limits of depth that a dive passes. @param o2 breathed Source: core/gas.ts. */
export function passedDepths(
  o2: number,
  depthM: number,
  { po2, maxDepthM }: Diver,
  column: WaterColumn,
): number {
  const isBelowMod = modM(o2, po2.working, column) - depthM < -DUST;
  return (isBelowMod ? PASSED.mod : 0) | (maxDepthM - depthM < -DUST ? PASSED['diver-depth'] : 0);
}

/** Limits of the clocks that are passed. @param cns @param day fractions */
export function passedClocks(cns: number | null, day: number | null): number {
  return ((cns ?? 0) > 1 + DUST ? PASSED.cns : 0) | ((day ?? 0) > 1 + DUST ? PASSED['cns-day'] : 0);
}

/** Whether gas is short. @param litres left above what must remain */
export function passedGas(litres: number): number {
  return litres < -DUST ? PASSED.gas : 0;
}

/** Limits of a loop's own depth and of what is along on it that a dive passes. Source: as `loopShortage`. */
function passedOnLoop(entry: Entry, trip: Trip): number {
  const { loop, depthM, diver } = entry;
  const { diluentModM, bailOutModM, diluentGas, bailOut } = loop!;
  const { gear } = loopOn(entry.dive, diver)!;
  const isDiluentShort = (diluentGas.leftBar ?? -Infinity) < gear.diluentCylinder.reserveBar - DUST;
  const short = loopSupplies(trip, entry).filter(({ amount }) => amount < -DUST);
  return (
    (Math.min(diluentModM, bailOutModM) - depthM < -DUST ? PASSED.mod : 0) |
    (diver.maxDepthM - depthM < -DUST ? PASSED['diver-depth'] : 0) |
    (isDiluentShort ? PASSED.gas : 0) |
    (short.some(({ limit }) => limit === 'oxygen') ? PASSED.oxygen : 0) |
    (short.some(({ limit }) => limit === 'scrubber') ? PASSED.scrubber : 0) |
    ((bailOut?.spareL ?? -Infinity) < -DUST ? PASSED['bail-out'] : 0)
  );
}

function passedOnMix(entry: Entry, trip: Trip, column: WaterColumn): number {
  return passedGas(spareL(entry, trip)) | passedDepths(entry.o2!, entry.depthM, entry.diver, column);
}

/** The limits that an entry passes, as bits of `PASSED`. Source: CONVENTIONS, "How sturdy a plan is". */
export function passedBy(entry: Entry, trip: Trip, column: WaterColumn): number {
  return (
    (entry.isPastLimit ? PASSED['no-stop'] : 0) |
    (entry.loop === null ? passedOnMix(entry, trip, column) : passedOnLoop(entry, trip)) |
    passedClocks(entry.cns.after, entry.cns.day)
  );
}

/**
 * The room of an entry as a number that can be put in order.
 * @returns minutes to the limits that time decides; -Infinity where one is passed that no shorter stay keeps
 * Source: as `minutesLeft`.
 */
export function roomNumber(trip: Trip, entry: Entry): number {
  const { min, minLimit } = minutesLeft(trip, entry);
  return min ?? (minLimit === null ? Infinity : -Infinity);
}
