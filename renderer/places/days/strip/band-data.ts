/** The points of the bands with their places on the page: what the charts draw, ready made. */
import { wallMin } from '../../../../core/words/calendar';
import type { DiverLedger } from '../../../../core/ledger/ledger-types';
import { timelineOf, type Steps, type Timeline, type TimelinePoint } from '../../../../core/ledger/timeline';
import type { Trip } from '../../../../core/document/types';
import { COMPARTMENT_COUNT } from '../../../../core/tissues/compartments';
import { takingUp } from '../../../store/memo';
import { placeOf, WEIGHT, type TimeScale } from './time-scale';

export interface BandPoint {
  /** Pixels from the left edge of the strip. */
  readonly x: number;
  readonly atMin: number;
  readonly depthM: number;
  readonly share: number;
  readonly compartment: number;
  readonly cns: number | null;
  readonly cnsDay: number | null;
}

/** From the first dive to the flight home; without one, or with one beyond the page, until flying is clear. */
export function bandsEndMin(trip: Trip, ledger: DiverLedger, pageEndMin: number): number {
  const flightMin = trip.flight === null ? null : wallMin(trip.flight.at);
  const wanted = Math.max(
    ...ledger.entries.map((entry) => entry.surfacesMin),
    ledger.flyAfterMin ?? 0,
    flightMin !== null && flightMin <= pageEndMin ? flightMin : 0,
  );
  return Math.min(wanted, pageEndMin);
}

/** A step of time as short as one pixel, in powers of two so that an edit seldom changes it. */
function pixelMin(pxPerMin: number): number {
  return 2 ** Math.floor(Math.log2(1 / pxPerMin));
}

/** How near the points of the bands lie: a pixel apart where time is widest, in the water and at the surface. */
export function stepsOf({ momentsMin, placesPx }: TimeScale): Steps {
  let widest = 0;
  for (let i = 1; i < momentsMin.length; i += 1) {
    const min = momentsMin[i]! - momentsMin[i - 1]!;
    if (min > 0) widest = Math.max(widest, (placesPx[i]! - placesPx[i - 1]!) / min);
  }
  return {
    waterMin: pixelMin(widest),
    surfaceMin: pixelMin((widest * WEIGHT.surface) / WEIGHT.water),
  };
}

/** One diver's bands are on show at a time; those of the edit before are taken up. */
const bandsOf = takingUp(
  (
    previous: Timeline | undefined,
    ledger: DiverLedger,
    trip: Trip,
    untilMin: number,
    waterMin: number,
    surfaceMin: number,
  ) => timelineOf(ledger, trip, untilMin, { waterMin, surfaceMin }, previous),
);

export function timelineFor(
  trip: Trip,
  ledger: DiverLedger,
  pageEndMin: number,
  { waterMin, surfaceMin }: Steps,
): readonly TimelinePoint[] {
  if (ledger.entries.length === 0) return [];
  return bandsOf(ledger, trip, bandsEndMin(trip, ledger, pageEndMin), waterMin, surfaceMin).points;
}

export function bandPoints(timeline: readonly TimelinePoint[], time: TimeScale): readonly BandPoint[] {
  return timeline.map(({ atMin, depthM, fractionOfLimit, compartment, cns, cnsDay }) => ({
    x: placeOf(time, atMin),
    atMin,
    depthM,
    share: fractionOfLimit,
    compartment,
    cns,
    cnsDay,
  }));
}

/** As the curve, for every compartment: its share of its limit, were the diver to go straight up; the first is at 0. */
export function compartmentShares(timeline: readonly TimelinePoint[]): readonly (readonly number[])[] {
  return timeline.map(({ surfacingTensions, scale: { restBar, limits } }) =>
    Array.from(
      { length: COMPARTMENT_COUNT },
      (_, i) => (surfacingTensions[i]! - restBar) / (limits[i]! - restBar),
    ),
  );
}

/** Whole steps, so that the top of a band seldom jumps. */
const TOP_STEP = 0.1;

/** The top of a band: what it must show with a little air above, in tenths of its limit. */
export function bandTop(highest: number, least: number): number {
  // The division's dust must not make a step more of it.
  return Math.max(least, Math.ceil((highest * 1.06) / TOP_STEP - 1e-9) * TOP_STEP);
}

const MARK_STEPS = [0.1, 0.25, 0.5, 1, 2, 5, 10, 50, 100] as const;

/**
 * The shares that are written beside a band: 0, and round ones with room between them.
 * @param leastPx how near two figures may stand
 */
export function shareMarks(top: number, heightPx: number, leastPx: number): readonly number[] {
  const step = MARK_STEPS.find((each) => (each / top) * heightPx >= leastPx) ?? top;
  const count = Math.floor(top / step + 1e-9);
  return Array.from({ length: count + 1 }, (_, i) => i * step);
}
