/** The points of the bands with their places on the page: what the charts draw, ready made. */
import { wallMin } from '../../../../core/words/calendar';
import { surfaceLimits } from '../../../../core/ledger/entry';
import type { DiverLedger } from '../../../../core/ledger/ledger-types';
import { timelineOf, type Timeline, type TimelinePoint } from '../../../../core/ledger/timeline';
import type { Trip } from '../../../../core/document/types';
import { AIR_N2, COMPARTMENT_COUNT, inspiredBar } from '../../../../core/tissues/compartments';
import { takingUp } from '../../../store/memo';
import { placeOf, type TimeScale } from './time-scale';
import { surroundingsOf } from '../../../../core/profile';

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

/** One diver's bands are on show at a time; those of the edit before are taken up. */
const bandsOf = takingUp(
  (previous: Timeline | undefined, ledger: DiverLedger, trip: Trip, untilMin: number) =>
    timelineOf(ledger, trip, untilMin, previous),
);

export function timelineFor(trip: Trip, ledger: DiverLedger, pageEndMin: number): readonly TimelinePoint[] {
  if (ledger.entries.length === 0) return [];
  return bandsOf(ledger, trip, bandsEndMin(trip, ledger, pageEndMin)).points;
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

/** The share of its limit of every compartment, for the points of a timeline; compartment 1 is at 0. */
export function compartmentShares(
  trip: Trip,
  ledger: DiverLedger,
  timeline: readonly TimelinePoint[],
): readonly (readonly number[])[] {
  const { column } = surroundingsOf(trip);
  const restBar = AIR_N2 * inspiredBar(column.surfaceBar);
  const limits = surfaceLimits(column, ledger.diver.gradient.high);
  return timeline.map(({ tensions }) =>
    Array.from({ length: COMPARTMENT_COUNT }, (_, i) => (tensions[i]! - restBar) / (limits[i]! - restBar)),
  );
}

/** The top of a band: what it must show with a little air above, in whole steps so that it seldom jumps. */
export function bandTop(highest: number, least: number): number {
  return Math.max(least, Math.ceil((highest * 1.06) / 0.25) * 0.25);
}
