import type { Trip } from '../../core/document/types';
import { cheapestPlan, type Cheapest } from '../../core/proposal/mend/cheapest-plan';
import { questionOf } from '../../core/proposal/mend/question';
import { ledger } from '../../core/ledger/ledger';
import { doneCountOf, USUAL_REQUEST, type MendRequest } from '../../core/proposal/mend/request';
import { wallMin } from '../../core/words/calendar';
import { mendedByHand } from '../support/mend-by-hand';
import { mendCase } from '../support/mend-case';
import { WEDNESDAY_MORNING, worseDemo } from '../support/worse-demo';
import { bigTrip } from './big-trip';
import type { BenchLine } from './report';

/** Proposals are asked for while somebody waits. */
const DEMO_MS = 300;
const BIG_MS = 2000;
const FASTER_BY = 10;

/** Trips with so many plans that every one of them can just be tried. */
const SEEDS = [7, 19, 23, 31, 58, 77, 104, 131];
const MOST_PLANS = 30_000;

/** The processor's own time: other work on the machine does not count. */
function timed<T>(run: () => T): { readonly ms: number; readonly value: T } {
  const before = process.cpuUsage();
  const value = run();
  const { user, system } = process.cpuUsage(before);
  return { ms: (user + system) / 1000, value };
}

/** Best of a few, as what else a machine does only ever adds; the trip anew each time, so that nothing kept helps. */
function quickest(
  runs: number,
  trip: Trip,
  request: MendRequest,
): { readonly ms: number; readonly value: Cheapest } {
  return Array.from({ length: runs }, () => {
    const fresh = structuredClone(trip);
    return timed(() => cheapestPlan(questionOf(ledger(fresh), request)));
  }).reduce((a, b) => (b.ms < a.ms ? b : a));
}

/** A fortnight for twelve that keeps its limits, but for five dives that are ten minutes too long. */
function fiveTooLong(): Trip {
  const shorter = new Set(['d1', 'd9', 'd13', 'd17', 'd25', 'd29', 'd33', 'd41', 'd45', 'd49']);
  const longer = new Set(['d6', 'd18', 'd26', 'd34', 'd46']);
  const trip = bigTrip(56, 12);
  const by = (id: string) => (shorter.has(id) ? -4 : longer.has(id) ? 10 : 0);
  return { ...trip, dives: trip.dives.map((dive) => ({ ...dive, bottomMin: dive.bottomMin + by(dive.id) })) };
}

function costOf(found: Cheapest): string {
  if (found.kind === 'none') return 'no plan';
  return found.cost === found.atLeast ? `cost ${found.cost}, proved` : `cost ${found.cost}`;
}

/** Mending beside what somebody waits for, and beside every plan tried. */
export function benchMending(): Promise<readonly BenchLine[]> {
  const demo = worseDemo();
  const underway = { ...USUAL_REQUEST, doneCount: doneCountOf(demo, wallMin(WEDNESDAY_MORNING) - 1) };
  const best = quickest(5, demo, underway);
  const big = quickest(3, fiveTooLong(), USUAL_REQUEST);
  let [searchMs, byHandMs, plans] = [0, 0, 0];
  for (const seed of SEEDS) {
    const { trip, request } = mendCase(seed);
    const byHand = timed(() => mendedByHand(trip, request, MOST_PLANS));
    if (byHand.value === null) continue;
    byHandMs += byHand.ms;
    plans += byHand.value.tried;
    searchMs += quickest(3, trip, request).ms;
  }
  return Promise.resolve([
    {
      what: `the demo trip with a dive too long and too soon, ${costOf(best.value)}`,
      ms: best.ms,
      floor: 'three tenths of a second',
      floorMs: DEMO_MS,
      atMost: 1,
    },
    {
      what: `56 dives, 12 divers, five dives too long, ${costOf(big.value)}`,
      ms: big.ms,
      floor: 'two seconds',
      floorMs: BIG_MS,
      atMost: 1,
    },
    {
      what: 'small trips',
      ms: searchMs,
      floor: `every plan in turn, ${plans} in all`,
      floorMs: byHandMs,
      fasterBy: FASTER_BY,
    },
  ]);
}
