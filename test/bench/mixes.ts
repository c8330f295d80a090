import { outcomeOf } from '../../core/mixes/outcome';
import { LEANEST_PERCENT, listsOf, PLAIN_REQUEST, RICHEST_PERCENT } from '../../core/mixes/shares';
import { searchStock, type StockAnswer } from '../../core/mixes/stock';
import { openTrip, stockedTrip } from '../../core/mixes/stocked-trip';
import { compareMerits, meritsOf, undominated } from '../../core/mixes/undominated';
import { ledger } from '../../core/ledger/ledger';
import type { Trip } from '../../core/document/types';
import { bigTrip } from './big-trip';
import type { BenchLine } from './report';

/** What to stock is asked while somebody waits. */
const AT_MOST_MS = 500;
const FASTER_BY = 20;

/** The processor's own time: other work on the machine does not count. */
function timed<T>(run: () => T): { readonly ms: number; readonly value: T } {
  const before = process.cpuUsage();
  const value = run();
  const { user, system } = process.cpuUsage(before);
  return { ms: (user + system) / 1000, value };
}

/** The trip anew, so that nothing kept for its objects helps the run that is timed. */
function fresh(trip: Trip): Trip {
  return structuredClone(trip);
}

/** Every share that can be asked for. */
const EVERY_SHARE = {
  ...PLAIN_REQUEST,
  range: { fromPercent: LEANEST_PERCENT, toPercent: RICHEST_PERCENT },
};

function searched(trip: Trip, count: number): StockAnswer {
  const answer = searchStock(trip, { ...EVERY_SHARE, count });
  if (!answer.ok) throw new Error(answer.troubles[0].what);
  return answer.value;
}

/** Best of a few, as what else a machine does only ever adds. */
function quickest<T>(runs: number, run: () => T): { readonly ms: number; readonly value: T } {
  return Array.from({ length: runs }, () => timed(run)).reduce((a, b) => (b.ms < a.ms ? b : a));
}

/** The search beside each list afresh: the same trip with each list on board, through the ledger. */
export async function benchMixes(): Promise<readonly BenchLine[]> {
  const trip = bigTrip(56, 12);
  const request = { ...EVERY_SHARE, count: 3 };
  const search = quickest(5, () => searched(fresh(trip), 3));
  const brute = timed(() => {
    const open = openTrip(fresh(trip), request);
    return listsOf(request, trip.mixes).map((percents) =>
      outcomeOf(ledger(stockedTrip(open, percents)), open.openIds, percents.length),
    );
  });
  // A list with a mix of no use comes to what the shorter one does, with a mix more: it is beaten all the same.
  const merits = brute.value.map(meritsOf);
  const { lists, searched: workedOut, total } = search.value;
  const isSame =
    undominated(merits).length === lists.filter((list) => list.isBest).length &&
    compareMerits(merits.toSorted(compareMerits)[0]!, meritsOf(lists[0]!)) === 0;
  if (!isSame) throw new Error('the search and the lists worked out afresh do not agree');
  const wide = quickest(1, () => searched(bigTrip(56, 30), 4));
  return [
    {
      what: `what to stock, up to 3 of 19 shares, 56 dives, 12 divers, ${workedOut} of ${total} lists to the end`,
      ms: search.ms,
      floor: 'each list afresh, with the same answer',
      floorMs: brute.ms,
      fasterBy: FASTER_BY,
    },
    { what: 'the same', ms: search.ms, floor: 'half a second', floorMs: AT_MOST_MS, atMost: 1 },
    {
      what: `up to 4 of 19 shares, 30 divers, ${wide.value.searched} of ${wide.value.total} lists to the end`,
      ms: wide.ms,
      floor: 'half a second',
      floorMs: AT_MOST_MS,
    },
  ];
}
