import { modM, po2Bar } from '../gas';
import { increasingRoot } from '../numeric';
import { CNS_HALF_TIME_MIN, cnsMinutesLeft } from '../oxygen/cns';
import { DAY_MIN, dayPeak, type ClockPiece } from '../oxygen/cns-day';
import { type ProfileShape, surroundingsOf } from '../profile';
import { contentL } from '../supply';
import { compose, type AffineMap } from '../tissues/affine-map';
import { AIR_N2, COMPARTMENT_COUNT, inspiredBar, RATES_PER_MIN } from '../tissues/compartments';
import { effectiveDive, type EffectiveDive } from '../document/as-dived';
import { newDivePlan, planOf, type DivePlan } from './dive-plan';
import { step, surfaceLimits } from './entry';
import { gasAsPlanned } from './gas-outcome';
import type { Entry, Room, RoomLimit } from './ledger-types';
import type { Trip } from '../document/types';

/** Roots without a formula are found to this, metres and minutes. */
const ROOT_TOLERANCE = 0.01;

/** A level is not thought shallower than this when depth room is sought upwards, metres. */
const SHALLOWEST_M = 1;

/** No dive is thought longer than by a day. */
const LONGEST_ADDED_MIN = 1440;

interface Found {
  readonly amount: number;
  readonly limit: RoomLimit;
}

/** The first limit to be met; of two alike the one listed first. */
function first(candidates: readonly (Found | null)[]): Found | null {
  let found: Found | null = null;
  for (const each of candidates) if (each && (found === null || each.amount < found.amount)) found = each;
  return found;
}

/**
 * Litres left above what must remain: the reserve at the surface, the minimum gas on leaving the bottom.
 * @returns litres at 1 bar; negative where one of the two is not left, -Infinity where nobody can say what it takes
 * Source: CONVENTIONS, "Minimum gas".
 */
export function spareL(entry: Pick<Entry, 'gas' | 'diver' | 'o2'>, trip: Trip): number {
  const { contentL: filledL, usedL, usedAtLeavingL, minimumBar } = entry.gas;
  if (filledL === null || usedL === null || usedAtLeavingL === null || minimumBar === null) return -Infinity;
  const { waterL, reserveBar } = entry.diver.cylinder;
  const law = trip.settings.gasLaw;
  const reserveL = contentL(waterL, reserveBar, entry.o2!, law);
  const minimumL = contentL(waterL, minimumBar, entry.o2!, law);
  return Math.min(filledL - usedL - reserveL, filledL - usedAtLeavingL - minimumL);
}

/**
 * As `spareL`, of the dive as planned: required stops and the gas for them are gone once the dive is short enough to
 * need none, so they say nothing of how much shorter that is.
 * @param entry one of the ledger
 */
export function spareAsPlannedL(entry: Entry, trip: Trip): number {
  if (!entry.isPastLimit) return spareL(entry, trip);
  const gas = gasAsPlanned(planOf(trip, entry), entry.dive, entry.diver, entry.o2!, trip);
  return spareL({ ...entry, gas }, trip);
}

/** The same dive with another profile, as its entry in the same ledger. */
export function entryWith(trip: Trip, entry: Entry, shape: ProfileShape): Entry {
  const effective: EffectiveDive = { ...effectiveDive(entry.dive, entry.diver), shape };
  const plan = newDivePlan(shape, surroundingsOf(trip));
  const context = { trip, diver: entry.diver, intervals: new Map() };
  return step(context, entry.from, entry.dive, effective, entry.mix, plan);
}

function shapeOf(entry: Entry): ProfileShape {
  return effectiveDive(entry.dive, entry.diver).shape;
}

/** The shape with its last level longer. */
export function longer(shape: ProfileShape, byMin: number): ProfileShape {
  const stop = shape.safetyStop === undefined ? {} : { safetyStop: shape.safetyStop };
  const { legs } = shape;
  if (legs === undefined) return { depthM: shape.depthM, bottomMin: shape.bottomMin + byMin, ...stop };
  const last = legs[legs.length - 1]!;
  return {
    depthM: shape.depthM,
    bottomMin: shape.bottomMin + byMin,
    legs: [...legs.slice(0, -1), { depthM: last.depthM, min: last.min + byMin }],
    ...stop,
  };
}

/** The shape with every level deeper by the same. */
export function deeper(shape: ProfileShape, byM: number): ProfileShape {
  const stop = shape.safetyStop === undefined ? {} : { safetyStop: shape.safetyStop };
  return {
    depthM: shape.depthM + byM,
    bottomMin: shape.bottomMin,
    ...(shape.legs && { legs: shape.legs.map((leg) => ({ depthM: leg.depthM + byM, min: leg.min })) }),
    ...stop,
  };
}

/** Room on the rolling 24 h clock: it rises by at most 1/limit a minute, which settles it where that is late. */
function cnsDayRoomMin(trip: Trip, entry: Entry, po2: number, soonestOther: number): Found | null {
  const day = entry.cns.day;
  const soonestMin = day === null ? null : cnsMinutesLeft(day, po2, 'daily');
  if (soonestMin === null || soonestMin >= soonestOther) return null;
  if (soonestMin < 0) return { amount: soonestMin, limit: 'cns-day' };
  const over = (byMin: number) =>
    (entryWith(trip, entry, longer(shapeOf(entry), byMin)).cns.day ?? Infinity) - 1;
  const latestMin = Math.min(soonestOther, soonestMin + LONGEST_ADDED_MIN);
  // Until another limit is met, older exposures may leave the window as fast as this one adds to it.
  if (over(latestMin) <= 0) return null;
  if (over(soonestMin) > 0) return { amount: soonestMin, limit: 'cns-day' };
  return { amount: increasingRoot(over, soonestMin, latestMin, ROOT_TOLERANCE), limit: 'cns-day' };
}

function minutesLonger(trip: Trip, entry: Entry): Found | null {
  const lastBar = entry.legs.findLast((leg) => leg.kind === 'level')!.toBar;
  const po2 = po2Bar(entry.o2!, lastBar);
  const cnsLeftMin = entry.cns.after === null ? null : cnsMinutesLeft(entry.cns.after, po2, 'single');
  const soonest = first([
    entry.unlimited ? null : { amount: entry.noStopMin! - entry.bottomMin, limit: 'no-stop' },
    cnsLeftMin === null || cnsLeftMin === Infinity ? null : { amount: cnsLeftMin, limit: 'cns' },
    { amount: spareAsPlannedL(entry, trip) / (entry.diver.surfaceRateLpm * lastBar), limit: 'gas' },
  ]);
  return first([soonest, cnsDayRoomMin(trip, entry, po2, soonest?.amount ?? Infinity)]);
}

/** Minutes inside the no-stop limit; past it on an earlier level, no stay on the last one counts. */
function noStopMargin(entry: Entry): number {
  if (entry.levelsPastLimitM.length > 0) return -1;
  return entry.unlimited ? Infinity : entry.noStopMin! - entry.bottomMin;
}

/** How far inside each limit a dive is at a depth; negative outside. */
function margins(trip: Trip, entry: Entry): readonly Found[] {
  return [
    { amount: noStopMargin(entry), limit: 'no-stop' },
    { amount: entry.cns.after === null ? -1 : 1 - entry.cns.after, limit: 'cns' },
    { amount: entry.cns.day === null ? -1 : 1 - entry.cns.day, limit: 'cns-day' },
    { amount: spareL(entry, trip), limit: 'gas' },
  ];
}

/** Room to the MOD and to the diver's own depth, whichever is met first. */
function depthRoom(trip: Trip, entry: Entry): Found {
  const { column } = surroundingsOf(trip);
  return first([
    { amount: modM(entry.o2!, entry.diver.po2.working, column) - entry.depthM, limit: 'mod' },
    { amount: entry.diver.maxDepthM - entry.depthM, limit: 'diver-depth' },
  ])!;
}

/** Where the clocks tell nothing, a depth that is passed already still does. */
function passedDepth(trip: Trip, entry: Entry): Found | null {
  const depths = depthRoom(trip, entry);
  return depths.amount < 0 ? depths : null;
}

/** @returns null where no limit is in reach; amount -Infinity where one is passed at any depth */
function metresDeeper(trip: Trip, entry: Entry): Found | null {
  const around = surroundingsOf(trip);
  const shape = shapeOf(entry);
  const depths = depthRoom(trip, entry);
  const shallowestM = Math.min(...(shape.legs ?? [shape]).map((level) => level.depthM));
  const highestM = SHALLOWEST_M - shallowestM;
  // The first level must stay long enough for the descent to it; deeper than that there is no such dive.
  const firstLevel = shape.legs?.[0] ?? { depthM: shape.depthM, min: shape.bottomMin };
  const reachableM = (firstLevel.min - 1e-9) * around.descentMPerMin - firstLevel.depthM;
  const deepestM = Math.min(depths.amount, reachableM);
  if (deepestM <= highestM) return depths;

  const at = (byM: number) => margins(trip, entryWith(trip, entry, deeper(shape, byM)));
  let found = depths.amount <= reachableM ? depths : null;
  let lowestM = deepestM;
  // The no-stop limit comes first in `margins`: past it, required stops take the safety stop's place, and
  // only above it does what is left of gas and oxygen fall steadily with depth.
  for (const [index, { limit }] of at(deepestM).entries()) {
    const over = (byM: number) => -at(byM)[index]!.amount;
    if (over(lowestM) <= 0) continue;
    if (over(highestM) > 0) return { amount: -Infinity, limit };
    lowestM = increasingRoot(over, highestM, lowestM, ROOT_TOLERANCE);
    found = { amount: lowestM, limit };
  }
  return found;
}

/**
 * From the start of a dive to the surface, by every way on which its limit counts: straight up from the end of
 * each level. At a shallow last level gas is given off: there it counts on arrival, elsewhere on leaving.
 */
export function waysUp(plan: DivePlan): readonly AffineMap[] {
  return [
    ...plan.earlierLevels.map(({ map, directAscent }) => compose(map, directAscent)),
    compose(plan.toArrival, plan.directAscent),
    compose(plan.toLeaving, plan.directAscent),
  ];
}

/**
 * How much sooner the dive could start, in closed form but for the 24 h clock: each compartment tells the
 * interval it needs.
 * @returns null where no interval matters; amount -Infinity where none would do
 */
function minutesEarlier(trip: Trip, entry: Entry): Found | null {
  const { intervalMin } = entry;
  if (intervalMin === null) return null;
  const around = surroundingsOf(trip);
  const { column } = around;
  const n2 = 1 - entry.o2!;
  const limits = surfaceLimits(column, entry.diver.gradient.high);
  const plan = newDivePlan(shapeOf(entry), around);
  const airBar = AIR_N2 * inspiredBar(column.surfaceBar);
  let neededMin = -Infinity;
  for (const toEnd of waysUp(plan)) {
    for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
      const highestBefore = (limits[i]! - n2 * toEnd.uptake[i]!) / toEnd.decay[i]!;
      const held = entry.from.tensions[i]!;
      if (held <= highestBefore) continue;
      if (highestBefore <= airBar) return { amount: -Infinity, limit: 'no-stop' };
      neededMin = Math.max(
        neededMin,
        Math.log((held - airBar) / (highestBefore - airBar)) / RATES_PER_MIN[i]!,
      );
    }
  }
  const byNitrogen: Found | null =
    neededMin > 0 ? { amount: intervalMin - neededMin, limit: 'no-stop' } : null;
  return first([byNitrogen, earlierByCns(entry), earlierByCnsDay(entry)]);
}

/** The single-exposure clock at its start must leave place for the dive's own share. */
function earlierByCns(entry: Entry): Found | null {
  const { before, after } = entry.cns;
  const held = entry.from.cns;
  if (held === null || before === null || after === null) return null;
  const highestBefore = 1 - (after - before);
  if (held <= highestBefore) return null;
  if (highestBefore <= 0) return { amount: -Infinity, limit: 'cns' };
  const neededMin = CNS_HALF_TIME_MIN * Math.log2(held / highestBefore);
  return { amount: entry.intervalMin! - neededMin, limit: 'cns' };
}

/**
 * The rolling 24 h clock: the sooner the dive, the more of the dives before lies in one window with it.
 * @returns minutes, found to 0.01 on the safe side; null where even straight after the dive before would do, or
 *   where the clock is not known; amount -Infinity where not even a day's wait would do
 * Source: as `dayPeak`.
 */
export function earlierByCnsDay(entry: Entry): Found | null {
  const pieces = entry.exposure?.pieces;
  const earlier: ClockPiece[] = [];
  for (const exposure of entry.from.exposures) {
    if (exposure.pieces === null) return null;
    earlier.push(...exposure.pieces);
  }
  if (!pieces || entry.intervalMin === null) return null;
  const over = (byMin: number): number => {
    const moved = pieces.map((piece) => ({
      ...piece,
      fromMin: piece.fromMin - byMin,
      toMin: piece.toMin - byMin,
    }));
    return dayPeak(earlier, moved, entry.startMin - byMin) - 1;
  };
  if (over(entry.intervalMin) <= 0) return null;
  if (over(-DAY_MIN) > 0) return { amount: -Infinity, limit: 'cns-day' };
  return { amount: increasingRoot(over, -DAY_MIN, entry.intervalMin, ROOT_TOLERANCE), limit: 'cns-day' };
}

const NO_ROOM: Room = {
  min: null,
  minLimit: null,
  m: null,
  mLimit: null,
  earlierMin: null,
  earlierLimit: null,
};

/**
 * Minutes of room alone, cheap enough for every entry of a trip at once.
 * @returns minutes and the limit met first; both null where none is in reach; no minutes, but the limit, where it is
 *   passed and no shorter stay would mend that
 * Source: each limit as in its module; closed forms but for the 24 h clock near its end.
 */
export function roomMinutes(trip: Trip, entry: Entry): Pick<Room, 'min' | 'minLimit'> {
  if (!entry.isMade) return { min: null, minLimit: null };
  // Above 1.6 bar, here or on a dive before, no clock tells how much is left.
  if (entry.cns.after === null) return { min: null, minLimit: 'po2' };
  // Past the limit on an earlier level: no time on the last one mends that, and none is left.
  if (entry.levelsPastLimitM.length > 0) return { min: null, minLimit: 'no-stop' };
  const found = minutesLonger(trip, entry);
  // -Infinity: past a clock's limit at a pressure where no shorter stay would help; there is no such number.
  return {
    min: found === null || found.amount === -Infinity ? null : found.amount,
    minLimit: found?.limit ?? null,
  };
}

/**
 * The room of an entry: minutes longer, metres deeper, minutes sooner, each with the limit met first.
 * @param trip the document @param entry of its ledger
 * @returns closed form where there is one, else found to 0.01 on the safe side; negative where a limit is
 *   passed; null with the limit 'po2' above 1.6 bar, where no oxygen limit is published, and on the dives
 *   after such a one
 * Source: CONVENTIONS, "Room"; each limit as in its module.
 */
export function roomOf(trip: Trip, entry: Entry): Room {
  if (!entry.isMade) return NO_ROOM;
  const minutes = roomMinutes(trip, entry);
  const isUnknown = minutes.minLimit === 'po2';
  const metres = isUnknown ? passedDepth(trip, entry) : metresDeeper(trip, entry);
  const earlier = isUnknown ? null : minutesEarlier(trip, entry);
  return {
    ...minutes,
    m: metres === null || metres.amount === -Infinity ? null : metres.amount,
    mLimit: metres?.limit ?? (isUnknown ? 'po2' : null),
    earlierMin: earlier === null || earlier.amount === -Infinity ? null : earlier.amount,
    earlierLimit: earlier?.limit ?? (isUnknown ? 'po2' : null),
  };
}
