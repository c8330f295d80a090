/** Numbers as they are shown: each stands for all that round to it, and sums and products carry that along. */

export interface Shown {
  readonly from: number;
  readonly to: number;
}

/** A number that is exact. */
export function exactly(value: number): Shown {
  return { from: value, to: value };
}

/** All that is shown by digits: "12.30" is 12.295 to 12.305. A little more is left for the half itself. */
export function shownBy(text: string): Shown {
  const value = Number(text);
  const decimals = text.split('.')[1]?.length ?? 0;
  const half = 0.500001 * 10 ** -decimals;
  return { from: value - half, to: value + half };
}

/** Numbers of a text in order, each as it is shown. */
export function shownIn(text: string): readonly Shown[] {
  return (text.match(/-?\d+(?:\.\d+)?/g) ?? []).map(shownBy);
}

export function plus(...all: readonly Shown[]): Shown {
  return all.reduce((a, b) => ({ from: a.from + b.from, to: a.to + b.to }), exactly(0));
}

export function minus(a: Shown, b: Shown): Shown {
  return { from: a.from - b.to, to: a.to - b.from };
}

function widest(values: readonly number[]): Shown {
  return { from: Math.min(...values), to: Math.max(...values) };
}

export function times(a: Shown, b: Shown): Shown {
  return widest([a.from * b.from, a.from * b.to, a.to * b.from, a.to * b.to]);
}

/** @param b not across 0 */
export function over(a: Shown, b: Shown): Shown {
  return times(a, { from: 1 / b.to, to: 1 / b.from });
}

/** By a function that rises or falls all the way. */
export function by(of: (value: number) => number, a: Shown): Shown {
  return widest([of(a.from), of(a.to)]);
}

export function least(all: readonly Shown[]): Shown {
  return { from: Math.min(...all.map(({ from }) => from)), to: Math.min(...all.map(({ to }) => to)) };
}

export function greatest(all: readonly Shown[]): Shown {
  return { from: Math.max(...all.map(({ from }) => from)), to: Math.max(...all.map(({ to }) => to)) };
}
