import { rounded } from '../words/quantity';

/** What a list of mixes makes of a trip, in the measures it is judged by. */
export interface Outcome {
  /** Dives that stay within every limit for everybody on them. */
  readonly divesWithin: number;
  /** Smallest room of any entry, minutes; null where nothing limits a dive; -Infinity past a limit without a figure. */
  readonly smallestRoomMin: number | null;
  /**
   * Nitrogen room of the median open dive, minutes: half of them or more keep so much. Null where nothing limits it;
   * -Infinity where it is past the limit without a figure, or somebody cannot make it.
   */
  readonly nitrogenRoomMin: number | null;
  /** Of all fills on the open dives, in the trip's money. */
  readonly cost: number;
  /** Highest share on any oxygen clock; null where an exposure above 1.6 bar made one unknowable. */
  readonly oxygenPeak: number | null;
  /** Cylinders to fill with anything but air on the open dives. */
  readonly fills: number;
  /** Mixes on board besides air. */
  readonly mixes: number;
}

/** What lists are compared by, in the order in which "best first" asks. Source: this project's: safety, money, work. */
export const MEASURES = ['within', 'room', 'nitrogen', 'cost', 'oxygen', 'fills', 'mixes'] as const;

export type Measure = (typeof MEASURES)[number];

/** Of money, what the order of a sum may change. Source: choice of this project, a millionth of a unit of any currency. */
export const COST_STEP = 1e-6;

/** An outcome as seven numbers in the order of `MEASURES`, each better when smaller. */
export type Merits = readonly [number, number, number, number, number, number, number];

/**
 * The measures of an outcome as they are shown, turned so that less is better: what reads the same is the same, so
 * that no list is beaten by a second of room or a tenth of a percent.
 * @returns rooms in whole minutes, rounded down; oxygen in whole percent, rounded up; cost in hundredths, to the nearest
 * Source: this project's.
 */
export function meritsOf(outcome: Outcome): Merits {
  const room = outcome.smallestRoomMin ?? Infinity;
  const nitrogen = outcome.nitrogenRoomMin ?? Infinity;
  const peak = outcome.oxygenPeak ?? Infinity;
  return [
    -outcome.divesWithin,
    -(Number.isFinite(room) ? rounded(room, 0, 'down') : room),
    -(Number.isFinite(nitrogen) ? rounded(nitrogen, 0, 'down') : nitrogen),
    // What the order of the sum may have changed goes first, or half a hundredth would hang on it.
    Math.round((Math.round(outcome.cost / COST_STEP) * COST_STEP) / 0.01 + COST_STEP),
    Number.isFinite(peak) ? rounded(peak * 100, 0, 'up') : peak,
    outcome.fills,
    outcome.mixes,
  ];
}

/**
 * Whether one outcome beats another: at least as good in every measure, better in one.
 * Source: Pareto dominance, V. Pareto, Manuale di economia politica (1906).
 */
export function dominates(a: Merits, b: Merits): boolean {
  let isBetter = false;
  for (let i = 0; i < a.length; i += 1) {
    if (a[i]! > b[i]!) return false;
    if (a[i]! < b[i]!) isBetter = true;
  }
  return isBetter;
}

/** Order "best first": the first measure in which two differ decides; 0 where none does. */
export function compareMerits(a: Merits, b: Merits): number {
  for (let i = 0; i < a.length; i += 1) {
    if (a[i]! !== b[i]!) return a[i]! < b[i]! ? -1 : 1;
  }
  return 0;
}

/**
 * Which of some outcomes nothing beats; equals stand side by side.
 * @returns indices, in the order given
 * Source: as `dominates`; the plain definition, every pair.
 */
export function undominated(all: readonly Merits[]): readonly number[] {
  return all.flatMap((merits, i) => (all.some((other) => dominates(other, merits)) ? [] : [i]));
}

/**
 * The middle of some figures: of an even number the greater of the two in the middle, so that half of them, or one more,
 * are at least as great. The figures are put in another order.
 * @returns Infinity where there are none
 * Source: order statistics; the upper median. Found by partition, C. A. R. Hoare, Algorithm 65, Commun ACM 1961;4:321.
 */
export function upperMedian(figures: Float64Array): number {
  if (figures.length === 0) return Infinity;
  const wanted = figures.length >> 1;
  let low = 0;
  let high = figures.length - 1;
  while (low < high) {
    const pivot = figures[(low + high) >> 1]!;
    let i = low;
    let j = high;
    while (i <= j) {
      while (figures[i]! < pivot) i += 1;
      while (figures[j]! > pivot) j -= 1;
      if (i > j) break;
      const held = figures[i]!;
      figures[i] = figures[j]!;
      figures[j] = held;
      i += 1;
      j -= 1;
    }
    if (wanted <= j) high = j;
    else if (wanted >= i) low = i;
    else break;
  }
  return figures[wanted]!;
}
