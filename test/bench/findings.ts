import { cautionsOf } from '../../core/cautions/all';
import { ledger } from '../../core/ledger/ledger';
import type { Entry } from '../../core/ledger/ledger-types';
import { entryWith } from '../../core/ledger/changed-dive';
import { roomMinutes, roomOf } from '../../core/ledger/room';
import { bigTrip } from './big-trip';
import { medianMs, type BenchLine } from './report';

/** A full room is looked for by trying depths: so many times its dive may be reckoned on the way. */
const TRIES = 100;

/** What is found in a ledger, beside the ledger itself: cautions and minutes of all, the whole room of one. */
export async function benchFindings(): Promise<readonly BenchLine[]> {
  const trip = bigTrip(56, 12);
  const of = ledger(trip);
  const count = of.divers.reduce((sum, { entries }) => sum + entries.length, 0);
  const ledgerMs = await medianMs(() => ledger(trip));
  const everyMs = async (visit: (entry: Entry) => void): Promise<number> =>
    medianMs(() => {
      for (const { entries } of of.divers) entries.forEach(visit);
    });
  const roomMs = await everyMs((entry) => void roomOf(trip, entry));
  const againMs = await everyMs(
    (entry) => void entryWith(trip, entry, { depthM: entry.depthM, bottomMin: entry.bottomMin }),
  );
  return [
    {
      what: 'cautions of 56 dives and 12 divers',
      ms: await medianMs(() => cautionsOf({ ...of })),
      floor: 'their ledger from scratch',
      floorMs: ledgerMs,
      atMost: 1,
    },
    {
      what: 'minutes of room of all of them',
      ms: await everyMs((entry) => void roomMinutes(trip, entry)),
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
