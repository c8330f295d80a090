import { demoTrip } from '../../core/document/demo-trip';
import { percentile } from '../../core/sturdiness/percentile';
import { Runs } from '../../core/sturdiness/runs';
import { USUAL_SCATTER } from '../../core/sturdiness/scatter';
import { seedsOf } from '../../core/sturdiness/seeds';
import { LIVE_RUNS, sturdiness, USUAL_RUNS } from '../../core/sturdiness/sturdiness';
import { tripTable } from '../../core/sturdiness/trip-table';
import { COMPARTMENT_COUNT, RATES_PER_MIN } from '../../core/tissues/compartments';
import { spentMs } from '../support/processor-time';
import type { BenchLine } from './report';

/** A second, and what a window takes for at once. */
const ALL_MS = 1000;
const LIVE_MS = 100;

/** Best of a few, as what else a machine does only ever adds. */
function quickest(times: number, run: () => unknown): number {
  return Math.min(...Array.from({ length: times }, () => spentMs(run)));
}

/** So many exponentials, and as many logarithms as asked, each of another number. */
function elementary(exponentials: number, logarithms: number): void {
  const minutes = Float64Array.from({ length: 4096 }, (_, n) => 0.5 + (n % 97));
  let sum = 0;
  for (let n = 0; n < exponentials; n += 1) sum += Math.expm1(-RATES_PER_MIN[n & 15]! * minutes[n & 4095]!);
  for (let n = 0; n < logarithms; n += 1) sum -= Math.log1p(minutes[n & 4095]!);
  if (sum > 0) throw new Error('each of them is below 0 here');
}

/**
 * The runs of the demo week for its party of four beside the exponentials and logarithms that a run leg by leg needs: a
 * decay for each compartment of each leg at its own time and of each interval, a logarithm for each compartment's limit on
 * each dive of each diver, and one for each end of a slope on the clock and for its interval.
 */
export function benchSturdiness(): Promise<readonly BenchLine[]> {
  const trip = demoTrip();
  const table = tripTable(trip, USUAL_SCATTER, null);
  const { dives, cells } = table;
  // Descent and stays that move, each way straight up, the ascent and the interval before.
  const legs = dives.reduce(
    (sum, { steps, direct }) =>
      sum + steps.filter(({ moved, isLast }) => moved !== 'not' || isLast).length + direct.length + 2,
    0,
  );
  const exponentials = (legs * COMPARTMENT_COUNT + cells.length) * USUAL_RUNS;
  const logarithms = cells.length * (COMPARTMENT_COUNT + 3) * USUAL_RUNS;
  const runs = new Runs(table);
  const rooms = new Float32Array(cells.length * USUAL_RUNS);
  const all = (): void => {
    for (let run = 0; run < USUAL_RUNS; run += 1) {
      runs.run(run, seedsOf(1));
      for (let c = 0; c < cells.length; c += 1) rooms[c * USUAL_RUNS + run] = runs.room[c]!;
    }
  };
  const floorMs = quickest(3, () => elementary(exponentials, logarithms));
  const ms = quickest(3, all);
  const orderMs = quickest(3, () => {
    for (let c = 0; c < cells.length; c += 1) {
      const row = rooms.slice(c * USUAL_RUNS, (c + 1) * USUAL_RUNS);
      for (const share of [0.05, 0.5]) percentile(row, share);
    }
  });
  const liveMs = quickest(5, () =>
    sturdiness(structuredClone(trip), { runs: LIVE_RUNS, seed: 1, nowMin: null }, false),
  );
  return Promise.resolve([
    {
      what: `${USUAL_RUNS} runs of the demo week`,
      ms,
      floor: 'the exponentials and logarithms they need',
      floorMs,
      atMost: 3,
    },
    {
      what: 'half of them, as each of two workers has, and all rooms put in order',
      ms: ms / 2 + orderMs,
      floor: 'a second',
      floorMs: ALL_MS,
      atMost: 1,
    },
    {
      what: `${LIVE_RUNS} runs after an edit`,
      ms: liveMs,
      floor: 'a tenth of one',
      floorMs: LIVE_MS,
      atMost: 1,
    },
  ]);
}
