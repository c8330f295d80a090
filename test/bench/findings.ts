import { cautionsOf } from '../../core/cautions/all';
import { ledger } from '../../core/ledger/ledger';
import type { Carry, Entry, Ledger } from '../../core/ledger/ledger-types';
import { entryWith, roomMinutes, roomOf } from '../../core/ledger/room';
import { bigTrip } from './big-trip';
import { medianMs, type BenchLine } from './report';

/** A full room is looked for by trying depths: so many times its dive may be reckoned on the way. */
const TRIES = 100;

function forEachEntry(of: Ledger, visit: (carry: Carry, entry: Entry) => void): void {
  for (const { start, entries, carries } of of.divers) {
    entries.forEach((entry, i) => {
      visit(carries[i - 1] ?? start, entry);
    });
  }
}

/** What is found in a ledger, beside the ledger itself: cautions and minutes of all, the whole room of one. */
export async function benchFindings(): Promise<readonly BenchLine[]> {
  const trip = bigTrip(56, 12);
  const of = ledger(trip);
  const count = of.divers.reduce((sum, { entries }) => sum + entries.length, 0);
  const ledgerMs = await medianMs(() => ledger(trip));
  const everyMs = async (visit: (carry: Carry, entry: Entry) => void): Promise<number> =>
    medianMs(() => {
      forEachEntry(of, visit);
    });
  const roomMs = await everyMs((carry, entry) => void roomOf(trip, carry, entry));
  const againMs = await everyMs(
    (carry, entry) =>
      void entryWith(trip, carry, entry, { depthM: entry.depthM, bottomMin: entry.bottomMin }),
  );
  return [
    {
      what: 'cautions of 56 dives and 12 divers',
      ms: await medianMs(() => cautionsOf(of)),
      floor: 'their ledger from scratch',
      floorMs: ledgerMs,
      atMost: 1,
    },
    {
      what: 'minutes of room of all of them',
      ms: await everyMs((carry, entry) => void roomMinutes(trip, carry, entry)),
      floor: 'their ledger from scratch',
      floorMs: ledgerMs,
      atMost: 1,
    },
    {
      what: 'the whole room of one dive of one diver',
      ms: roomMs / count,
      floor: 'that dive reckoned once',
      floorMs: againMs / count,
      atMost: TRIES,
    },
  ];
}
