/** How sturdy a plan is: thousands of runs with what scatters drawn, and what they come to. */
import type { Id, Scatter, Trip } from '../document/types';
import type { WallMin } from '../words/calendar';
import { PASSED, type PassedLimit } from './by-ledger';
import { firstOrderShares, type FirstOrder, type Progress } from './first-order';
import { percentile } from './percentile';
import { Runs } from './runs';
import { scatterOf, SCATTERS, type ScatterName } from './scatter';
import { seedsOf } from './seeds';
import { tripTable } from './trip-table';

/** Runs where nobody says how many: a 5th percentile is then good to a tenth of a minute or so. Source: this project's own. */
export const USUAL_RUNS = 10_000;

/** Runs that are made after every edit. Source: this project's own. */
export const LIVE_RUNS = 500;

/** Fewer say nothing of one in twenty; more take memory and tell nothing new. Source: this project's own. */
export const RUNS_RANGE = { min: 100, max: 100_000 } as const;

/** So many rooms are kept to put in order: 400 MB. Source: this project's own. */
const MOST_ROOMS = 1e8;

/** A plan's own seed, so that the same plan tells the same twice. */
export const USUAL_SEED = 1;

/** Seeds are whole numbers of 32 bits. */
export const SEED_RANGE = { min: 0, max: 2 ** 32 - 1 } as const;

/** Pairs of runs for the first-order shares: one that is 0 comes out within 0.03. */
const PAIRS = 2000;

/** The limits in the order in which they are told. */
export const LIMITS_PASSED = Object.keys(PASSED) as readonly PassedLimit[];

/** What is drawn. */
export interface Draw {
  readonly runs: number;
  /** The same seed tells the same, and fewer runs are the first of more. */
  readonly seed: number;
  /** As for `divesAhead`: what is done does not scatter. */
  readonly nowMin: WallMin | null;
}

/** A diver on a dive ahead. */
export interface SturdyCell {
  readonly diveId: Id;
  readonly diverId: Id;
  /** Share of the runs that pass any limit, and each; 0 to 1. */
  readonly passes: number;
  readonly passesEach: Readonly<Record<PassedLimit, number>>;
  /**
   * Minutes of room to the limits that time decides which a twentieth, and a half, of the runs do not exceed; null where
   * the run there has no such minutes, as a limit is passed that no shorter stay keeps.
   */
  readonly room5Min: number | null;
  readonly room50Min: number | null;
  /** First-order shares of the room; null where they were not asked, or nothing varies. */
  readonly shares: readonly FirstOrder[] | null;
}

/** A dive ahead. */
export interface SturdyDive {
  readonly diveId: Id;
  /** Share of the runs in which anybody on it passes a limit. */
  readonly passes: number;
}

/** What the runs come to. */
export interface Sturdiness {
  readonly runs: number;
  readonly seed: number;
  readonly scatter: Scatter;
  readonly cells: readonly SturdyCell[];
  readonly dives: readonly SturdyDive[];
  /** Share of the runs in which nobody passes a limit on any dive. */
  readonly keepsAll: number;
  /** The dive with the largest share that passes, the first of two alike; null where no run passes any. */
  readonly easeFirst: Id | null;
}

/** How many runs at most fit, for a trip with so many divers on its dives ahead. Source: as `MOST_ROOMS`. */
export function mostRuns(trip: Trip): number {
  const together = trip.dives.reduce((sum, { divers }) => sum + (divers ?? trip.party).length, 0);
  return Math.min(RUNS_RANGE.max, Math.floor(MOST_ROOMS / Math.max(1, together)));
}

/** Runs between two words on how far it is. */
const TOLD_EVERY = 250;

function minutesOf(room: number): number | null {
  return Number.isFinite(room) ? room : null;
}

/** The scatter that does most for a diver on a dive. Source: as `firstOrderShares`. */
export function mostBy({ shares }: Pick<SturdyCell, 'shares'>): FirstOrder | null {
  if (shares === null) return null;
  return shares.reduce((most, each) => (each.share > most.share ? each : most));
}

/** Some of the runs, which a thread makes. */
export interface RunsPart {
  readonly count: number;
  /** Room in minutes, run after run of one cell after the other. */
  readonly rooms: Float32Array<ArrayBuffer>;
  /** How many pass: each limit of a cell, any of them, anybody on a dive; and how many pass none at all. */
  readonly each: Uint32Array<ArrayBuffer>;
  readonly any: Uint32Array<ArrayBuffer>;
  readonly byDive: Uint32Array<ArrayBuffer>;
  readonly kept: number;
}

/**
 * Makes the runs `from` up to `to` of a trip.
 * @param trip a document that has passed its checks
 * Source: CONVENTIONS, "How sturdy a plan is".
 */
export function drawRuns(trip: Trip, draw: Draw, from: number, to: number, progress: Progress): RunsPart {
  const table = tripTable(trip, scatterOf(trip), draw.nowMin);
  const { cells, dives, cellsOf } = table;
  const count = to - from;
  const runs = new Runs(table);
  const seeds = seedsOf(draw.seed);
  const rooms = new Float32Array(cells.length * count);
  const limits = LIMITS_PASSED.map((limit) => PASSED[limit]);
  const each = new Uint32Array(cells.length * limits.length);
  const any = new Uint32Array(cells.length);
  const byDive = new Uint32Array(dives.length);
  let kept = 0;
  for (let run = 0; run < count; run += 1) {
    runs.run(from + run, seeds);
    let hasPassed = false;
    for (let j = 0; j < dives.length; j += 1) {
      const [first, end] = cellsOf[j]!;
      let hasAnybody = false;
      for (let c = first; c < end; c += 1) {
        rooms[c * count + run] = runs.room[c]!;
        const passed = runs.passed[c]!;
        if (passed === 0) continue;
        hasAnybody = true;
        any[c] = any[c]! + 1;
        for (let l = 0; l < limits.length; l += 1) {
          if ((passed & limits[l]!) !== 0) each[c * limits.length + l] = each[c * limits.length + l]! + 1;
        }
      }
      if (!hasAnybody) continue;
      hasPassed = true;
      byDive[j] = byDive[j]! + 1;
    }
    if (!hasPassed) kept += 1;
    if ((run + 1) % TOLD_EVERY === 0) progress(run + 1, count);
  }
  return { count, rooms, each, any, byDive, kept };
}

/**
 * First-order shares of some scatters.
 * @returns by cell, as `firstOrderShares`
 * Source: as there.
 */
export function drawShares(
  trip: Trip,
  { runs, seed, nowMin }: Draw,
  names: readonly ScatterName[],
  progress: Progress,
): readonly (readonly FirstOrder[])[] {
  const table = tripTable(trip, scatterOf(trip), nowMin);
  return firstOrderShares(new Runs(table), Math.min(PAIRS, runs), seed, names, progress);
}

/**
 * What parts of the runs come to. It speaks of the plan's limits, never of the chance of injury.
 * @param trip the one they were drawn from @param parts all runs, in whatever order
 * @param shares by cell; null where they were not asked
 * @returns shares of the runs, 0 to 1, and minutes
 * Source: CONVENTIONS, "How sturdy a plan is".
 */
export function sturdinessOf(
  trip: Trip,
  draw: Draw,
  parts: readonly RunsPart[],
  shares: readonly (readonly FirstOrder[])[] | null,
): Sturdiness {
  const { cells, cellsOf, dives, people, scatter } = tripTable(trip, scatterOf(trip), draw.nowMin);
  const count = parts.reduce((sum, part) => sum + part.count, 0);
  const share = (of: (part: RunsPart) => number): number =>
    parts.reduce((sum, part) => sum + of(part), 0) / count;
  // A dive that nobody drawn makes has no share to tell.
  const told = dives.flatMap(({ dive }, j): readonly SturdyDive[] => {
    const [first, end] = cellsOf[j]!;
    return first === end ? [] : [{ diveId: dive.id, passes: share(({ byDive }) => byDive[j]!) }];
  });
  const worst = told.reduce<SturdyDive | null>(
    (most, dive) => (dive.passes > (most?.passes ?? 0) ? dive : most),
    null,
  );
  const row = new Float32Array(count);
  return {
    runs: count,
    seed: draw.seed,
    scatter,
    cells: cells.map(({ diver, dive }, c): SturdyCell => {
      let at = 0;
      for (const part of parts) {
        row.set(part.rooms.subarray(c * part.count, (c + 1) * part.count), at);
        at += part.count;
      }
      const own = shares?.[c] ?? [];
      return {
        diveId: dives[dive]!.dive.id,
        diverId: people[diver]!.diver.id,
        passes: share(({ any }) => any[c]!),
        passesEach: Object.fromEntries(
          LIMITS_PASSED.map((limit, l) => [limit, share(({ each }) => each[c * LIMITS_PASSED.length + l]!)]),
        ) as Record<PassedLimit, number>,
        room5Min: minutesOf(percentile(row, 0.05)),
        room50Min: minutesOf(percentile(row, 0.5)),
        shares: own.length === 0 ? null : own,
      };
    }),
    dives: told,
    keepsAll: share(({ kept }) => kept),
    easeFirst: worst?.diveId ?? null,
  };
}

/**
 * How sturdy a plan is, on one thread.
 * @param hasShares whether it is asked which scatter does most: some 12,000 runs more
 * @returns as `sturdinessOf`
 * Source: as there.
 */
export function sturdiness(
  trip: Trip,
  draw: Draw,
  hasShares: boolean,
  progress: Progress = () => undefined,
): Sturdiness {
  const part = drawRuns(trip, draw, 0, draw.runs, progress);
  return sturdinessOf(trip, draw, [part], hasShares ? drawShares(trip, draw, SCATTERS, progress) : null);
}
