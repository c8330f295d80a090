/** The band in which most runs' curves lie, around the curve of nitrogen on surfacing of one diver. */
import { atSurface } from '../ledger/at-surface';
import { timelineOf, type Steps } from '../ledger/timeline';
import type { Entry } from '../ledger/ledger-types';
import type { Id, Trip } from '../document/types';
import type { WallMin } from '../words/calendar';
import { asUsed, scatteredDive, scatteredEntry } from './by-ledger';
import { percentile } from './percentile';
import { Runs } from './runs';
import { scatterOf } from './scatter';
import { seedsOf } from './seeds';
import type { Draw } from './sturdiness';
import { tripTable } from './trip-table';

/** Runs that are drawn: edges of the band are good to a few percent of its width. Source: this project's own. */
const BAND_RUNS = 200;

/** Moments of the band lie so far apart, minutes: it is quiet, and wider than a dive's own corners. */
const EVERY_MIN = 5;

/** As near as the band's moments are: nothing finer is drawn. */
const STEPS: Steps = { waterMin: 2.5, surfaceMin: 20 };

/** Between which shares of the runs the band lies. Source: this project's own. */
const BAND_SHARES = [0.05, 0.95] as const;

/** A moment of the band. */
export interface BandMoment {
  readonly atMin: WallMin;
  /** Share of the limit on surfacing that a twentieth of the runs do not exceed at that moment, and all but a twentieth. */
  readonly low: number;
  readonly high: number;
}

/**
 * The band of one diver, at every moment that of 90 in 100 runs.
 * @param untilMin wall minutes where it ends @param count of runs
 * @returns empty where the diver has no dive ahead
 * Source: `timelineOf`, run by run; CONVENTIONS, "How sturdy a plan is".
 */
export function curveBand(
  trip: Trip,
  diverId: Id,
  { seed, nowMin }: Pick<Draw, 'seed' | 'nowMin'>,
  untilMin: WallMin,
  count: number = BAND_RUNS,
): readonly BandMoment[] {
  const table = tripTable(trip, scatterOf(trip), nowMin);
  const d = table.people.findIndex(({ diver }) => diver.id === diverId);
  const first = table.cells.find(({ diver }) => diver === d);
  if (first === undefined) return [];
  const { diver, carry } = table.people[d]!;
  const runs = new Runs(table);
  const seeds = seedsOf(seed);
  const fromMin = Math.floor(first.startMin / EVERY_MIN) * EVERY_MIN;
  const moments = Math.max(0, Math.floor((untilMin - fromMin) / EVERY_MIN) + 1);
  const shares = new Float32Array(moments * count);
  for (let run = 0; run < count; run += 1) {
    runs.run(run, seeds);
    const surface = atSurface(trip, table.around.column.surfaceBar);
    let from = carry;
    const entries: Entry[] = [];
    table.cells.forEach((cell, c) => {
      if (cell.diver !== d) return;
      const drawn = runs.drawn[cell.dive]!;
      const dive = scatteredDive(table.dives[cell.dive]!, drawn);
      const breathed = { rateLpm: runs.rate[c]!, o2: runs.o2[c]! };
      const used = { trip: asUsed(trip, cell, breathed.rateLpm), dives: table.dives };
      const entry = scatteredEntry(used, cell, dive, drawn, breathed, from, surface);
      entries.push(entry);
      from = entry.after;
    });
    const { points } = timelineOf({ diver, entries }, trip, untilMin, STEPS);
    let at = 0;
    for (let k = 0; k < moments; k += 1) {
      const atMin = fromMin + k * EVERY_MIN;
      while (at + 1 < points.length && points[at + 1]!.atMin <= atMin) at += 1;
      const before = points[at]!;
      const after = points[at + 1];
      const share =
        after === undefined || atMin <= before.atMin
          ? before.fractionOfLimit
          : before.fractionOfLimit +
            ((after.fractionOfLimit - before.fractionOfLimit) * (atMin - before.atMin)) /
              (after.atMin - before.atMin);
      shares[k * count + run] = share;
    }
  }
  const [low, high] = BAND_SHARES;
  return Array.from({ length: moments }, (_, k): BandMoment => {
    const row = shares.subarray(k * count, (k + 1) * count);
    return { atMin: fromMin + k * EVERY_MIN, low: percentile(row, low), high: percentile(row, high) };
  });
}
