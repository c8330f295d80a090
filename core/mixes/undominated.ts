/** What a list of mixes makes of a trip, in the measures it is judged by. */
export interface Outcome {
  /** Dives that stay within every limit for everybody on them. */
  readonly divesWithin: number;
  /** Smallest room of any entry, minutes; null where nothing limits a dive. */
  readonly smallestRoomMin: number | null;
  /** Highest share on any oxygen clock; null where an exposure above 1.6 bar made one unknowable. */
  readonly oxygenPeak: number | null;
  /** Of all fills on the open dives, in the trip's money. */
  readonly cost: number;
  /** Cylinders to fill with anything but air on the open dives. */
  readonly fills: number;
}

/*
 * Steps below which two outcomes count as equal: far under anything shown, far over what the order of a
 * sum changes, so that the set does not hang on rounding.
 */
const ROOM_STEP_MIN = 1e-6;
const SHARE_STEP = 1e-9;
/** Of money. Source: choice of this project, a millionth of a unit of whatever currency. */
export const COST_STEP = 1e-6;

/** An outcome as five numbers, each better when smaller, in the order in which "best first" compares. */
export type Merits = readonly [number, number, number, number, number];

/**
 * The five measures of an outcome, turned so that less is better.
 * @returns dives outside a limit (as a negative count of those within), room, oxygen, cost, fills
 * Source: this project's; the order is that of safety, then money, then work.
 */
export function meritsOf(outcome: Outcome): Merits {
  const room = outcome.smallestRoomMin ?? Infinity;
  const peak = outcome.oxygenPeak ?? Infinity;
  return [
    -outcome.divesWithin,
    -stepped(room, ROOM_STEP_MIN),
    stepped(peak, SHARE_STEP),
    stepped(outcome.cost, COST_STEP),
    outcome.fills,
  ];
}

function stepped(value: number, step: number): number {
  return Number.isFinite(value) ? Math.round(value / step) : value;
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
