import { otuAllowedToday } from '../oxygen/budgets';
import { AIR_N2, COMPARTMENT_COUNT, inspiredBar, RATES_PER_MIN } from '../tissues/compartments';
import type { AffineMap, Lanes } from '../tissues/affine-map';
import { effectiveDive, makesDive } from '../document/as-dived';
import { diverOn } from '../document/gas-rate';
import { dayNumber, wallDate, type WallMin } from '../words/calendar';
import { divePlan } from './dive-plan';
import { step, surfaceLimits, type FoldContext } from './entry';
import { flyAfterMin } from './flying';
import type { Carry, DiverLedger, Entry, Ledger, LedgerDay } from './ledger-types';
import { mixFor } from './mix-choice';
import { startOf, type Start } from './start';
import type { Diver, Trip } from '../document/types';
import { surroundingsOf } from '../profile';

/**
 * A diver counts as clear when every compartment is within this share of its limit from rest.
 * Source: a convention of this project; a percent is the finest that the bands show.
 */
export const CLEAR_SHARE = 0.01;

/**
 * The moment from which every compartment stays within 1 % of its limit from rest.
 * @param carry on surfacing from the last dive @param limits tolerated at the surface, bar
 * @returns minutes of wall-clock time; the surfacing itself where that is so already
 * Source: Haldane's solution at the surface for t; the 1 % is this project's.
 */
function clearAtMin(carry: Carry, restBar: number, limits: Lanes): WallMin {
  let longest = 0;
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
    const allowed = CLEAR_SHARE * (limits[i]! - restBar);
    const excess = carry.tensions[i]! - restBar;
    if (excess > allowed) longest = Math.max(longest, Math.log(excess / allowed) / RATES_PER_MIN[i]!);
  }
  return carry.atMin + longest;
}

/** A dive to which a day and its oxygen belong. */
function dayOf(entry: Entry): number {
  return dayNumber(entry.startMin);
}

/** Higher of two peaks of the rolling clock; unknown where one of them is. */
function higher(a: number | null, b: number | null): number | null {
  return a === null || b === null ? null : Math.max(a, b);
}

/**
 * The days of one diver's ledger on which they dive, with the day's allowance as its first dive finds it. Allowances
 * count from the first day on which a dive is made, brought ones included.
 */
function daysOf(earlier: readonly Entry[], entries: readonly Entry[]): readonly LedgerDay[] {
  const days: { -readonly [K in keyof LedgerDay]: LedgerDay[K] }[] = [];
  const firstMade = earlier.find((entry) => entry.isMade) ?? entries.find((entry) => entry.isMade);
  const firstDay = firstMade === undefined ? Infinity : dayOf(firstMade);
  let current = -1;
  for (const entry of entries) {
    const day = dayOf(entry);
    if (day !== current) {
      const taken = entry.from.doses
        .filter((dose) => dose.day < day)
        .reduce((sum, dose) => sum + dose.otu, 0);
      days.push({
        date: wallDate(entry.startMin),
        dives: 0,
        bottomMin: 0,
        otu: 0,
        otuAllowed: otuAllowedToday(Math.max(1, day - firstDay + 1), taken),
        cnsDayPeak: earlier
          .filter((brought) => brought.isMade && dayOf(brought) === day)
          .reduce<number | null>((peak, { cns }) => higher(peak, cns.day), 0),
        esot: 0,
      });
      current = day;
    }
    const line = days[days.length - 1]!;
    line.otu = entry.otu.day;
    line.esot = entry.esot.day;
    if (!entry.isMade) continue;
    line.dives += 1;
    line.bottomMin += entry.bottomMin;
    line.cnsDayPeak = higher(line.cnsDayPeak, entry.cns.day);
  }
  return days;
}

function finished(
  trip: Trip,
  diver: Diver,
  { earlier, carry }: Start,
  entries: readonly Entry[],
): DiverLedger {
  const { column } = surroundingsOf(trip);
  const made = entries.filter((entry) => entry.isMade);
  const last = entries[entries.length - 1]?.after ?? carry;
  return {
    diver,
    earlier,
    start: carry,
    entries,
    days: daysOf(earlier, entries),
    divingDays: new Set([...earlier, ...made].map(dayOf)).size,
    flyAfterMin: flyAfterMin({ earlier, entries }),
    clearAtMin:
      made.length === 0 && !earlier.some((entry) => entry.isMade)
        ? null
        : clearAtMin(
            last,
            AIR_N2 * inspiredBar(column.surfaceBar),
            surfaceLimits(column, diver.gradient.high),
          ),
  };
}

function isSameStart(trip: Trip, diver: Diver, previous: DiverLedger, before: Trip): boolean {
  return previous.diver === diver && before.water === trip.water && before.settings === trip.settings;
}

/** Earlier dives name mixes of the trip, so a diver who brings any is folded afresh when the mixes change. */
function mixesMatter(diver: Diver, trip: Trip, before: Trip): boolean {
  return (diver.before?.length ?? 0) > 0 && before.mixes !== trip.mixes;
}

/**
 * The ledger of one diver: the fold of their dives over the days.
 * @param previous the ledger of an earlier version of the trip: its longest prefix with the same dive, mix
 *   and diver (the same objects) is taken over; the result equals the fold from scratch
 * @param intervals maps of surface intervals, shared by a party
 * Source: CONVENTIONS, "The order of reckoning"; what it is built of is named in entry.ts.
 */
export function diverLedger(
  trip: Trip,
  diver: Diver,
  previous?: { readonly ledger: DiverLedger; readonly trip: Trip },
  intervals: Map<number, AffineMap> = new Map(),
): DiverLedger {
  const around = surroundingsOf(trip);
  const reusable =
    previous &&
    isSameStart(trip, diver, previous.ledger, previous.trip) &&
    !mixesMatter(diver, trip, previous.trip)
      ? previous.ledger
      : null;
  const context: FoldContext = { trip, diver, intervals };
  const start = reusable
    ? { earlier: reusable.earlier, carry: reusable.start }
    : startOf(trip, diver, around);
  const entries: Entry[] = [];
  let { carry } = start;
  let isPrefix = reusable !== null;
  for (const dive of trip.dives) {
    if (!makesDive(dive, diver.id)) continue;
    const effective = effectiveDive(dive, diver);
    // A dive made on a gas that none of the trip's mixes stands for is not left out: its cylinder tells.
    const mix = mixFor(dive, diver, trip, around) ?? effective.analysedMix;
    const index = entries.length;
    const before = reusable?.entries[index];
    const known = before?.dive === dive && before.mix === mix ? before : null;
    if (isPrefix && known !== null) {
      entries.push(known);
      carry = known.after;
      continue;
    }
    isPrefix = false;
    const dated = diverOn(diver, effective.startMin);
    const mine = dated === diver ? context : { ...context, diver: dated };
    const entry = step(mine, carry, dive, effective, mix, divePlan(effective.shape, around), known);
    entries.push(entry);
    carry = entry.after;
  }
  if (isPrefix && reusable!.entries.length === entries.length) return reusable!;
  return finished(trip, diver, start, entries);
}

/**
 * The ledgers of the whole party.
 * @param trip a document that `readTrip` or `checkTrip` has passed
 * @param previous the ledger of an earlier version of the same trip, to take up again from
 * @returns one ledger a diver, in the order of the party; divers do not depend on each other
 * Source: as `diverLedger`.
 */
export function ledger(trip: Trip, previous?: Ledger): Ledger {
  const intervals = new Map<number, AffineMap>();
  const known = new Map(previous?.divers.map((each) => [each.diver.id, each]));
  return {
    trip,
    divers: trip.party.map((diver) => {
      const mine = known.get(diver.id);
      return diverLedger(trip, diver, mine && { ledger: mine, trip: previous!.trip }, intervals);
    }),
  };
}
