import { isAbovePo2 } from '../gas';
import { esotAdvised } from '../oxygen/budgets';
import type { DiverLedger, Entry, Ledger } from '../ledger/ledger-types';
import { minutesLeft, type MinutesRoom } from '../ledger/room';
import type { Id, Trip } from '../document/types';
import { isAir } from './stocked-trip';
import type { Outcome } from './undominated';

/** Room may miss 0 by rounding alone, minutes. */
const SAME_MIN = 1e-9;

/** What one diver's ledger adds to the outcome of a list. */
export interface DiverOutcome {
  /** Dives on which this diver passes a limit, or that no mix reaches. */
  readonly outside: ReadonlySet<Id>;
  /** Infinity where nothing limits a dive. */
  readonly smallestRoomMin: number;
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
  const { diver, o2, po2Bar } = entry;
  if (!entry.isMade || o2 === null || po2Bar === null) return false;
  return (
    !entry.isPastLimit &&
    (room.min === null ? room.minLimit === null : room.min >= -SAME_MIN) &&
    !isAbovePo2(po2Bar, diver.po2.working) &&
    entry.depthM <= diver.maxDepthM + SAME_MIN &&
    o2 <= diver.maxO2 + SAME_MIN
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

/** What one diver's ledger adds to the outcome: the definition that the quick fold is held to. */
export function diverOutcome(trip: Trip, ledger: DiverLedger): DiverOutcome {
  const outside = new Set<Id>();
  let smallestRoomMin = Infinity;
  ledger.entries.forEach((entry) => {
    const room = minutesLeft(trip, entry);
    if (!isWithinLimits(entry, room)) outside.add(entry.dive.id);
    if (room.min !== null) smallestRoomMin = Math.min(smallestRoomMin, room.min);
    // No figure, as a limit is passed that no shorter stay would keep.
    else if (room.minLimit !== null) smallestRoomMin = -Infinity;
  });
  return { outside, smallestRoomMin, oxygenPeak: oxygenPeakOf(ledger) };
}

/**
 * What a trip comes to in the measures by which a stock is judged.
 * @param ledger of the trip with the stock on board @param openIds dives whose fills count
 * @returns dives within every limit, smallest room, highest oxygen share, cost, fills of anything but air
 * Source: this project's measures; each figure from the ledger.
 */
export function outcomeOf(ledger: Ledger, openIds: ReadonlySet<Id>): Outcome {
  const outside = new Set<Id>();
  let smallestRoomMin = Infinity;
  let oxygenPeak = 0;
  let cost = 0;
  let fills = 0;
  for (const each of ledger.divers) {
    const outcome = diverOutcome(ledger.trip, each);
    for (const id of outcome.outside) outside.add(id);
    smallestRoomMin = Math.min(smallestRoomMin, outcome.smallestRoomMin);
    oxygenPeak = Math.max(oxygenPeak, outcome.oxygenPeak);
    for (const { mix, dive } of each.entries) {
      if (mix === null || !openIds.has(dive.id)) continue;
      cost += mix.costPerFill;
      if (!isAir(mix)) fills += 1;
    }
  }
  return settledOutcome(ledger.trip.dives.length - outside.size, smallestRoomMin, oxygenPeak, cost, fills);
}

/** An outcome from running extremes, where infinities stand for figures that do not exist. */
export function settledOutcome(
  divesWithin: number,
  smallestRoomMin: number,
  oxygenPeak: number,
  cost: number,
  fills: number,
): Outcome {
  return {
    divesWithin,
    smallestRoomMin: smallestRoomMin === Infinity ? null : smallestRoomMin,
    oxygenPeak: oxygenPeak === Infinity ? null : oxygenPeak,
    cost,
    fills,
  };
}
