/**
 * What to stock, beside evaluating each list afresh, in one run: `npx tsx test/bench/mixes.ts`. The same trip
 * with each list on board, through the ledger, is the floor to be beaten.
 */
import { pathToFileURL } from 'node:url';
import { outcomeOf } from '../../core/mixes/outcome';
import { listsOf, PLAIN_REQUEST } from '../../core/mixes/shares';
import { searchStock } from '../../core/mixes/stock';
import { openTrip, stockedTrip } from '../../core/mixes/stocked-trip';
import { compareMerits, meritsOf, undominated } from '../../core/mixes/undominated';
import { ledger } from '../../core/trip/ledger';
import type { Trip } from '../../core/trip/types';
import { bigTrip } from './big-trip';

/** The trip anew, so that nothing kept for its objects helps the run that is timed. */
function fresh(trip: Trip): Trip {
  return structuredClone(trip);
}

/** Wall time, and the processor's own: the two part where the machine is busy with other work. */
function timed<T>(run: () => T): { readonly ms: number; readonly cpuMs: number; readonly value: T } {
  const start = performance.now();
  const before = process.cpuUsage();
  const value = run();
  const { user, system } = process.cpuUsage(before);
  return { ms: performance.now() - start, cpuMs: (user + system) / 1000, value };
}

/** Prints both times for the 1,140 lists of three, and the search alone for more; false where a mark is missed. */
export function benchMixes(): boolean {
  const trip = bigTrip(56, 12);
  const request = { ...PLAIN_REQUEST, count: 3 };
  // A window that has been open for a minute is warm; so is what is timed.
  for (let i = 0; i < 3; i += 1) searchStock(fresh(bigTrip(20, 4)), request);

  const search = timed(() => searchStock(fresh(trip), request));
  if (!search.value.ok) throw new Error(search.value.troubles[0].what);
  const answer = search.value.value;
  const brute = timed(() => {
    const open = openTrip(fresh(trip), request);
    return listsOf(request).map((percents) => outcomeOf(ledger(stockedTrip(open, percents)), open.openIds));
  });
  const merits = brute.value.map(meritsOf);
  const best = undominated(merits).length;
  const first = merits.toSorted(compareMerits)[0]!;
  const isSame =
    best === answer.lists.filter((list) => list.isBest).length &&
    compareMerits(first, meritsOf(answer.lists[0]!)) === 0;
  const ratio = brute.ms / search.ms;

  console.log(`what to stock, 3 of 20 shares, 56 dives, 12 divers: ${answer.total} lists`);
  console.log(`  search                ${search.ms.toFixed(0)} ms (${search.cpuMs.toFixed(0)} of processor), ${answer.searched} worked out to the end`);
  console.log(`  each list afresh      ${brute.ms.toFixed(0)} ms (${brute.cpuMs.toFixed(0)}), ${ratio.toFixed(1)} times the search`);
  console.log(`  the same answer       ${isSame ? 'yes' : 'NO'}, ${best} lists that nothing beats`);

  const wide = timed(() => searchStock(bigTrip(56, 30), { ...PLAIN_REQUEST, count: 4 }));
  if (!wide.value.ok) throw new Error(wide.value.troubles[0].what);
  const { searched, total } = wide.value.value;
  console.log(`  4 shares, 30 divers   ${wide.ms.toFixed(0)} ms (${wide.cpuMs.toFixed(0)}), ${searched} of ${total} lists worked out to the end`);
  return isSame && search.ms < 500 && ratio >= 20;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href && !benchMixes()) process.exitCode = 1;
