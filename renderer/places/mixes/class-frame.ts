/** Where the pictures of the class stand, and how large their type is: pure, in pixels. */
import { CLASS_DEPTHS_M, CLASS_DIVER, type ClassGas } from '../../../core/mixes/class-dive';
import { fromUnit, rounded, toUnit, type System } from '../../../core/words/quantity';
import { mixLines, type MixLine } from './mix-line';

/** No mix is drawn so beside a loop: there are three at most. */
const LOOP_LINE: MixLine = { colour: 'var(--mix-4)', dashes: '18 3', isRound: false };

/** The line of each gas of the class. */
export function gasLines(gases: readonly ClassGas[]): readonly MixLine[] {
  const open = mixLines(gases.filter(({ loop }) => loop === null).map(({ mix }) => mix));
  return gases.map((_, at) => open[at] ?? LOOP_LINE);
}

/** The deepest that is drawn, metres. */
export const TO_M = CLASS_DEPTHS_M[1];

/** Pressures of oxygen across, bar. */
export const PO2_FROM = 0.2;
export const PO2_TO = 1.7;

/** Past the limit so much is drawn, as a share. */
export const MOST_SHARE = 1.18;

/** Of the width, for pressures; the rest is for minutes. */
export const LEFT_SHARE = 0.42;
const UPPER_SHARE = 0.58;

/** From one edge of a picture to the other. */
interface Span {
  readonly from: number;
  readonly to: number;
}

/** Pictures of one width: those by depth above, minutes beneath on the same scale. */
export interface ClassFrame {
  readonly widthPx: number;
  /** Size of the words; titles and figures are multiples of it. */
  readonly textPx: number;
  readonly upperPx: number;
  readonly lowerPx: number;
  /** Of both pictures: above stand the title and the figures of the axis. */
  readonly topPx: number;
  readonly isLarge: boolean;
  readonly left: Span;
  readonly right: Span;
  readonly lower: { readonly top: number; readonly bottom: number };
}

/** Large type is a share of what it is thrown on, so that the back row reads it on any projector. */
const LARGE = { heights: 42, widths: 74 } as const;

/** @param remPx size of the window's usual text */
export function classFrame(widthPx: number, heightPx: number, remPx: number, isLarge: boolean): ClassFrame {
  const textPx = isLarge
    ? Math.max(remPx * 0.875, Math.min(heightPx / (LARGE.heights * 0.85), widthPx / LARGE.widths))
    : remPx * 0.875;
  const upperPx = Math.round(heightPx * UPPER_SHARE);
  const lowerPx = Math.round(heightPx - upperPx);
  const middlePx = widthPx * LEFT_SHARE;
  return {
    widthPx,
    textPx,
    upperPx,
    lowerPx,
    topPx: textPx * 2.9,
    isLarge,
    left: { from: textPx * (isLarge ? 7.2 : 8.6), to: middlePx },
    right: { from: middlePx + textPx * (isLarge ? 4.8 : 5), to: widthPx - textPx * (isLarge ? 4.6 : 4.8) },
    lower: { top: textPx * 2.1, bottom: lowerPx - textPx * 1.8 },
  };
}

export function yPx({ topPx, upperPx }: ClassFrame, depthM: number): number {
  return topPx + ((upperPx - topPx - 4) * depthM) / TO_M;
}

/** The depth that a hand so far down the picture means, metres. */
export function depthAt({ topPx, upperPx }: ClassFrame, y: number): number {
  return ((y - topPx) * TO_M) / (upperPx - topPx - 4);
}

export function po2X({ left }: ClassFrame, bar: number): number {
  return left.from + ((left.to - left.from) * (Math.min(PO2_TO, bar) - PO2_FROM)) / (PO2_TO - PO2_FROM);
}

export function minX({ right }: ClassFrame, min: number, untilMin: number): number {
  return right.from + ((right.to - right.from) * min) / untilMin;
}

export function shareY({ lower }: ClassFrame, share: number): number {
  return lower.bottom - ((lower.bottom - lower.top) * Math.max(0, share)) / MOST_SHARE;
}

/** Depths that have a name, in whole tens of metres or thirties of feet. */
export function depthTicks(units: System): readonly number[] {
  return [0, 1, 2, 3, 4].map((i) => fromUnit(i * (units === 'imperial' ? 30 : 10), 'depth', units));
}

/** To the whole metre or foot, or to a tenth, so that what is told of a depth is told of that very depth. */
export function wholeDepth(depthM: number, isFine: boolean, units: System): number {
  return fromUnit(rounded(toUnit(depthM, 'depth', units), isFine ? 1 : 0, 'near'), 'depth', units);
}

export const PO2_LIMITS = [CLASS_DIVER.po2.working, CLASS_DIVER.po2.contingency] as const;

/** Where the minutes of a crossing stand: beside its dot, or over it so many lines higher. */
export interface MinutesLabel {
  readonly xPx: number;
  readonly line: number;
  readonly anchor: 'start' | 'middle' | 'end';
}

/** Shares of the type size: a digit of the minutes, a dot's half, and from its middle to the words. */
const DIGIT = 0.82;
const DOT = 0.43;
const BESIDE = 0.55;

/**
 * Minutes beside their dots, right or left, where they touch no other dot and no other minutes; else over them.
 * @param dots from left to right @param textPx size of the words
 */
export function minutesLabels(
  dots: readonly { readonly xPx: number; readonly digits: number }[],
  textPx: number,
): readonly MinutesLabel[] {
  const taken: { readonly line: number; readonly from: number; readonly to: number }[] = dots.map(
    ({ xPx }) => ({ line: 0, from: xPx - DOT * textPx, to: xPx + DOT * textPx }),
  );
  return dots.map(({ xPx, digits }) => {
    const width = digits * DIGIT * textPx;
    const right = xPx + BESIDE * textPx;
    const left = xPx - BESIDE * textPx;
    const over = dots.map((_, line) => ({
      xPx,
      line: line + 1,
      anchor: 'middle' as const,
      from: xPx - width / 2,
    }));
    const offers = [
      { xPx: right, line: 0, anchor: 'start' as const, from: right },
      { xPx: left, line: 0, anchor: 'end' as const, from: left - width },
      ...over,
    ];
    const isFree = ({ line, from }: (typeof offers)[number]): boolean =>
      taken.every((each) => each.line !== line || each.to < from || each.from > from + width);
    const { from, ...label } = offers.find(isFree)!;
    taken.push({ line: label.line, from, to: from + width });
    return label;
  });
}

type Point = readonly [number, number];

/** Attributes of a path through points. */
export function pathOf(points: readonly Point[]): string {
  return points
    .map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${Math.round(x * 10) / 10} ${Math.round(y * 10) / 10}`)
    .join('');
}

/**
 * A line as far as it lies within an edge, its last or first stretch cut there.
 * @param isInside by one coordinate alone @param at which one @param edge its value on the edge
 */
export function cutAt(points: readonly Point[], at: 0 | 1, edge: number, isBelow: boolean): readonly Point[] {
  const isInside = (point: Point): boolean => (isBelow ? point[at] <= edge : point[at] >= edge);
  const cut: Point[] = [];
  points.forEach((point, i) => {
    const before = points[i - 1];
    if (before && isInside(before) !== isInside(point)) {
      const share = (edge - before[at]) / (point[at] - before[at]);
      cut.push([before[0] + share * (point[0] - before[0]), before[1] + share * (point[1] - before[1])]);
    }
    if (isInside(point)) cut.push(point);
  });
  return cut;
}
