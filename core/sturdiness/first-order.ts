import type { Runs } from './runs';
import type { ScatterName } from './scatter';
import { frozen, seedsOf } from './seeds';

/** What is told of one scatter for one diver on one dive. */
export interface FirstOrder {
  readonly name: ScatterName;
  /** Share of the room's variance that would be gone if it were known, 0 to 1. */
  readonly share: number;
}

/** How far a search is: so many runs of so many. */
export type Progress = (done: number, total: number) => void;

/** Runs between two words on how far it is. */
const TOLD_EVERY = 250;

/** Squares of minutes: below it every run has the same room, and nothing does anything. */
const NO_VARIANCE = 1e-12;

/** So many pairs of runs with a room are too few to say. */
const LEAST_PAIRS = 50;

/**
 * First-order shares of some scatters: how much of a room's variance would go if one of them were known. Each is frozen in
 * turn: the same run twice, with that scatter's draws the same and all others drawn anew. Runs without a figure of room are
 * left out.
 * @param runs of the trip @param count of pairs @returns by cell, in the order asked; nothing of what does not vary
 * Source: I. M. Sobol', "Global sensitivity indices for nonlinear mathematical models", Math Comput Simul 2001;55:271-280,
 * for groups of inputs; estimator of A. Janon, T. Klein, A. Lagnoux, M. Nodet, C. Prieur, "Asymptotic normality and
 * efficiency of two Sobol index estimators", ESAIM: P&S 2014;18:342-364.
 */
export function firstOrderShares(
  runs: Runs,
  count: number,
  seed: number,
  names: readonly ScatterName[],
  progress: Progress,
): readonly (readonly FirstOrder[])[] {
  const cells = runs.room.length;
  const total = count * (names.length + 1);
  const kept = new Float64Array(cells * count);
  let done = 0;
  const tell = (): void => {
    done += 1;
    if (done % TOLD_EVERY === 0) progress(done, total);
  };
  const mine = seedsOf(seed);
  for (let run = 0; run < count; run += 1) {
    runs.run(run, mine);
    kept.set(runs.room, run * cells);
    tell();
  }
  const found: FirstOrder[][] = Array.from({ length: cells }, () => []);
  for (const name of names) {
    const sums = new PairSums(cells);
    const seeds = frozen(seed, name);
    for (let run = 0; run < count; run += 1) {
      runs.run(run, seeds);
      for (let c = 0; c < cells; c += 1) sums.take(c, kept[run * cells + c]!, runs.room[c]!);
      tell();
    }
    for (let c = 0; c < cells; c += 1) {
      const share = sums.share(c);
      if (share !== null) found[c]!.push({ name, share });
    }
  }
  return found;
}

/** Sums of pairs of rooms, by cell. */
class PairSums {
  private readonly pairs: Float64Array;
  private readonly sum: Float64Array;
  private readonly squares: Float64Array;
  private readonly product: Float64Array;

  constructor(cells: number) {
    this.pairs = new Float64Array(cells);
    this.sum = new Float64Array(cells);
    this.squares = new Float64Array(cells);
    this.product = new Float64Array(cells);
  }

  take(c: number, a: number, b: number): void {
    if (!Number.isFinite(a) || !Number.isFinite(b)) return;
    this.pairs[c] = this.pairs[c]! + 1;
    this.sum[c] = this.sum[c]! + (a + b) / 2;
    this.squares[c] = this.squares[c]! + (a * a + b * b) / 2;
    this.product[c] = this.product[c]! + a * b;
  }

  share(c: number): number | null {
    const n = this.pairs[c]!;
    const mean = this.sum[c]! / n;
    const variance = this.squares[c]! / n - mean * mean;
    if (n < LEAST_PAIRS || !(variance > NO_VARIANCE)) return null;
    // Of few pairs a share that is 0 comes out a little below it.
    return Math.min(1, Math.max(0, (this.product[c]! / n - mean * mean) / variance));
  }
}
