/** How the time of an answer grows with the length of what was asked, from the slowest of each length. */
interface Slow<T> {
  readonly input: T;
  readonly size: number;
  readonly ms: number;
}

/** So many of the slowest of each length are timed again: a collection of garbage may fall into any one. */
const KEPT = 5;

/** Shorter ones are told apart by nothing but what an answer costs at all. */
const SHORTEST = 2048;

/**
 * The exponent of time over length: the slope of a straight line through the logarithms, by least squares.
 * @param points of different lengths
 */
export function slopeOf(points: readonly { readonly size: number; readonly ms: number }[]): number {
  const x = points.map(({ size }) => Math.log(size));
  const y = points.map(({ ms }) => Math.log(Math.max(ms, 1e-3)));
  const mean = (of: readonly number[]): number => of.reduce((sum, each) => sum + each, 0) / of.length;
  const [mx, my] = [mean(x), mean(y)];
  const over = x.reduce((sum, each, i) => sum + (each - mx) * (y[i]! - my), 0);
  const under = x.reduce((sum, each) => sum + (each - mx) ** 2, 0);
  return over / under;
}

/** Below it an answer is told from others by the clock and by what was compiled already, not by its length. */
const LEAST_MS = 4;

export class Growth<T> {
  readonly #slowest = new Map<number, Slow<T>[]>();

  note(input: T, size: number, ms: number): void {
    if (size < SHORTEST) return;
    const octave = Math.floor(Math.log2(size));
    const held = this.#slowest.get(octave) ?? [];
    held.push({ input, size, ms });
    held.sort((a, b) => b.ms - a.ms);
    held.length = Math.min(held.length, KEPT);
    this.#slowest.set(octave, held);
  }

  /**
   * The exponent of the slowest time over the length: 1 is linear, 2 quadratic.
   * @param timed answers an input once more, and says how long that took, ms
   * @returns null where too few lengths were seen to tell
   */
  exponent(timed: (input: T) => number): number | null {
    const points = [...this.#slowest.values()].map((slow) => {
      const again = slow.map(({ input, size, ms }) => ({
        size,
        ms: Math.min(ms, ...[1, 2, 3].map(() => timed(input))),
      }));
      return again.reduce((worst, each) => (each.ms > worst.ms ? each : worst));
    });
    const told = points.filter(({ ms }) => ms >= LEAST_MS);
    return told.length < 4 ? null : slopeOf(told);
  }
}
