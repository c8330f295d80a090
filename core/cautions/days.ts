import { dayNumber } from '../words/calendar';
import type { DiverLedger, Entry, LedgerDay } from '../ledger/ledger-types';

/** A day of one diver with its dives. */
export interface DayOfDives {
  readonly line: LedgerDay;
  /** Days since 1970-01-01. */
  readonly number: number;
  readonly made: readonly Entry[];
  /** Dives of the day that were brought to the trip; with or without a known mix, they were dived. */
  readonly brought: readonly Entry[];
}

const known = new WeakMap<DiverLedger, readonly DayOfDives[]>();

/**
 * The days of a ledger, each with the dives that are made on it; in order, as both lists are. Put together once for a
 * ledger, as several rules ask.
 */
export function daysOfDives(of: DiverLedger): readonly DayOfDives[] {
  let days = known.get(of);
  if (days === undefined) known.set(of, (days = dividedInDays(of)));
  return days;
}

const NONE: readonly Entry[] = [];

function dividedInDays({ earlier, entries, days }: DiverLedger): readonly DayOfDives[] {
  const found: { line: LedgerDay; number: number; made: Entry[]; brought: readonly Entry[] }[] = [];
  for (const entry of entries) {
    const number = dayNumber(entry.startMin);
    let day = found[found.length - 1];
    if (day?.number !== number) {
      const brought =
        earlier.length === 0 ? NONE : earlier.filter(({ startMin }) => dayNumber(startMin) === number);
      found.push((day = { line: days[found.length]!, number, made: [], brought }));
    }
    if (entry.isMade) day.made.push(entry);
  }
  return found;
}
