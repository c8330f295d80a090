import { wallDate } from '../trip/clock';
import type { DiverLedger, Entry } from '../trip/ledger-types';

/** The first dive of each day that takes the day's dose past its allowance. */
export function firstOver(
  diverLedger: DiverLedger,
  isOver: (entry: Entry, date: string) => boolean,
): readonly { readonly entry: Entry; readonly date: string }[] {
  const found = new Map<string, Entry>();
  for (const entry of diverLedger.entries) {
    const date = wallDate(entry.startMin);
    if (entry.isMade && !found.has(date) && isOver(entry, date)) found.set(date, entry);
  }
  return [...found].map(([date, entry]) => ({ entry, date }));
}
