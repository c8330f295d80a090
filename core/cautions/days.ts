import { dayNumber } from '../words/calendar';
import type { DiverLedger, Entry, LedgerDay } from '../ledger/ledger-types';

/** A day of one diver with its dives. */
export interface DayOfDives {
  readonly line: LedgerDay;
  /** Days since 1970-01-01. */
  readonly number: number;
  readonly made: readonly Entry[];
}

/** The days of a ledger, each with the dives that are made on it; in order, as both lists are. */
export function daysOfDives({ entries, days }: DiverLedger): readonly DayOfDives[] {
  const found: { line: LedgerDay; number: number; made: Entry[] }[] = [];
  for (const entry of entries) {
    const number = dayNumber(entry.startMin);
    let day = found[found.length - 1];
    if (day?.number !== number) found.push((day = { line: days[found.length]!, number, made: [] }));
    if (entry.isMade) day.made.push(entry);
  }
  return found;
}
