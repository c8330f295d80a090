/** What the parts of a strip on paper share: the trip as it is drawn, its plan on the page, its small type. */
import type { DiverLedger } from '../../ledger/ledger-types';
import { timelineOf, type Steps, type TimelinePoint } from '../../ledger/timeline';
import type { Trip } from '../../document/types';
import type { Words } from '../../words/reader';
import type { Setter, TextStyle } from '../layout';
import type { SlateUnits } from '../figures';
import type { TripDay } from './content';
import { DAY_MIN, timeScale, type TimeScale } from './scale';

/** Sums of a day, and what stands at a scale. */
export const SUM: TextStyle = { font: 'text', sizePt: 9 };
export const SUM_PT = 11;

/** White between a scale and its plot, points. */
export const GUTTER_GAP_PT = 4;

/** Finer is not told apart on a trip printed across a page. */
const PRINTED_STEPS: Steps = { waterMin: 2, surfaceMin: 5 };

/** What is drawn of one diver's trip, worked out once for all pages that are tried. */
export interface TripDrawing {
  readonly scale: TimeScale;
  readonly points: readonly TimelinePoint[];
  readonly days: readonly TripDay[];
}

/** Prepares the drawing of a diver who makes at least one dive. Source: core/ledger/timeline.ts. */
export function tripDrawing(trip: Trip, mine: DiverLedger, days: readonly TripDay[]): TripDrawing {
  const scale = timeScale(days.flatMap(({ dives }) => dives.map(({ entry }) => entry)));
  const lastMin = (scale.firstDay + scale.days) * DAY_MIN - 1;
  const points = timelineOf(mine, trip, lastMin, PRINTED_STEPS).points.filter(
    (point) => point.atMin >= scale.firstDay * DAY_MIN,
  );
  return { scale, points, days };
}

/** The days of a strip, the first of the trip being 0, and how high its parts are. */
export interface StripPlan {
  readonly first: number;
  readonly count: number;
  readonly divesPt: number;
  readonly nitrogenPt: number;
  readonly oxygenPt: number;
}

/** What every part of a strip is drawn with. */
export interface StripContext {
  readonly set: Setter;
  readonly words: Words;
  readonly units: SlateUnits;
  readonly drawing: TripDrawing;
  readonly plan: StripPlan;
  /** Width of the plots, and of what stands left of them. */
  readonly widthPt: number;
  readonly gutterPt: number;
}

/** Place of a moment across the plots; moments of other strips lie outside of 0 to `widthPt`. */
export function xOf({ drawing, plan, widthPt }: StripContext, min: number): number {
  return ((drawing.scale.at(min) - plan.first) / plan.count) * widthPt;
}
