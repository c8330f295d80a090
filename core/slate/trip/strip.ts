/** The strip of a trip on paper: days beside each other, the dives beneath the water, what is carried beneath them. */
import type { Entry } from '../../ledger/ledger-types';
import { M_PER_FOOT } from '../../units';
import { dayNumber, wallMin } from '../../words/calendar';
import type { Words } from '../../words/reader';
import { figure, said } from '../../words/said';
import {
  area,
  polyline,
  straight,
  tagged,
  type Block,
  type Mark,
  type Point,
  type Setter,
  type TextStyle,
} from '../layout';
import { slanted } from '../markup';
import type { SlateUnits } from '../figures';
import type { TripDay, TripDive } from './content';
import { BAND_PT, nitrogenMarks, oxygenMarks } from './bands';
import {
  GUTTER_GAP_PT,
  SUM,
  SUM_PT,
  xOf,
  type StripContext,
  type StripPlan,
  type TripDrawing,
} from './drawing';
import { DAY_MIN } from './scale';

/** Type of the strip, points. */
const DAY: TextStyle = { font: 'bold', sizePt: 13 };
const HOUR: TextStyle = { font: 'bold', sizePt: 10 };
const WEIGHT: TextStyle = { font: 'bold', sizePt: 13 };

/** Heights of lines, points. */
const DAY_PT = 15;
const HOUR_PT = 11.5;
/** Under the deepest dive its figure has its place. */
const UNDER_PT = 30;
const INSET_PT = 3;

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function meets(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

function daysOf({ drawing, plan }: StripContext): readonly { readonly at: number; readonly day: TripDay }[] {
  return drawing.days
    .map((day) => ({
      at: dayNumber(wallMin(`${day.date}T00:00`)) - drawing.scale.firstDay - plan.first,
      day,
    }))
    .filter(({ at }) => at >= 0 && at < plan.count);
}

function divesOf(context: StripContext): readonly TripDive[] {
  return daysOf(context).flatMap(({ day }) => day.dives);
}

/** The hours of entering over the water: where two would touch the later one stands a line higher. */
interface Hours {
  readonly rows: number;
  readonly texts: readonly {
    readonly text: string;
    readonly x: number;
    readonly row: number;
    readonly atX: number;
  }[];
}

function hoursOf(context: StripContext): Hours {
  const { set, widthPt } = context;
  const ends: number[] = [];
  const texts = divesOf(context).map(({ start, entry }) => {
    const atX = xOf(context, entry.startMin);
    const wide = set.width(start, HOUR);
    const x = Math.max(0, Math.min(widthPt - wide, atX - wide / 2));
    let row = ends.findIndex((end) => end <= x);
    if (row < 0) row = ends.length;
    ends[row] = x + wide + INSET_PT;
    return { text: start, x, row, atX };
  });
  return { rows: Math.max(1, ends.length), texts };
}

function headMarks(context: StripContext, x: number, y: number): readonly Mark[] {
  const { set, plan, widthPt } = context;
  const wide = widthPt / plan.count;
  return daysOf(context).flatMap(({ at, day }) => {
    const left = x + at * wide + INSET_PT;
    const fitting = (texts: readonly string[], style: TextStyle): string =>
      texts.find((text) => set.width(text, style) <= wide - 1.5 * INSET_PT) ?? '';
    const head = set.text(fitting(day.heads, DAY), DAY, wide);
    return [
      ...tagged(head, { is: 'H2' }).at(left, y),
      ...set.text(fitting(day.sums, SUM), SUM, wide).at(left, y + DAY_PT),
    ];
  });
}

function hourMarks({ set }: StripContext, { rows, texts }: Hours, x: number, y: number): readonly Mark[] {
  const foot = y + rows * HOUR_PT;
  return texts.flatMap(({ text, x: at, row, atX }) => {
    const top = foot - (row + 1) * HOUR_PT;
    // A line up to an hour that was raised, unless it went through another.
    const isFree = texts.every(
      (other) => other.row >= row || other.x > atX + 1 || other.x + set.width(other.text, HOUR) < atX - 1,
    );
    return [
      ...(row > 0 && isFree ? [straight(x + atX, top + HOUR_PT, x + atX, foot, 0.4)] : []),
      ...set.text(text, HOUR, set.width(text, HOUR) + 1).at(x + at, top),
    ];
  });
}

/** Down, along the bottom, and up again: thin, thick, dotted. */
function diveMarks(
  entry: Entry,
  xAt: (min: number) => number,
  yAt: (depthM: number) => number,
): readonly Mark[] {
  const marks: Mark[] = [];
  let min = 0;
  for (const { fromM, toM, min: length } of entry.legs) {
    const [from, to] = [
      { x: xAt(entry.startMin + min), y: yAt(fromM) },
      { x: xAt(entry.startMin + min + length), y: yAt(toM) },
    ];
    const isWayUp = min > entry.bottomMin - 1e-6;
    const isBottom = !isWayUp && fromM === toM;
    marks.push(polyline([from, to], isBottom ? 3 : 0.7, isWayUp ? [0.8, 1.6] : undefined));
    min += length;
  }
  return marks;
}

/** The weight at the end of a lead line. */
function weightMark(x: number, y: number): Mark {
  return area(
    [
      { x: x - 1.6, y: y - 4.5 },
      { x: x + 1.6, y: y - 4.5 },
      { x: x + 3.2, y: y + 1.5 },
      { x: x - 3.2, y: y + 1.5 },
    ],
    0,
  );
}

/** Dots round a dive, as round a rock on a chart. */
function dotsRound(centre: Point, width: number, height: number): Mark {
  const points = Array.from({ length: 25 }, (_, i) => {
    const turn = (i / 24) * 2 * Math.PI;
    return { x: centre.x + width * Math.cos(turn), y: centre.y + height * Math.sin(turn) };
  });
  return polyline(points, 1.2, [1.2, 1.8]);
}

/** When the bottom is first reached at the deepest level. */
function weightAtMin({ legs, startMin }: Entry): { readonly min: number; readonly depthM: number } {
  let [min, at, depthM] = [0, 0, 0];
  for (const leg of legs) {
    min += leg.min;
    if (leg.toM > depthM + 1e-9) [at, depthM] = [min, leg.toM];
  }
  return { min: startMin + at, depthM };
}

function plotMarks(context: StripContext, x: number, y: number): readonly Mark[] {
  const { set, words, units, widthPt, gutterPt, plan, drawing } = context;
  const least = units === 'imperial' ? 30 * M_PER_FOOT : 10;
  const deepest = Math.max(
    ...drawing.days.flatMap(({ dives }) => dives.map(({ entry }) => entry.depthM)),
    least,
  );
  const plotPt = plan.divesPt - UNDER_PT;
  const yAt = (depthM: number): number => y + (depthM / deepest) * plotPt;
  const xAt = (min: number): number => x + xOf(context, min);
  // On a low strip every second or third line: two depths must not lie on each other.
  const step = least * Math.ceil(SUM_PT / ((least / deepest) * plotPt));
  const marks: Mark[] = [];
  for (let depthM = step; depthM <= deepest + 1e-6; depthM += step) {
    const label = words(said`${slanted(figure('depthSet', depthM))}`);
    const style: TextStyle = { ...SUM, align: 'right' };
    marks.push(
      straight(x, yAt(depthM), x + widthPt, yAt(depthM), 0.3, [0.6, 2.4]),
      ...set.text(label, style, gutterPt - GUTTER_GAP_PT).at(x - gutterPt, yAt(depthM) - SUM_PT / 2),
    );
  }
  const taken: Box[] = [];
  for (const dive of divesOf(context)) {
    const { entry } = dive;
    if (!entry.isMade) continue;
    const { min, depthM } = weightAtMin(entry);
    const at = { x: xAt(min), y: yAt(depthM) };
    marks.push(...diveMarks(entry, xAt, yAt), weightMark(at.x, at.y - 1.5));
    const wide = Math.max(set.width(dive.weight, WEIGHT), set.width(dive.weightMix, SUM));
    const high = 13 + (dive.weightMix === '' ? 0 : SUM_PT);
    const left = Math.max(x, Math.min(x + widthPt - wide, at.x - wide / 2 + 2));
    const box = (top: number): Box => ({ left: left - 1, right: left + wide + 1, top, bottom: top + high });
    let top = at.y + 3.5;
    for (const other of taken) if (meets(box(top), other)) top = other.bottom;
    // Where it has no place left the table still tells it.
    if (top + high > y + plan.divesPt) continue;
    taken.push(box(top));
    taken.sort((a, b) => a.top - b.top);
    if (dive.isTightest && top < at.y + 6) {
      marks.push(dotsRound({ x: left + wide / 2, y: at.y + 6 }, Math.max(11, wide / 2 + 5), 14));
    }
    marks.push(
      ...set.text(dive.weight, WEIGHT, wide + 1).at(left, top - 1),
      ...set.text(dive.weightMix, SUM, wide + 1).at(left, top + 12),
    );
  }
  return marks;
}

/** The water: thick at night, which is drawn narrow. */
function waterMarks(context: StripContext, x: number, y: number): readonly Mark[] {
  const { drawing, plan, widthPt } = context;
  const { firstDay, fromMin, toMin } = drawing.scale;
  const marks: Mark[] = [straight(x, y, x + widthPt, y, 1)];
  for (let day = plan.first; day < plan.first + plan.count; day += 1) {
    const midnight = (firstDay + day) * DAY_MIN;
    const dusk = x + xOf(context, midnight + toMin);
    const dawn = x + xOf(context, midnight + fromMin);
    const [left, right] = [
      x + ((day - plan.first) / plan.count) * widthPt,
      x + ((day - plan.first + 1) / plan.count) * widthPt,
    ];
    marks.push(straight(left, y, dawn, y, 3), straight(dusk, y, right, y, 3));
  }
  return marks;
}

/** How high a strip is beside its plots. */
export function stripFixedPt(rows: number): number {
  return DAY_PT + SUM_PT + 3 + rows * HOUR_PT + 2;
}

/** The least heights of the parts at which they can be read, points. */
export const STRIP_LEAST = { divesPt: 70, nitrogenPt: 40, oxygenPt: 34 } as const;

/**
 * Days of a trip as a drawing.
 * @param widthPt whole width, the scales at its left included
 */
export function stripBlock(
  set: Setter,
  words: Words,
  units: SlateUnits,
  drawing: TripDrawing,
  plan: StripPlan,
  widthPt: number,
): { readonly block: Block; readonly gutterPt: number; readonly fixedPt: number } {
  const labels = [
    said`limit`,
    said`${figure('shareMet', 1)}`,
    said`${slanted(figure('depthSet', units === 'imperial' ? 120 * M_PER_FOOT : 30))}`,
  ];
  const gutterPt = Math.max(...labels.map((label) => set.width(words(label), SUM))) + GUTTER_GAP_PT;
  const context: StripContext = { set, words, units, drawing, plan, widthPt: widthPt - gutterPt, gutterPt };
  const hours = hoursOf(context);
  const fixedPt = stripFixedPt(hours.rows);
  return {
    gutterPt,
    fixedPt,
    block: {
      heightPt: fixedPt + plan.divesPt + plan.nitrogenPt + plan.oxygenPt + SUM_PT / 2,
      at: (x, y) => {
        const left = x + gutterPt;
        const hoursY = y + DAY_PT + SUM_PT + 3;
        const water = hoursY + hours.rows * HOUR_PT + 2;
        const nitrogenY = water + plan.divesPt;
        const oxygenY = nitrogenY + plan.nitrogenPt;
        const foot = oxygenY + plan.oxygenPt;
        const marks: Mark[] = [];
        for (let d = 0; d <= plan.count; d += 1) {
          const at = left + (d / plan.count) * context.widthPt;
          marks.push(straight(at, y, at, nitrogenY, 0.3));
          if (oxygenY > nitrogenY) marks.push(straight(at, nitrogenY + BAND_PT, at, oxygenY, 0.3));
          if (foot > oxygenY) marks.push(straight(at, oxygenY + BAND_PT, at, foot, 0.3));
        }
        return [
          ...marks,
          ...headMarks(context, left, y),
          ...hourMarks(context, hours, left, hoursY),
          ...waterMarks(context, left, water),
          ...plotMarks(context, left, water),
          ...nitrogenMarks(context, left, nitrogenY),
          ...oxygenMarks(context, left, oxygenY),
        ];
      },
    },
  };
}
