/**
 * What may be changed on a dive ahead, what that costs, and which of two plans of one cost comes first.
 * Source: DEVELOPERS, "What mending looks for".
 */
import type { Id } from '../../document/types';
import { M_PER_FOOT } from '../../units';

/** Points that one step of each move costs: whole numbers of 1 or more, so that sums and ties are exact. */
export interface MoveCosts {
  readonly later: number;
  readonly shallower: number;
  readonly shorter: number;
  readonly mix: number;
  readonly leaveOut: number;
  readonly drop: number;
}

/** What moves cost unless the user says otherwise. Source: choice of this project. */
export const USUAL_COSTS: MoveCosts = {
  later: 1,
  shallower: 2,
  shorter: 1,
  mix: 5,
  leaveOut: 40,
  drop: 150,
};

/** The dearest a step may be: sums of any trip stay whole numbers that a computer has exactly. */
export const DEAREST = 9999;

/** The length of one step of each move. */
export interface MoveSteps {
  readonly laterMin: number;
  readonly shallowerM: number;
  readonly shorterMin: number;
}

/** Steps where depths are in metres. Source: choice of this project. */
export const METRIC_STEPS: MoveSteps = { laterMin: 5, shallowerM: 1, shorterMin: 1 };

/** Steps where depths are in feet: 3 ft for a metre. Source: choice of this project. */
export const FEET_STEPS: MoveSteps = { ...METRIC_STEPS, shallowerM: 3 * M_PER_FOOT };

/** How far each move may go, in steps; what a dive itself allows may be less. */
export interface MoveReach {
  readonly later: number;
  readonly shallower: number;
  readonly shorter: number;
  readonly mix: boolean;
  readonly leaveOut: boolean;
  readonly drop: boolean;
}

/** As far as a dive itself allows. */
export const FULL_REACH: MoveReach = {
  later: Infinity,
  shallower: Infinity,
  shorter: Infinity,
  mix: true,
  leaveOut: true,
  drop: true,
};

/** Nowhere. */
export const FIXED: MoveReach = {
  later: 0,
  shallower: 0,
  shorter: 0,
  mix: false,
  leaveOut: false,
  drop: false,
};

/** How one dive is treated: the moves on it, each in its steps. */
export interface Treatment {
  readonly isDropped: boolean;
  readonly later: number;
  readonly shallower: number;
  /** The level whose minutes are taken, from 0; 0 where none are. */
  readonly level: number;
  readonly shorter: number;
  /** null: what the dive says. */
  readonly mix: Id | null;
  /** Who is left out, as places in the party, rising. */
  readonly leftOut: readonly number[];
}

/** A dive left as it is. */
export const KEPT: Treatment = {
  isDropped: false,
  later: 0,
  shallower: 0,
  level: 0,
  shorter: 0,
  mix: null,
  leftOut: [],
};

/** Whether nothing is moved; plans that came from a worker hold copies. */
export function isKept({ isDropped, later, shallower, shorter, mix, leftOut }: Treatment): boolean {
  return !isDropped && later + shallower + shorter === 0 && mix === null && leftOut.length === 0;
}

/** A dive not made. */
export const DROPPED: Treatment = { ...KEPT, isDropped: true };

/** Points of a treatment; a dive that is dropped costs that alone. */
export function pointsOf(treatment: Treatment, costs: MoveCosts): number {
  if (treatment.isDropped) return costs.drop;
  return (
    treatment.later * costs.later +
    treatment.shallower * costs.shallower +
    treatment.shorter * costs.shorter +
    (treatment.mix === null ? 0 : costs.mix) +
    treatment.leftOut.length * costs.leaveOut
  );
}

/** What a point is worth in a price: more than a trip has dives, whose number is what lies below it. */
export const POINT = 65_536;

/** Points and "fewest dives touched" in one whole number, which adds up over dives. */
export function priceOfPoints(points: number): number {
  return points * POINT + (points > 0 ? 1 : 0);
}

/** The price of a treatment. */
export function priceOf(treatment: Treatment, costs: MoveCosts): number {
  return priceOfPoints(pointsOf(treatment, costs));
}

/** The points in a price. */
export function wholePoints(price: number): number {
  return Math.floor(price / POINT);
}

function compareLists(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i += 1) if (a[i] !== b[i]) return a[i]! - b[i]!;
  return 0;
}

/**
 * Which of two treatments of a dive comes first in plans that are alike up to it: a dive touched before one that is
 * not, so that of plans alike in price the one that changes things earliest comes first.
 * @param mixIds of the trip, in its order
 */
export function compareTreatments(
  a: Treatment,
  b: Treatment,
  costs: MoveCosts,
  mixIds: readonly Id[],
): number {
  const [ofA, ofB] = [pointsOf(a, costs), pointsOf(b, costs)];
  if (ofA > 0 !== ofB > 0) return ofA > 0 ? -1 : 1;
  const place = (mix: Id | null) => (mix === null ? -1 : mixIds.indexOf(mix));
  return (
    ofA - ofB ||
    Number(a.isDropped) - Number(b.isDropped) ||
    a.later - b.later ||
    a.shallower - b.shallower ||
    a.level - b.level ||
    a.shorter - b.shorter ||
    place(a.mix) - place(b.mix) ||
    a.leftOut.length - b.leftOut.length ||
    compareLists(a.leftOut, b.leftOut)
  );
}
