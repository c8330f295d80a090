import { otuAllowedToday } from '../oxygen/budgets';
import { AIR_N2, inspiredBar } from '../tissues/compartments';
import type { Lanes } from '../tissues/affine-map';
import { effectiveDive, makesDive } from '../document/as-dived';
import { diverOn } from '../document/gas-rate';
import { dayNumber, wallDate, type WallMin } from '../words/calendar';
import { isOneWater, surroundingsAt } from '../document/waters';
import { atSurface, fallenBelow, type AtSurface } from './at-surface';
import { climbViews } from './climb-views';
import { divePlan } from './dive-plan';
import { step } from './entry';
import { surfaceLimits } from './nitrogen-outcome';
import type { FoldContext } from './fold-context';
import { flightViews } from './flight-views';
import type { Dived } from './flying';
import type { Carry, DiverLedger, Entry, Ledger, LedgerDay } from './ledger-types';
import { mixFor } from './mix-choice';
import { startOf, type Start } from './start';
import type { Diver, Trip } from '../document/types';
import { surroundingsOf } from '../profile';
import { isSame } from '../same';

/**
 * A diver counts as clear when every compartment is within this share of its limit from rest.
 * Source: a convention of this project; a percent is the finest that the bands show.
 */
export const CLEAR_SHARE = 0.01;

/**
 * The moment from which every compartment stays within 1 % of its limit from rest.
 * @param carry on surfacing from the last dive @param limits tolerated at the trip's own height, bar
 * @returns minutes of wall-clock time; the surfacing itself where that is so already
 * Source: Haldane's solution at the surface for t; the 1 % is this project's.
 */
function clearAtMin(carry: Carry, surface: AtSurface, limits: Lanes): WallMin | null {
  const restBar = AIR_N2 * inspiredBar(surface.homeBar);
  const bounds = limits.map((limit) => restBar + CLEAR_SHARE * (limit - restBar));
  const fallen = fallenBelow(carry, bounds, surface);
  return 'never' in fallen ? null : fallen.atMin;
}

/** A dive to which a day and its oxygen belong. */
function dayOf(entry: Entry): number {
  return dayNumber(entry.startMin);
}

/** Higher of two peaks of the rolling clock; unknown where one of them is. */
function higher(a: number | null, b: number | null): number | null {
  return a === null || b === null ? null : Math.max(a, b);
}

/** What of an earlier ledger was taken over: so many of its first entries. */
interface TakenOver {
  readonly ledger: DiverLedger;
  readonly entries: number;
}

/** The day of entries `from` to `to`, with its allowance as its first dive finds it. */
function dayLine({ earlier, entries }: Dived, from: number, to: number, firstDay: number): LedgerDay {
  const first = entries[from]!;
  const last = entries[to - 1]!;
  const day = dayOf(first);
  let taken = 0;
  for (const dose of first.from.doses) if (dose.day < day) taken += dose.otu;
  let dives = 0;
  let bottomMin = 0;
  let cnsDayPeak: number | null = 0;
  for (const brought of earlier) {
    if (brought.isMade && dayOf(brought) === day) cnsDayPeak = higher(cnsDayPeak, brought.cns.day);
  }
  for (let i = from; i < to; i += 1) {
    const entry = entries[i]!;
    if (!entry.isMade) continue;
    dives += 1;
    bottomMin += entry.bottomMin;
    cnsDayPeak = higher(cnsDayPeak, entry.cns.day);
  }
  return {
    date: wallDate(first.startMin),
    dives,
    bottomMin,
    otu: last.otu.day,
    otuAllowed: otuAllowedToday(Math.max(1, day - firstDay + 1), taken),
    cnsDayPeak,
    esot: last.esot.day,
  };
}

/** The line of a day that is what it was, to its last dive; null where it is not. */
function dayTaken(known: TakenOver | null, index: number, day: number, to: number): LedgerDay | null {
  if (known === null || to > known.entries) return null;
  const next = known.ledger.entries[to];
  return next !== undefined && dayOf(next) === day ? null : known.ledger.days[index]!;
}

/**
 * The days of one diver's ledger on which they dive. Allowances count from the first day on which a dive is made,
 * brought ones included. A day of which every entry was taken over is taken over too.
 */
function daysOf(dived: Dived, known: TakenOver | null): readonly LedgerDay[] {
  const { earlier, entries } = dived;
  const firstMade = earlier.find((entry) => entry.isMade) ?? entries.find((entry) => entry.isMade);
  const firstDay = firstMade === undefined ? Infinity : dayOf(firstMade);
  const days: LedgerDay[] = [];
  let from = 0;
  while (from < entries.length) {
    const day = dayOf(entries[from]!);
    let to = from + 1;
    while (to < entries.length && dayOf(entries[to]!) === day) to += 1;
    days.push(dayTaken(known, days.length, day, to) ?? dayLine(dived, from, to, firstDay));
    from = to;
  }
  return days;
}

function finished(
  trip: Trip,
  diver: Diver,
  { earlier, carry }: Start,
  entries: readonly Entry[],
  known: TakenOver | null,
  surface: AtSurface,
): DiverLedger {
  const { column } = surroundingsOf(trip);
  const divingDays = new Set<number>();
  for (const entry of earlier) divingDays.add(dayOf(entry));
  for (const entry of entries) if (entry.isMade) divingDays.add(dayOf(entry));
  const last = entries[entries.length - 1]?.after ?? carry;
  const dived = { earlier, entries };
  const flight = flightViews(trip, dived, last, diver.gradient.high);
  return {
    diver,
    earlier,
    start: carry,
    entries,
    days: daysOf(dived, known),
    divingDays: divingDays.size,
    flight,
    flyAfterMin: flight?.clearMin ?? null,
    climbs: climbViews(trip, dived, carry, diver.gradient.high),
    clearAtMin:
      last.exposures.length === 0
        ? null
        : clearAtMin(last, surface, surfaceLimits(column, diver.gradient.high)),
  };
}

function isSameStart(trip: Trip, diver: Diver, previous: DiverLedger, before: Trip): boolean {
  const isSamePlace = before.water === trip.water && before.events === trip.events;
  return previous.diver === diver && isSamePlace && before.settings === trip.settings;
}

/** Earlier dives name mixes and sites of the trip, so a diver who brings any is folded afresh when those change. */
function bringsDives(diver: Diver): boolean {
  return (diver.before?.length ?? 0) > 0;
}

/**
 * The ledger of one diver: the fold of their dives over the days.
 * @param previous the ledger of an earlier version of the trip: entries with the same dive, mix, diver and carry (the
 *   same objects) are taken over, those after a changed dive too where it leaves the diver with what it left before; the
 *   result equals the fold from scratch
 * @param surface where the party breathes between dives
 * Source: CONVENTIONS, "The order of reckoning"; what it is built of is named in entry.ts.
 */
export function diverLedger(
  trip: Trip,
  diver: Diver,
  previous?: { readonly ledger: DiverLedger; readonly trip: Trip },
  surface: AtSurface = atSurface(trip, surroundingsOf(trip).column.surfaceBar),
): DiverLedger {
  const hasSameMixes = previous !== undefined && previous.trip.mixes === trip.mixes;
  const hasSameSites = previous !== undefined && previous.trip.sites === trip.sites;
  const reusable =
    previous &&
    isSameStart(trip, diver, previous.ledger, previous.trip) &&
    ((hasSameMixes && hasSameSites) || !bringsDives(diver))
      ? previous.ledger
      : null;
  const context: FoldContext = { trip, diver, surface };
  // Asked at every dive of every diver, and on most trips the same for all.
  const everywhere = isOneWater(trip) ? surroundingsOf(trip) : null;
  const start = reusable
    ? { earlier: reusable.earlier, carry: reusable.start }
    : startOf(trip, diver, surroundingsOf(trip));
  const entries: Entry[] = [];
  let { carry } = start;
  let taken = 0;
  let isPrefix = reusable !== null;
  for (const dive of trip.dives) {
    if (!makesDive(dive, diver.id)) continue;
    const before = reusable?.entries[entries.length];
    const isSameDive =
      before?.dive === dive &&
      (hasSameSites || surroundingsAt(previous!.trip, dive) === surroundingsAt(trip, dive));
    const isUntouched = isSameDive && before.from === carry;
    let entry: Entry;
    // On the same mixes the same diver takes the same: nothing has to be asked of a dive that nobody touched.
    if (isUntouched && hasSameMixes) {
      entry = before;
    } else {
      const around = everywhere ?? surroundingsAt(trip, dive);
      const effective = effectiveDive(dive, diver);
      // A dive made on a gas that none of the trip's mixes stands for is not left out: its cylinder tells.
      const mix = mixFor(dive, diver, trip, around) ?? effective.analysedMix;
      const known = isSameDive && before.mix === mix ? before : null;
      if (isUntouched && known !== null) {
        entry = known;
      } else {
        const dated = diverOn(diver, effective.startMin);
        const mine = dated === diver ? context : { ...context, diver: dated };
        entry = step(mine, carry, dive, effective, mix, divePlan(effective.shape, around), known);
        // A note, a turn pressure or what another diver did: who comes out of the dive as before goes on as before.
        if (!isSameDive && before !== undefined && isSame(entry.after, before.after)) {
          entry = { ...entry, after: before.after };
        }
      }
    }
    isPrefix &&= entry === before;
    if (isPrefix) taken += 1;
    entries.push(entry);
    carry = entry.after;
  }
  if (isPrefix && reusable!.entries.length === entries.length) return reusable!;
  return finished(trip, diver, start, entries, reusable && { ledger: reusable, entries: taken }, surface);
}

/**
 * The ledgers of the whole party.
 * @param trip a document that `readTrip` or `checkTrip` has passed
 * @param previous the ledger of an earlier version of the same trip, to take up again from
 * @returns one ledger a diver, in the order of the party; divers do not depend on each other
 * Source: as `diverLedger`.
 */
export function ledger(trip: Trip, previous?: Ledger): Ledger {
  const surface = atSurface(trip, surroundingsOf(trip).column.surfaceBar);
  const known = new Map(previous?.divers.map((each) => [each.diver.id, each]));
  return {
    trip,
    divers: trip.party.map((diver) => {
      const mine = known.get(diver.id);
      return diverLedger(trip, diver, mine && { ledger: mine, trip: previous!.trip }, surface);
    }),
  };
}
