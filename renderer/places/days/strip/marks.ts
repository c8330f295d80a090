/** From what is shown to where it stands: everything of a dive in pixels, as plain values a memo can compare. */
import type { DepthScale } from './depth-scale';
import type { DiveView, Point } from './dive-view';
import { placeLabels, type Box, type LabelledDive } from './labels';
import { placeOf, type TimeScale } from './time-scale';

/** Flat on purpose: a mark is drawn again only where one of these differs. */
export interface Mark {
  readonly lineX: number;
  readonly weightY: number;
  readonly barEndX: number;
  readonly barEndY: number;
  readonly surfacesX: number;
  readonly barPath: string;
  readonly upPath: string;
  readonly showsSounding: boolean;
  readonly soundingX: number;
  readonly soundingY: number;
  readonly mixPlace: 'beside' | 'below' | null;
  readonly showsInterval: boolean;
  readonly intervalX: number;
}

const DAY_MIN = 1440;

/** Tenths of a pixel are finer than anybody sees, and keep marks equal that have not moved. */
function fine(px: number): number {
  return Math.round(px * 10) / 10;
}

/** What is written at the weight: marks of care are part of its width. */
function soundingLabel(view: DiveView): string {
  return view.care === null ? view.sounding : `${view.sounding}${CARE_SIGN[view.care]}`;
}

export const CARE_SIGN = { stop: '!!', change: '!' } as const;

export function mixLabel({ mix, part }: Pick<DiveView, 'mix' | 'part'>): string {
  return part === null ? mix : `${mix}, ${part}`;
}

/** What the dives have to write, and where they lie. */
export function labelledDives(
  views: readonly DiveView[],
  time: TimeScale,
  depth: DepthScale,
  firstChoice: ReadonlySet<string>,
): readonly LabelledDive[] {
  const x = (min: number) => fine(placeOf(time, min));
  return views.map((view) => ({
    lineX: x(view.startMin),
    barEndX: x(view.bottomEndMin),
    weightY: fine(view.weightM * depth.pxPerM),
    sounding: soundingLabel(view),
    mix: mixLabel(view),
    interval: view.interval,
    intervalFromX: x(view.intervalFromMin),
    dayEndX: x((Math.floor(view.startMin / DAY_MIN) + 1) * DAY_MIN),
    isFirstChoice: view.isTightestOfTrip || firstChoice.has(view.id),
    hasCare: view.care !== null,
  }));
}

export function marksOf(
  views: readonly DiveView[],
  time: TimeScale,
  depth: DepthScale,
  heightPx: number,
  textScale: number,
  firstChoice: ReadonlySet<string>,
  written: readonly Box[] = [],
): readonly Mark[] {
  const x = (min: number) => fine(placeOf(time, min));
  const y = (depthM: number) => fine(depthM * depth.pxPerM);
  const path = (points: readonly Point[]) =>
    points.map(({ atMin, depthM }, i) => `${i === 0 ? 'M' : 'L'}${x(atMin)} ${y(depthM)}`).join('');
  const places = placeLabels(labelledDives(views, time, depth, firstChoice), {
    widthPx: time.widthPx,
    heightPx,
    textScale,
    written,
  });
  return views.map((view, i) => {
    const place = places[i]!;
    const end = view.bottom.at(-1)!;
    return {
      lineX: x(view.startMin),
      weightY: y(view.weightM),
      barEndX: x(end.atMin),
      barEndY: y(end.depthM),
      surfacesX: x(view.surfacesMin),
      barPath: path(view.bottom),
      upPath: path(view.wayUp),
      showsSounding: place.showsSounding,
      soundingX: fine(place.soundingX),
      soundingY: fine(place.soundingY),
      mixPlace: place.mix,
      showsInterval: place.showsInterval,
      intervalX: fine((placeOf(time, view.intervalFromMin) + placeOf(time, view.startMin)) / 2),
    };
  });
}
