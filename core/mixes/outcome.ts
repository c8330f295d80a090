import { isAbovePo2 } from '../gas';
import { esotAdvised } from '../oxygen/budgets';
import { planOf } from '../ledger/dive-plan';
import type { DiverLedger, Entry, Ledger, RoomLimit } from '../ledger/ledger-types';
import { minutesLeft, type MinutesRoom } from '../ledger/room';
import type { Id, Mix, Trip } from '../document/types';
import { loopFills, missingPercents, type LoopUse } from './loop-cylinders';
import { isAir } from './stocked-trip';
import { upperMedian, type Outcome } from './undominated';

/** Room may miss 0 by rounding alone, minutes. */
const SAME_MIN = 1e-9;

/** The least room there is, of which dive and by which limit. */
export interface SmallestRoom {
  /** Infinity where nothing limits a dive, -Infinity past a limit without a figure. */
  readonly min: number;
  /** Place of the dive among the trip's; of two alike the first. */
  readonly diveIndex: number;
  readonly limit: RoomLimit | null;
}

export const NO_LIMIT_MET: SmallestRoom = { min: Infinity, diveIndex: -1, limit: null };

/** The lesser of two rooms; of two alike that of the dive that comes first. */
export function smallerRoom(a: SmallestRoom, b: SmallestRoom): SmallestRoom {
  if (a.min !== b.min) return a.min < b.min ? a : b;
  return b.diveIndex !== -1 && b.diveIndex < a.diveIndex ? b : a;
}

/** What one diver's ledger adds to the outcome of a list. */
export interface DiverOutcome {
  /** Dives on which this diver passes a limit, or that no mix reaches. */
  readonly outside: ReadonlySet<Id>;
  readonly smallest: SmallestRoom;
  /** By the trip's dives: how much longer nitrogen would let each open one of this diver be; Infinity for the others. */
  readonly nitrogenRooms: Float64Array;
  /** Infinity where a clock is unknowable. */
  readonly oxygenPeak: number;
}

/**
 * Whether a made dive stays within every limit: no-stop limit (earlier levels too), working PO2, the diver's
 * depth and oxygen ceiling, both CNS clocks, gas. Lung doses are advice, not a limit.
 * @param room of the same entry, by `minutesLeft`
 * Source: CONVENTIONS, "OTU and ESOT": what limits are the CNS clocks and the PO2; each limit as in its module.
 */
export function isWithinLimits(entry: Entry, room: MinutesRoom): boolean {
  const { diver, loop, o2, po2Bar } = entry;
  if (!entry.isMade || po2Bar === null) return false;
  const mayBreathe =
    loop === null
      ? o2 !== null && o2 <= diver.maxO2 + SAME_MIN
      : entry.depthM <= Math.min(loop.diluentModM, loop.bailOutModM) + SAME_MIN;
  return (
    !entry.isPastLimit &&
    (room.min === null ? room.minLimit === null : room.min >= -SAME_MIN) &&
    !isAbovePo2(po2Bar, diver.po2.working) &&
    entry.depthM <= diver.maxDepthM + SAME_MIN &&
    mayBreathe
  );
}

/**
 * Highest share on any oxygen clock of a diver: single-exposure CNS on surfacing, rolling 24 h at its peak,
 * a day's OTU of its allowance, a day's ESOT of what is advised for so many diving days.
 * @returns fraction; Infinity where a clock is unknowable, or a day's allowance used up
 * Source: the clocks and allowances as in core/oxygen.
 */
function oxygenPeakOf(ledger: DiverLedger): number {
  let peak = 0;
  for (const entry of ledger.entries) {
    if (!entry.isMade) continue;
    peak = Math.max(peak, entry.cns.after ?? Infinity, entry.cns.day ?? Infinity);
  }
  const advised = esotAdvised(Math.max(1, ledger.divingDays));
  for (const day of ledger.days) peak = Math.max(peak, otuShare(day.otu, day.otuAllowed), day.esot / advised);
  return peak;
}

/** A day's OTU as a share of its allowance; Infinity where none is left. */
export function otuShare(otu: number, allowed: number): number {
  if (otu === 0) return 0;
  return allowed > 0 ? otu / allowed : Infinity;
}

/**
 * How much longer the last level of a dive could be for nitrogen alone.
 * @returns minutes; Infinity where it never meets the limit; -Infinity where the dive is not made, or past the limit in a
 *   way that no shorter stay would mend
 * Source: CONVENTIONS, "Room"; the no-stop limit as in core/ascent/no-stop-limit.ts.
 */
export function nitrogenRoomMin(trip: Trip, entry: Entry): number {
  if (!entry.isMade || entry.levelsPastLimitM.length > 0) return -Infinity;
  if (entry.unlimited) return Infinity;
  const min = entry.noStopMin! - entry.bottomMin;
  return min < -planOf(trip, entry).profile.lastLevel.min ? -Infinity : min;
}

/**
 * What one diver's ledger adds to the outcome: the definition that the quick fold is held to.
 * @param openIds dives whose nitrogen room counts
 */
export function diverOutcome(trip: Trip, ledger: DiverLedger, openIds: ReadonlySet<Id>): DiverOutcome {
  const outside = new Set<Id>();
  const nitrogenRooms = new Float64Array(trip.dives.length).fill(Infinity);
  const places = new Map(trip.dives.map((dive, index) => [dive.id, index]));
  let smallest = NO_LIMIT_MET;
  ledger.entries.forEach((entry) => {
    const diveIndex = places.get(entry.dive.id)!;
    const room = minutesLeft(trip, entry);
    const isOpen = openIds.has(entry.dive.id);
    // What a loop needs and the list lacks: it is not served, however its dive would go.
    if (!isWithinLimits(entry, room) || (isOpen && missingPercents(trip, entry).length > 0)) {
      outside.add(entry.dive.id);
    }
    // Without a figure a limit is passed that no shorter stay would keep, or there is none.
    const min = room.min ?? (room.minLimit === null ? Infinity : -Infinity);
    smallest = smallerRoom(smallest, { min, diveIndex, limit: room.minLimit });
    if (isOpen) nitrogenRooms[diveIndex] = nitrogenRoomMin(trip, entry);
  });
  return { outside, smallest, nitrogenRooms, oxygenPeak: oxygenPeakOf(ledger) };
}

/**
 * The nitrogen room of the median open dive: of each dive that of whoever has least.
 * @param rooms by the trip's dives @param openPlaces of the open ones
 * @param scratch as long as `openPlaces`; written over
 * @returns minutes, infinite as in `nitrogenRoomMin`; Infinity where no dive is open
 * Source: this project's; `upperMedian`.
 */
export function medianRoomMin(
  rooms: Float64Array,
  openPlaces: readonly number[],
  scratch = new Float64Array(openPlaces.length),
): number {
  for (let i = 0; i < openPlaces.length; i += 1) scratch[i] = rooms[openPlaces[i]!]!;
  return upperMedian(scratch);
}

/** A cylinder that is filled for a dive of a diver. */
export interface FilledFor {
  readonly entry: Entry;
  readonly mix: Mix;
  /** What of a loop it is; null on open circuit. */
  readonly use: LoopUse | null;
}

/**
 * Every fill that the open dives of a diver take: on open circuit one each of the mix that is given, and those of a loop.
 * @param openIds dives whose fills count; null: all
 * Source: `loopFills`; the ledger.
 */
export function filledWith(
  trip: Pick<Trip, 'mixes'>,
  { entries }: Pick<DiverLedger, 'entries'>,
  openIds: ReadonlySet<Id> | null,
): readonly FilledFor[] {
  const counted = entries.filter(({ dive }) => openIds === null || openIds.has(dive.id));
  const loops = loopFills(trip, counted);
  return counted.flatMap((entry): readonly FilledFor[] => {
    const filled = loops.get(entry);
    if (filled !== undefined) return filled.map(({ mix, use }) => ({ entry, mix, use }));
    return entry.mix === null ? [] : [{ entry, mix: entry.mix, use: null }];
  });
}

/**
 * What a trip comes to in the measures by which a stock is judged.
 * @param ledger of the trip with the stock on board @param openIds dives whose fills count @param mixes besides air
 * @returns each figure of `Outcome`
 * Source: this project's measures; each figure from the ledger.
 */
export function outcomeOf(ledger: Ledger, openIds: ReadonlySet<Id>, mixes: number): Outcome {
  const { trip } = ledger;
  const outside = new Set<Id>();
  const rooms = new Float64Array(trip.dives.length).fill(Infinity);
  let smallest = NO_LIMIT_MET;
  let oxygenPeak = 0;
  let cost = 0;
  let fills = 0;
  for (const each of ledger.divers) {
    const outcome = diverOutcome(trip, each, openIds);
    for (const id of outcome.outside) outside.add(id);
    outcome.nitrogenRooms.forEach((min, place) => (rooms[place] = Math.min(rooms[place]!, min)));
    smallest = smallerRoom(smallest, outcome.smallest);
    oxygenPeak = Math.max(oxygenPeak, outcome.oxygenPeak);
    for (const { mix } of filledWith(trip, each, openIds)) {
      cost += mix.costPerFill;
      if (!isAir(mix)) fills += 1;
    }
  }
  const open = trip.dives.flatMap((dive, place) => (openIds.has(dive.id) ? [place] : []));
  return settledOutcome({
    divesWithin: trip.dives.length - outside.size,
    smallestRoomMin: smallest.min,
    nitrogenRoomMin: medianRoomMin(rooms, open),
    cost,
    oxygenPeak,
    fills,
    mixes,
  });
}

function none(value: number): number | null {
  return value === Infinity ? null : value;
}

/** An outcome from running extremes, where infinities stand for figures that do not exist. */
export function settledOutcome(running: {
  readonly [Figure in keyof Outcome]: NonNullable<Outcome[Figure]>;
}): Outcome {
  return {
    ...running,
    smallestRoomMin: none(running.smallestRoomMin),
    nitrogenRoomMin: none(running.nitrogenRoomMin),
    oxygenPeak: none(running.oxygenPeak),
  };
}
