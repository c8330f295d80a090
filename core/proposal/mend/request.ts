import { saysDived } from '../../document/as-dived';
import type { Dive, Id, Trip } from '../../document/types';
import { dayNumber, wallMin, type WallMin } from '../../words/calendar';
import {
  FULL_REACH,
  METRIC_STEPS,
  USUAL_COSTS,
  type MoveCosts,
  type MoveReach,
  type MoveSteps,
} from './moves';

/** What is asked of mending. */
export interface MendRequest {
  /** How many of the trip's dives, in its order, are done and stay as they are. */
  readonly doneCount: number;
  /** The dive ahead whose cautions alone are to go; null: those of all. */
  readonly onlyDiveId: Id | null;
  readonly costs: MoveCosts;
  readonly steps: MoveSteps;
  readonly reach: MoveReach;
  /** Minutes of room that everybody keeps on every dive that is changed. */
  readonly leastRoomMin: number;
  /** Ways of making a dive that are tried at most; past it the best plan so far is told, with what is proved. */
  readonly mostTried: number;
}

/** The most room that may be asked for, minutes. Source: choice of this project. */
export const MOST_ROOM_MIN = 60;

/** Enough for any week that was tried, and over within some seconds. Source: choice of this project. */
const MOST_TRIED = 3_000_000;

/** All dives ahead, and everything as usual. */
export const USUAL_REQUEST: MendRequest = {
  doneCount: 0,
  onlyDiveId: null,
  costs: USUAL_COSTS,
  steps: METRIC_STEPS,
  reach: FULL_REACH,
  leastRoomMin: 0,
  mostTried: MOST_TRIED,
};

/**
 * How many dives of a trip are done: up to the last that is logged, or planned to start by a moment. What was planned
 * before a dive that is done is past as well.
 * @param untilMin wall minutes, as `doneUntilMin`; null: only what is logged counts
 * @returns a count from the first dive on
 * Source: CONVENTIONS, "Past and ahead".
 */
export function doneCountOf({ dives }: Trip, untilMin: WallMin | null): number {
  const isDone = ({ asDived, startsAt }: Dive): boolean =>
    (asDived?.some(saysDived) ?? false) || (untilMin !== null && wallMin(startsAt) <= untilMin);
  return 1 + dives.findLastIndex(isDone);
}

/** Minutes from a moment to the last minute of its day. */
export function restOfDayMin(startMin: WallMin): number {
  return (dayNumber(startMin) + 1) * 1440 - 1 - startMin;
}
