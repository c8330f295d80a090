/** What of a dive is the same in every run: its legs as planned, and how scatter moves their lengths and pressures. */
import {
  ascentLegs,
  levelsOf,
  SAFETY_STOP_BEYOND_M,
  safetyStopOf,
  travelMin,
  USUAL_SAFETY_STOP,
  type Stop,
  type Surroundings,
} from '../profile';
import { legsMap } from '../tissues/leg-map';
import { ambientBar } from '../water';
import { wallMin } from '../words/calendar';
import type { Dive } from '../document/types';
import { CM, LEAST_STAY_MIN, SHALLOWEST_M } from './scatter';
import { lostAfter } from './rows';

/** Which way of a leg the depth drawn lengthens or shortens it by, and at which rate. */
export type Moved = 'not' | 'descent' | 'stay' | 'ascent';

/** A leg as planned. */
export interface Step {
  readonly min: number;
  /** By the depth: a way down or up gets longer, a first stay shorter by the way down. */
  readonly moved: Moved;
  /** A minute of bottom time is one of this leg. */
  readonly isLast: boolean;
  /** Change of ambient pressure, bar a minute; 0 at a level. */
  readonly slope: number;
  readonly fromBar: number;
  readonly toBar: number;
  /** Whether its ends lie deeper with the dive: 1 or 0. */
  readonly fromMoves: number;
  readonly toMoves: number;
  /** e^-kt - 1 as planned. */
  readonly lost: Float64Array;
  /** Number of the level that ends with it; -1 on the way. */
  readonly endsLevel: number;
}

/** The stop and the way from it to the surface: the same in all runs. */
export interface StopTable {
  readonly depthM: number;
  readonly decay: readonly number[];
  readonly uptake: readonly number[];
  readonly bar: number;
  readonly min: number;
  readonly lastMin: number;
}

/** A dive ahead. */
export interface DiveTable {
  readonly dive: Dive;
  readonly around: Surroundings;
  readonly startMin: number;
  readonly bottomMin: number;
  readonly deepestM: number;
  readonly deepestBar: number;
  readonly lastM: number;
  readonly lastBar: number;
  readonly lastStayMin: number;
  readonly isSquare: boolean;
  readonly steps: readonly Step[];
  /** From the end of each level straight up. */
  readonly direct: readonly Step[];
  /** From the last level to the stop that is made, else to the surface. */
  readonly ascent: Step;
  readonly stop: StopTable | null;
  /** The stop of an emergency at the deepest point: also where the last level lies too shallow for it. */
  readonly emergencyStop: StopTable | null;
  /** As the dive says or is usual; a dive drawn shallower keeps it. */
  readonly wantedStop: Stop | null;
  readonly runtimeMin: number;
  /** The draws of depth that leave a dive, in centimetres. */
  readonly leastCm: number;
  readonly mostCm: number;
  /** The last level is not drawn shorter than this. */
  readonly leastStayMin: number;
}

/** The safety stop that is written into every run: within a metre of 10 m half of them would be without the usual one. */
export function wantedStopOf({ safetyStop, depthM }: Dive): Stop | null {
  if (safetyStop !== undefined) return safetyStop;
  return depthM > SAFETY_STOP_BEYOND_M ? USUAL_SAFETY_STOP : null;
}

function stopTable(stop: Stop | null, around: Surroundings): StopTable | null {
  if (stop === null) return null;
  const { depthM, min } = stop;
  const { decay, uptake } = legsMap(ascentLegs(depthM, [stop], around));
  return {
    depthM,
    decay,
    uptake,
    bar: ambientBar(depthM, around.column),
    min,
    lastMin: travelMin(depthM, 0, around),
  };
}

/**
 * The table of a dive.
 * @param dive one that is ahead: as planned
 * Source: core/profile.ts, whose legs these are.
 */
export function diveTable(dive: Dive, around: Surroundings): DiveTable {
  const bar = (m: number): number => ambientBar(m, around.column);
  const step = (
    min: number,
    fromM: number,
    toM: number,
    rest: Pick<Step, 'moved' | 'isLast' | 'fromMoves' | 'toMoves' | 'endsLevel'>,
  ): Step => ({
    min,
    fromBar: bar(fromM),
    toBar: bar(toM),
    slope: fromM === toM ? 0 : (bar(toM) - bar(fromM)) / min,
    lost: lostAfter(min),
    ...rest,
  });
  const straightUp = (fromM: number, toM: number): Step =>
    step(travelMin(fromM, toM, around), fromM, toM, {
      moved: 'ascent',
      isLast: false,
      fromMoves: 1,
      toMoves: 0,
      endsLevel: -1,
    });
  const levels = levelsOf(dive);
  const steps: Step[] = [];
  const direct: Step[] = [];
  let fromM = 0;
  levels.forEach(({ depthM, min }, level) => {
    const isFirst = level === 0;
    const wayMin = travelMin(fromM, depthM, around);
    const fromMoves = isFirst ? 0 : 1;
    if (wayMin > 0) {
      const moved = isFirst ? 'descent' : 'not';
      steps.push(step(wayMin, fromM, depthM, { moved, isLast: false, fromMoves, toMoves: 1, endsLevel: -1 }));
    }
    steps.push(
      step(Math.max(0, min - wayMin), depthM, depthM, {
        moved: isFirst ? 'stay' : 'not',
        isLast: level === levels.length - 1,
        fromMoves: 1,
        toMoves: 1,
        endsLevel: level,
      }),
    );
    direct.push(straightUp(depthM, 0));
    fromM = depthM;
  });
  const wantedStop = wantedStopOf(dive);
  const made = safetyStopOf(dive);
  const stop = stopTable(made, around);
  const deepestM = Math.max(...levels.map(({ depthM }) => depthM));
  const shallowestM = Math.min(...levels.map(({ depthM }) => depthM));
  const first = steps.find(({ endsLevel }) => endsLevel === 0)!;
  const lastStayMin = steps[steps.length - 1]!.min;
  const ascent = stop === null ? direct[direct.length - 1]! : straightUp(fromM, stop.depthM);
  const emergency = wantedStop !== null && wantedStop.depthM < deepestM ? wantedStop : null;
  const isSquare = levels.length === 1;
  return {
    dive,
    around,
    startMin: wallMin(dive.startsAt),
    bottomMin: levels.reduce((sum, { min }) => sum + min, 0),
    deepestM,
    deepestBar: bar(deepestM),
    lastM: fromM,
    lastBar: bar(fromM),
    lastStayMin,
    isSquare,
    steps,
    direct,
    ascent,
    stop,
    emergencyStop: stopTable(emergency, around),
    wantedStop,
    runtimeMin:
      steps.reduce((sum, { min }) => sum + min, 0) +
      ascent.min +
      (stop === null ? 0 : stop.min + stop.lastMin),
    leastCm: Math.min(0, Math.ceil((SHALLOWEST_M - shallowestM) * CM)),
    // The way down has to fit into the first level, whose minutes stay; the last of them may be drawn longer.
    mostCm: isSquare ? Infinity : Math.floor(first.min * around.descentMPerMin * CM),
    leastStayMin: Math.min(LEAST_STAY_MIN, lastStayMin),
  };
}

/**
 * Whether a dive drawn deeper or shallower makes a stop that the plan does not, or leaves one out.
 * @param cm deeper than planned, centimetres
 * Source: CONVENTIONS, "How sturdy a plan is".
 */
export function isOtherShape(
  { wantedStop, stop, emergencyStop, lastM, deepestM }: DiveTable,
  cm: number,
): boolean {
  if (wantedStop === null || cm === 0) return false;
  const { depthM } = wantedStop;
  return (
    depthM < lastM + cm / CM !== (stop !== null) || depthM < deepestM + cm / CM !== (emergencyStop !== null)
  );
}
