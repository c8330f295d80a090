import { isAbovePo2, po2Bar } from '../gas';
import type { Trip } from '../document/types';
import { increasingRoot } from '../numeric';
import { CNS_HALF_TIME_MIN, cnsMinutesLeft } from '../oxygen/cns';
import { DAY_MIN } from '../oxygen/cns-day';
import { LAST_LIMIT_BAR, limitMin } from '../oxygen/limits';
import { surroundingsOf, type Leg } from '../profile';
import { AIR_N2, COMPARTMENT_COUNT, inspiredBar, RATES_PER_MIN } from '../tissues/compartments';
import { atSurface, fallenBelow } from './at-surface';
import { oxygenBreathed } from './breathed-oxygen';
import { deeper, shapeOf } from './changed-dive';
import { newDivePlan, planOf, type DivePlan } from './dive-plan';
import type { Entry, Room, RoomLimit } from './ledger-types';
import { loopShortage, loopSupplies, minutesToBailOut, shortOfBailOutL } from './loop-room';
import {
  askedDive,
  depthLimit,
  passedDepth,
  pastCns,
  pastCnsDay,
  pastNoStopBar,
  spareAsPlannedL,
  waysUp,
  type AskedDive,
} from './limits-kept';

/** Roots without a formula are found to this on the side that keeps the limit, metres and minutes. */
const ROOT_TOLERANCE = 1e-6;

/** No level is dived shallower, metres. Source: the trip file's own range of depths. */
const SHALLOWEST_M = 1;

/** No dive is thought longer than by a day. */
const LONGEST_ADDED_MIN = 1440;

/** Intervals may differ by this much through rounding alone, minutes. */
const SAME_MIN = 1e-9;

/** Depths that are tried where the shallowest of them does not keep the no-stop limit. */
const DEPTHS_TRIED = 64;

/** An amount and the limit that is met there; -Infinity where it is passed, and no such change mends that. */
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

/** The legs as planned with the last level longer, or shorter. */
function legsWith(plan: DivePlan, byMin: number): readonly Leg[] {
  const at = plan.profile.toLastLevel.length;
  const last = plan.legs[at]!;
  return plan.legs.with(at, { ...last, min: last.min + byMin });
}

/**
 * Minutes to the rolling 24 h clock, which rises by at most 1/limit a minute; that settles most dives. The longer the
 * dive the higher its peak: at the last level the clock rises as fast as anywhere on the way up.
 * @param soonestOther minutes to the first of the other limits @returns null where one of those comes first
 */
function minutesToCnsDay(asked: AskedDive, plan: DivePlan, po2: number, soonestOther: number): Found | null {
  const { isPastLimit, cns } = asked.entry;
  const leftNow = isPastLimit ? null : 1 - cns.day!;
  const limit = limitMin(po2, 'daily')!;
  const isFar = leftNow !== null && leftNow >= 0 && (limit === Infinity || leftNow * limit >= soonestOther);
  return isFar ? null : minutesToNearCnsDay(asked, plan, leftNow, limit, soonestOther);
}

/** As `minutesToCnsDay`, where it has to be tried. @param leftNow of the clock; null where stops would take of it */
function minutesToNearCnsDay(
  asked: AskedDive,
  plan: DivePlan,
  leftNow: number | null,
  limit: number,
  soonestOther: number,
): Found | null {
  const past = (byMin: number) => pastCnsDay(asked, legsWith(plan, byMin), asked.entry.startMin);
  const pastNow = leftNow === null ? past(0) : -leftNow;
  const shortestMin = -plan.profile.lastLevel.min;
  if (pastNow > 0) {
    if (past(shortestMin) > 0) return { amount: -Infinity, limit: 'cns-day' };
    if (soonestOther <= shortestMin || (soonestOther < 0 && past(soonestOther) <= 0)) return null;
    const amount = increasingRoot(past, shortestMin, Math.min(0, soonestOther), ROOT_TOLERANCE);
    return { amount, limit: 'cns-day' };
  }
  if (limit === Infinity) return null;
  const soonestMin = -pastNow * limit;
  if (soonestMin >= soonestOther) return null;
  const latestMin = Math.min(soonestOther, soonestMin + LONGEST_ADDED_MIN);
  // Until another limit is met, older exposures may leave the window as fast as this one adds to it.
  if (past(latestMin) <= 0) return null;
  const from = past(soonestMin) > 0 ? 0 : soonestMin;
  return { amount: increasingRoot(past, from, latestMin, ROOT_TOLERANCE), limit: 'cns-day' };
}

/** Oxygen pressure at the last level, as the clocks count it. */
function lastPo2Bar(entry: Entry, { profile: { lastLevel } }: DivePlan): number {
  if (entry.loop === null) return po2Bar(entry.o2!, lastLevel.toBar);
  const [leg] = oxygenBreathed([{ ...lastLevel, min: 1 }], entry).legs;
  return leg!.fromBar;
}

/** Minutes longer that what is along lasts, one limit each; none is ever null. */
function suppliesLeft(trip: Trip, entry: Entry, plan: DivePlan, lastBar: number): readonly Found[] {
  if (entry.loop !== null) return loopSupplies(trip, entry);
  const spareL = spareAsPlannedL(trip, entry, entry.o2!, plan);
  return [{ amount: spareL / (entry.diver.surfaceRateLpm * lastBar), limit: 'gas' }];
}

/** As `minutesLeft`, before the infinite amount of a limit that no shorter stay keeps is taken for what it is. */
function minutesLonger(trip: Trip, entry: Entry): Found | null {
  // Past the limit on an earlier level: no time on the last one mends that, and none is left.
  if (entry.levelsPastLimitM.length > 0) return { amount: -Infinity, limit: 'no-stop' };
  const asked = askedDive(trip, entry);
  const plan = planOf(trip, entry);
  const lastBar = plan.profile.lastLevel.toBar;
  const po2 = lastPo2Bar(entry, plan);
  const supplies = suppliesLeft(trip, entry, plan, lastBar);
  // After a dive above 1.6 bar no clock tells how much is left; what is past another limit is past it all the same.
  if (entry.cns.after === null || entry.cns.day === null) {
    const short = supplies.find(({ amount }) => amount < 0);
    const limit = entry.isPastLimit ? 'no-stop' : (short?.limit ?? 'po2');
    return { amount: -Infinity, limit };
  }
  // Required stops take oxygen too, but a dive that is short enough has none.
  const cnsAfter = entry.isPastLimit ? 1 + pastCns(asked, plan.legs) : entry.cns.after;
  const cnsLeftMin = cnsMinutesLeft(cnsAfter, po2, 'single')!;
  const soonest = first([
    entry.unlimited ? null : { amount: entry.noStopMin! - entry.bottomMin, limit: 'no-stop' },
    cnsLeftMin === Infinity ? null : { amount: cnsLeftMin, limit: 'cns' },
    ...supplies,
  ])!;
  const day = first([soonest, minutesToCnsDay(asked, plan, po2, soonest.amount)])!;
  const found = entry.loop === null ? day : first([day, minutesToBailOut(trip, entry, day.amount)])!;
  // No stay at the last level is shorter than none: its limit was met on arrival already.
  const isGone = found.amount < -plan.profile.lastLevel.min;
  return isGone ? { ...found, amount: -Infinity } : found;
}

/** What is passed by where the dive goes: above 1.6 bar no clock tells anything, deeper than a limit no stay is short enough. */
function passedAtDepth(trip: Trip, entry: Entry): Found | null {
  if (isAbovePo2(entry.po2Bar!, LAST_LIMIT_BAR)) return { amount: -Infinity, limit: 'po2' };
  const limit = passedDepth(trip, entry);
  return limit && { amount: -Infinity, limit };
}

/** The minutes of a room, and the limit they are measured to. */
export type MinutesRoom = Pick<Room, 'min' | 'minLimit'>;

function minutesOf(found: Found | null): MinutesRoom {
  return {
    min: found === null || found.amount === -Infinity ? null : found.amount,
    minLimit: found?.limit ?? null,
  };
}

/**
 * Minutes of room to the limits that time decides: no-stop time, both CNS clocks, gas. Whether the dive may go to its
 * depth at all is not asked.
 * @returns as `roomMinutes`
 * Source: as `roomMinutes`.
 */
export function minutesLeft(trip: Trip, entry: Entry): MinutesRoom {
  return minutesOf(entry.isMade ? minutesLonger(trip, entry) : null);
}

/**
 * Minutes of room alone, cheap enough for every entry of a trip at once: how much longer the last level could be.
 * @returns minutes and the limit met first; negative the exact minutes by which it must be shorter to keep every
 *   limit; both null where none is in reach; no minutes, but the limit, where one is passed and no shorter stay would
 *   keep it (the depth is too great, or it was passed on arrival)
 * Source: each limit as in its module; closed forms but for the 24 h clock near its end, found to 1e-6 min.
 */
export function roomMinutes(trip: Trip, entry: Entry): MinutesRoom {
  if (!entry.isMade) return minutesOf(null);
  return minutesOf(passedAtDepth(trip, entry) ?? minutesLonger(trip, entry));
}

/** The deepest shift between two at which nothing is past; null where none was found. `past` need not rise. */
function deepestKept(past: (byM: number) => number, highestM: number, lowestM: number): number | null {
  if (past(lowestM) <= 0) return lowestM;
  if (past(highestM) <= 0) return increasingRoot(past, highestM, lowestM, ROOT_TOLERANCE);
  // Only a diver who begins past the limit gives off gas by going deeper: the tissues that load set an end to it.
  let below = lowestM;
  for (let tried = 1; tried < DEPTHS_TRIED; tried += 1) {
    const byM = lowestM - ((lowestM - highestM) * tried) / DEPTHS_TRIED;
    if (past(byM) <= 0) return increasingRoot(past, byM, below, ROOT_TOLERANCE);
    below = byM;
  }
  return null;
}

/** Metres deeper, every level shifted alike; null where no limit is in reach of such a dive. */
function metresDeeper(trip: Trip, entry: Entry): Found | null {
  const depths = depthLimit(trip, entry);
  // Once an exposure before it is unknown, no dive is known to keep the clocks.
  if (entry.from.cns === null) return { amount: -Infinity, limit: 'po2' };
  const asked = askedDive(trip, entry);
  const { around } = planOf(trip, entry);
  const shape = shapeOf(entry);
  const highestM = SHALLOWEST_M - Math.min(...(shape.legs ?? [shape]).map((level) => level.depthM));
  // The first level must stay long enough for the descent to it; deeper than that there is no such dive.
  const firstLevel = shape.legs?.[0] ?? { depthM: shape.depthM, min: shape.bottomMin };
  const reachableM = (firstLevel.min - 1e-9) * around.descentMPerMin - firstLevel.depthM;
  let found: Found | null = depths.amount <= reachableM ? depths : null;
  let lowestM = Math.min(depths.amount, reachableM);
  // Shallow enough for its depth limit, a level would lie above the water.
  if (lowestM < highestM) return { amount: -Infinity, limit: depths.limit };

  const planAt = lastKept((byM: number) => newDivePlan(deeper(shape, byM), around));
  const limits: readonly (readonly [RoomLimit, (byM: number) => number])[] = [
    ['cns', (byM) => pastCns(asked, planAt(byM).legs)],
    ['cns-day', (byM) => pastCnsDay(asked, planAt(byM).legs, entry.startMin)],
    entry.loop === null
      ? ['gas', (byM) => -spareAsPlannedL(trip, entry, entry.o2!, planAt(byM))]
      : ['bail-out', (byM) => shortOfBailOutL(trip, entry, planAt(byM))],
    // Last, as it alone may be kept deeper down and not above: what the others leave is searched.
    ['no-stop', (byM) => pastNoStopBar(asked, planAt(byM))],
  ];
  for (const [limit, past] of limits) {
    // A diver who begins past the limit may keep it deeper down, where more is given off: nobody is sent there.
    const untilM = limit === 'no-stop' && entry.isPastLimit ? Math.min(0, lowestM) : lowestM;
    const keptM = deepestKept(past, highestM, untilM);
    if (keptM === null) return { amount: -Infinity, limit };
    if (keptM === lowestM) continue;
    lowestM = keptM;
    found = { amount: keptM, limit };
  }
  return found;
}

/** Keeps what was asked last: each limit asks the same depths first. */
function lastKept<T>(make: (byM: number) => T): (byM: number) => T {
  let held: { readonly byM: number; readonly made: T } | null = null;
  return (byM) => {
    if (held?.byM !== byM) held = { byM, made: make(byM) };
    return held.made;
  };
}

/**
 * The interval that nitrogen needs, in closed form: each compartment tells its own, on each way up.
 * @param othersMin what everything else needs
 */
function intervalForNoStop(
  { trip, entry, n2, surfaceLimits: limits }: AskedDive,
  plan: DivePlan,
  othersMin: number,
): number {
  const surface = atSurface(trip, surroundingsOf(trip).column.surfaceBar);
  // At several heights each compartment is followed through all of them.
  if (surface.stays.some(({ toMin }) => toMin > entry.from.atMin)) {
    const highest = limits.map((limit, i) =>
      Math.min(...waysUp(plan).map(({ decay, uptake }) => (limit - n2 * uptake[i]!) / decay[i]!)),
    );
    const fallen = fallenBelow(entry.from, highest, surface);
    if ('never' in fallen) return Infinity;
    return fallen.compartment === null ? -Infinity : fallen.atMin - entry.from.atMin;
  }
  const airBar = AIR_N2 * inspiredBar(surface.homeBar);
  let neededMin = -Infinity;
  let keptUntilMin = Infinity;
  for (const toEnd of waysUp(plan)) {
    for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
      const highestBefore = (limits[i]! - n2 * toEnd.uptake[i]!) / toEnd.decay[i]!;
      const held = entry.from.tensions[i]!;
      const isTooMuch = held > highestBefore;
      if (isTooMuch && highestBefore <= airBar) return Infinity;
      if (!isTooMuch && highestBefore >= airBar) continue;
      const min = Math.log((held - airBar) / (highestBefore - airBar)) / RATES_PER_MIN[i]!;
      // What oxygen-rich gas left below rest rises to it again: such a compartment has the dive soon or never.
      if (isTooMuch) neededMin = Math.max(neededMin, min);
      else keptUntilMin = Math.min(keptUntilMin, min);
    }
  }
  const plannedMin = Math.max(0, entry.startMin - entry.from.atMin);
  return Math.max(neededMin, othersMin, plannedMin) > keptUntilMin + SAME_MIN ? Infinity : neededMin;
}

/** The interval that the single-exposure clock needs to leave place for the dive's own share. */
function intervalForCns(asked: AskedDive, plan: DivePlan): number {
  const held = asked.entry.from.cns!;
  const highestBefore = asked.entry.cns.before! - pastCns(asked, plan.legs);
  if (held <= highestBefore) return -Infinity;
  return highestBefore <= 0 ? Infinity : CNS_HALF_TIME_MIN * Math.log2(held / highestBefore);
}

/**
 * The interval that the rolling 24 h clock needs: the sooner the dive, the more of the dives before lies in one window
 * with it.
 */
function intervalForCnsDay(asked: AskedDive, plan: DivePlan): number {
  const { entry } = asked;
  const intervalMin = entry.startMin - entry.from.atMin;
  const past = (byMin: number) => pastCnsDay(asked, plan.legs, entry.startMin - byMin);
  if (past(intervalMin) <= 0) return -Infinity;
  // A day after the last of them nothing of the dives before counts any more.
  const latestMin = intervalMin - DAY_MIN - Math.max(0, intervalMin);
  if (past(latestMin) > 0) return Infinity;
  return intervalMin - increasingRoot(past, latestMin, intervalMin, ROOT_TOLERANCE);
}

/** An interval that a limit needs before a dive, minutes: Infinity where none would do, -Infinity where none matters. */
export interface IntervalNeeded {
  readonly min: number;
  readonly limit: RoomLimit;
}

/**
 * The intervals each limit needs before a dive, in closed form but for the 24 h clock, found to 1e-6 min.
 * @param entry one that is made, after another, its clocks known
 * @returns in order of the limits; the last, never above 0, is the surfacing of the dive before
 * Source: Haldane's solution at the surface for t; the clocks as in core/oxygen.
 */
export function intervalsNeeded(trip: Trip, entry: Entry): readonly IntervalNeeded[] {
  const asked = askedDive(trip, entry);
  const plan = planOf(trip, entry);
  const isShort = entry.loop === null && spareAsPlannedL(trip, entry, entry.o2!, plan) < 0;
  const loopShort = entry.loop === null ? null : loopShortage(trip, entry, plan);
  const depth = passedDepth(trip, entry);
  const cnsMin = intervalForCns(asked, plan);
  const cnsDayMin = intervalForCnsDay(asked, plan);
  return [
    // No interval makes a dive shallower, or gives it gas.
    ...(depth === null ? [] : [{ min: Infinity, limit: depth }]),
    ...(isShort ? [{ min: Infinity, limit: 'gas' as const }] : []),
    ...(loopShort === null ? [] : [{ min: Infinity, limit: loopShort }]),
    { min: intervalForNoStop(asked, plan, Math.max(cnsMin, cnsDayMin)), limit: 'no-stop' },
    { min: cnsMin, limit: 'cns' },
    { min: cnsDayMin, limit: 'cns-day' },
    { min: entry.intervalMin! < 0 ? 0 : -Infinity, limit: 'interval' },
  ];
}

/** How much sooner the dive could start; null where no interval matters. */
function minutesEarlier(trip: Trip, entry: Entry): Found | null {
  if (entry.intervalMin === null) return null;
  let most: IntervalNeeded | null = null;
  for (const each of intervalsNeeded(trip, entry)) {
    if (each.min > (most?.min ?? -Infinity)) most = each;
  }
  return most && { amount: entry.intervalMin - most.min, limit: most.limit };
}

/**
 * The room of an entry: minutes longer, metres deeper, minutes sooner, each with the limit met first. Negative it is
 * the exact amount by which the dive must be shorter, shallower or later to keep every limit; null with a limit where
 * no such dive exists, and with the limit 'po2' where a clock is unknown, as PO2 passed 1.6 bar here or before.
 * @param trip the document @param entry of its ledger
 * @returns closed form where there is one, else found to 1e-6 on the side that keeps the limits
 * Source: CONVENTIONS, "Room"; each limit as in its module.
 */
export function roomOf(trip: Trip, entry: Entry): Room {
  const metres = entry.isMade ? metresDeeper(trip, entry) : null;
  return {
    ...roomInTime(trip, entry),
    m: metres === null || metres.amount === -Infinity ? null : metres.amount,
    mLimit: metres?.limit ?? null,
  };
}

/** The same without the metres, which take most of the work. Source: as `roomOf`. */
export function roomInTime(trip: Trip, entry: Entry): Omit<Room, 'm' | 'mLimit'> {
  let earlier: Found | null = null;
  if (entry.isMade) {
    earlier = entry.cns.after === null ? { amount: -Infinity, limit: 'po2' } : minutesEarlier(trip, entry);
  }
  return {
    ...roomMinutes(trip, entry),
    earlierMin: earlier === null || earlier.amount === -Infinity ? null : earlier.amount,
    earlierLimit: earlier?.limit ?? null,
  };
}
