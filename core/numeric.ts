/**
 * The greatest of some numbers. A list spread into the arguments of `Math.max` ends in a stack trace where it
 * is long.
 * @param values none is infinitely small @param floor what the result is at least
 */
export function greatest(values: Iterable<number>, floor = Number.NEGATIVE_INFINITY): number {
  let most = floor;
  for (const value of values) if (value > most) most = value;
  return most;
}

/** The least of some numbers, as `greatest`. */
export function least(values: Iterable<number>, ceiling = Number.POSITIVE_INFINITY): number {
  let fewest = ceiling;
  for (const value of values) if (value < fewest) fewest = value;
  return fewest;
}

/**
 * A root of an increasing function on an interval, by Brent's rule of bracketing with bisection and the
 * Illinois step; always inside the bracket, at most 200 evaluations.
 * @param lower where `f` is at or below 0 @param upper where it is at or above 0 @param tolerance on x
 * @returns the side of the root where f is at or below 0, within `tolerance`
 * @throws our fault where the ends do not bracket a root
 * Source: M. Dowell, P. Jarratt, "A modified regula falsi method", BIT 1971;11:168-174, safeguarded.
 */
export function increasingRoot(
  f: (x: number) => number,
  lower: number,
  upper: number,
  tolerance: number,
): number {
  let a = lower;
  let b = upper;
  let fa = f(a);
  let fb = f(b);
  if (fa > 0 || fb < 0) throw new Error('Carryover has a fault: the ends do not bracket a root');
  let side = 0;
  for (let step = 0; step < 200 && b - a > tolerance; step += 1) {
    // Every third step halves, so that a flat function cannot hold the bracket open.
    const guess = step % 3 === 2 || !(fb - fa > 0) ? (a + b) / 2 : (a * fb - b * fa) / (fb - fa);
    const x = guess > a && guess < b ? guess : (a + b) / 2;
    const fx = f(x);
    if (fx > 0) {
      b = x;
      fb = fx;
      if (side === 1) fa /= 2;
      side = 1;
    } else {
      a = x;
      fa = fx;
      if (side === -1) fb /= 2;
      side = -1;
    }
  }
  return a;
}
