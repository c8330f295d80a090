/** From what is shown to where it stands: everything of a dive in pixels, as plain values a memo can compare. */
import { memoEach, takingUp } from '../../../store/memo';
import { isSame } from '../../../../core/same';
import type { DepthScale } from './depth-scale';
import type { DiveView, Point } from './dive-view';
import { labelVariants } from './label-text';
import type { Box } from './boxes';
import {
  placeLabels,
  type LabelledDive,
  type Page as LabelPage,
  type PlacedLabel,
  type Placement,
} from './labels';
import { hasWayUp, stripForm, type StripForm } from './strip-form';
import { placeOf, type TimeScale } from './time-scale';

/** Flat on purpose: a mark is drawn again only where one of these differs. */
export interface Mark {
  readonly lineX: number;
  readonly weightY: number;
  readonly barEndX: number;
  readonly barEndY: number;
  readonly surfacesX: number;
  readonly barPath: string;
  /** Empty where days are too narrow for it. */
  readonly upPath: string;
  /** Where the limit is met, on a dive that goes past it by minutes; null else. */
  readonly limitX: number | null;
  /** Where the limit would be met, were the diver to stay; null where that is not drawn. */
  readonly roomEndX: number | null;
  /** All of a dive that was made, from the surface to the surface, to be filled; empty else. */
  readonly filledPath: string;
  /** What was planned, where that is not what was made; empty else. */
  readonly ghostPath: string;
  readonly ghostX: number;
  readonly ghostY: number;
  readonly label: PlacedLabel | null;
  /** The same label has the same: it is an object, made anew each time. */
  readonly labelKey: string;
  /** From the surfacing of the dive before to its line; null where it is not written. */
  readonly intervalFromX: number | null;
}

const DAY_MIN = 1440;
/** On a dive past its limit the stroke of the limit stands at least so far from the ends of the bar. */
const STROKE_PX = 5;
/** An interval is written where its figures have room between the two strokes at its ends. */
const INTERVAL_PX = 44;

/** Tenths of a pixel are finer than anybody sees, and keep marks equal that have not moved. */
function fine(px: number): number {
  return Math.round(px * 10) / 10;
}

/** What the dives have to say, and where they lie. */
export interface MarksSource {
  readonly views: readonly DiveView[];
  readonly time: TimeScale;
  readonly depth: DepthScale;
  readonly heightPx: number;
  readonly textScale: number;
  readonly written?: readonly Box[];
}

/** Past a limit, the tightest; of those alike the deeper. */
function rankOf(view: DiveView): number {
  return Number(view.isPast) * 4 + Number(view.isTightestOfTrip) * 2 + view.depthM / 1000;
}

/** By rank, then by room: what is told of a day comes first. */
function orderOf(view: DiveView): readonly [number, number] {
  return [Math.floor(rankOf(view)), -(view.roomMin ?? Infinity)];
}

/** Of each day the dive that is told, where there is room for one: by rank, else the one with the least room. */
function toldOfDays(views: readonly DiveView[]): ReadonlySet<string> {
  const told = new Map<number, DiveView>();
  for (const view of views) {
    if (view.isMissed) continue;
    const day = Math.floor(view.startMin / DAY_MIN);
    const held = told.get(day);
    const [rank, tightness] = orderOf(view);
    const [heldRank, heldTightness] = held === undefined ? [-Infinity, -Infinity] : orderOf(held);
    if (rank > heldRank || (rank === heldRank && tightness > heldTightness)) told.set(day, view);
  }
  return new Set([...told.values()].map(({ id }) => id));
}

const variantsOf = memoEach((view: DiveView, given: { form: StripForm; dayWidthPx: number }) =>
  labelVariants(view, given.form, given.dayWidthPx),
);

export function labelledDives(source: MarksSource): readonly LabelledDive[] {
  const { views, time, depth, textScale } = source;
  const form = stripForm(time.dayWidthPx, textScale);
  const told = form === 'least' ? toldOfDays(views) : null;
  const deepestOfDays = new Map<number, number>();
  if (told !== null) {
    for (const view of views) {
      const day = Math.floor(view.startMin / DAY_MIN);
      deepestOfDays.set(day, Math.max(deepestOfDays.get(day) ?? 0, view.depthM * depth.pxPerM));
    }
  }
  const x = (min: number) => fine(placeOf(time, min));
  const y = (depthM: number) => fine(depthM * depth.pxPerM);
  return views.map((view) => {
    const day = Math.floor(view.startMin / DAY_MIN);
    const isSilent = told !== null && !told.has(view.id);
    return {
      lineX: x(view.startMin),
      weightY: y(view.weightM),
      bar: view.bottom.map(({ atMin, depthM }) => ({ x: x(atMin), y: y(depthM) })),
      filled:
        view.isAsDived && !view.isMissed
          ? { left: x(view.startMin), right: x(view.bottomEndMin), top: 0, bottom: y(view.depthM) }
          : null,
      dayFromX: x(day * DAY_MIN),
      dayUntilX: x((day + 1) * DAY_MIN),
      variants: isSilent ? [] : variantsOf(view, { form, dayWidthPx: time.dayWidthPx / textScale }),
      rank: rankOf(view),
      hasRing: view.isTightestOfTrip,
      fromY: told === null ? y(view.weightM) : deepestOfDays.get(day)!,
    };
  });
}

/** Labels, and all that they were placed by. */
interface Placed {
  readonly dives: readonly LabelledDive[];
  readonly page: LabelPage;
  readonly placement: Placement;
}

/** What says the same at the same places is placed as it was: much of what is logged or noted is not on the strip. */
const placed = takingUp((before: Placed | undefined, source: MarksSource): Placed => {
  const { time, heightPx, textScale, written = [] } = source;
  const dives = labelledDives(source);
  const page = { widthPx: time.widthPx, heightPx, textScale, written };
  if (before && isSame(before.page, page) && isSame(before.dives, dives)) return before;
  return { dives, page, placement: placeLabels(dives, page) };
});

/** Where the words of all dives stand, whichever is chosen: to choose moves none of them. */
export function placementOf(source: MarksSource): Placement {
  return placed(source).placement;
}

/**
 * The words of the one chosen dive where it has none otherwise, in what place there is left: beside the light, those of
 * another dive of its day could be taken for its own.
 */
export function wordsOfChosen(
  { views, time, textScale }: MarksSource,
  { labels, besides }: Placement,
  chosen: DiveView,
): PlacedLabel | null {
  const at = views.indexOf(chosen);
  if (labels[at] !== null) return null;
  const form = stripForm(time.dayWidthPx, textScale);
  const variants = variantsOf(chosen, { form, dayWidthPx: time.dayWidthPx / textScale });
  return besides([{ at, variants }])[0] ?? null;
}

const keys = new WeakMap<PlacedLabel, string>();

function wordsOf(label: PlacedLabel | null): Pick<Mark, 'label' | 'labelKey'> {
  if (label === null) return { label, labelKey: '' };
  let labelKey = keys.get(label);
  if (labelKey === undefined) keys.set(label, (labelKey = JSON.stringify(label)));
  return { label, labelKey };
}

export function marksOf(source: MarksSource, { labels }: Placement): readonly Mark[] {
  const { views, time, depth, textScale } = source;
  const form = stripForm(time.dayWidthPx, textScale);
  const x = (min: number) => fine(placeOf(time, min));
  const y = (depthM: number) => fine(depthM * depth.pxPerM);
  const path = (points: readonly Point[]) =>
    points.map(({ atMin, depthM }, i) => `${i === 0 ? 'M' : 'L'}${x(atMin)} ${y(depthM)}`).join('');
  return views.map((view, i) => {
    const end = view.bottom.at(-1)!;
    const lineX = x(view.startMin);
    const barEndX = x(end.atMin);
    return {
      lineX,
      weightY: y(view.weightM),
      barEndX,
      barEndY: y(end.depthM),
      surfacesX: x(view.surfacesMin),
      barPath: path(view.bottom),
      upPath: hasWayUp(time.dayWidthPx, textScale) || view.isAsDived ? path(view.wayUp) : '',
      limitX: limitPlace(view, barEndX, lineX, x),
      roomEndX: roomPlace(view, form, x),
      filledPath: view.isAsDived ? `M${lineX} 0L${path([...view.bottom, ...view.wayUp]).slice(1)}` : '',
      ghostPath: view.planned === null ? '' : path(view.planned),
      ghostX: view.planned === null ? 0 : x(view.planned[0]!.atMin),
      ghostY: view.planned === null ? 0 : y(view.planned[1]!.depthM),
      ...wordsOf(labels[i]!),
      intervalFromX: intervalPlace(view, form, lineX, textScale, x),
    };
  });
}

type PlaceOf = (min: number) => number;

function limitPlace(view: DiveView, barEndX: number, lineX: number, x: PlaceOf): number | null {
  if (!view.isPast || view.roomMin === null) return null;
  const meets = x(view.bottomEndMin + view.roomMin);
  return Math.max(lineX + STROKE_PX, Math.min(meets, barEndX - STROKE_PX));
}

function roomPlace(view: DiveView, form: StripForm, x: PlaceOf): number | null {
  if (form !== 'day' || view.isPast || view.isAsDived || view.roomMin === null) return null;
  return x(view.bottomEndMin + view.roomMin);
}

function intervalPlace(view: DiveView, form: StripForm, lineX: number, k: number, x: PlaceOf): number | null {
  if (form !== 'day' || view.interval === '') return null;
  const fromX = x(view.intervalFromMin);
  return lineX - fromX >= INTERVAL_PX * k ? fromX : null;
}
