import { noStopLimitMin } from '../ascent/no-stop-limit';
import { leadingShare } from '../ascent/tolerated';
import { applyMap } from '../tissues/affine-map';
import { AIR_N2, inspiredBar } from '../tissues/compartments';
import { breathedMap, nitrogenInspiredBar } from '../tissues/breathed-legs';
import type { WallMin } from '../words/calendar';
import { nitrogenOf } from './breathed-oxygen';
import { planOf } from './dive-plan';
import { surfaceLimits } from './nitrogen-outcome';
import type { Entry } from './ledger-types';
import type { Trip } from '../document/types';

/** A moment after the bottom is left as planned, were the diver still there. */
export interface StayedPoint {
  readonly atMin: WallMin;
  /** The largest share of its limit that a compartment would have on surfacing from a direct ascent. */
  readonly fractionOfLimit: number;
}

/** What a diver comes to who stays at the last level. */
export interface Stayed {
  /** From leaving the bottom as planned on, in order of time; the last is the limit where it is met. */
  readonly points: readonly StayedPoint[];
  /** Minutes from there until a direct ascent just meets the limit; null where that is later than was asked for. */
  readonly limitInMin: number | null;
}

/**
 * The share of the limit had the diver stayed: of one question, the limit on surfacing, what the bands ask of every
 * moment. It goes on from the curve of the dive as planned and is at 1 when the no-stop time is up.
 * @param entry of a dive that is made, without stops @param trip the document it was reckoned from
 * @param mostMin how long it is followed, minutes above 0 @param stepMin between points, minutes above 0
 * @returns null for a dive that is past its limit on leaving, and for one that was recorded: there is nothing to stay for
 * Source: as the no-stop limit; CONVENTIONS, "Share of the limit".
 */
export function hadYouStayed(entry: Entry, trip: Trip, mostMin: number, stepMin: number): Stayed | null {
  if (!entry.isMade || entry.isPastLimit) return null;
  const plan = planOf(trip, entry);
  if (plan.isRecorded) return null;
  const { column, breathing } = plan.around;
  const n2 = nitrogenOf(entry);
  const { lastLevel } = plan.profile;
  const leaving = applyMap(plan.toLeaving, entry.tensionsBefore, n2);
  const limits = surfaceLimits(column, entry.diver.gradient.high);
  const restBar = AIR_N2 * inspiredBar(column.surfaceBar);
  const leftMin = noStopLimitMin({
    arrivalTensions: leaving,
    arrivalMin: 0,
    inspiredN2Bar: nitrogenInspiredBar(lastLevel.toM, lastLevel.toBar, n2, breathing),
    directAscent: plan.directAscent,
    n2Fraction: n2,
    limits,
  });
  const pointAfter = (min: number): StayedPoint => {
    const stayed = applyMap(breathedMap([{ ...lastLevel, min }], breathing), leaving, n2);
    const { fractionOfLimit } = leadingShare(applyMap(plan.directAscent, stayed, n2), restBar, limits);
    return { atMin: entry.startMin + entry.bottomMin + min, fractionOfLimit };
  };
  const untilMin = Math.min(leftMin, mostMin);
  const points: StayedPoint[] = [];
  for (let min = 0; min < untilMin; min += stepMin) points.push(pointAfter(min));
  points.push(pointAfter(untilMin));
  return { points, limitInMin: leftMin <= mostMin ? leftMin : null };
}
