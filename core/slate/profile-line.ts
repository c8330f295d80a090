import type { Leg } from '../profile';
import { runtimeMin } from '../profile';
import {
  area,
  polyline,
  straight,
  type Block,
  type Mark,
  type Point,
  type Setter,
  type TextStyle,
} from './layout';

/** Grey under the profile: light enough for a pencil mark, dark enough for a poor printer. */
const WATER_GREY = 0.88;

/** Ticks stand this far apart. Source: common practice. */
const TICK_MIN = 10;
const TICK_M = 10;

/**
 * The line a diver follows, from the surface to the surface.
 * @param xOf place of a minute of the dive @param yOf place of a depth in metres
 */
export function depthLine(
  legs: readonly Leg[],
  xOf: (min: number) => number,
  yOf: (depthM: number) => number,
): readonly Point[] {
  const line: Point[] = [{ x: xOf(0), y: yOf(0) }];
  let min = 0;
  for (const leg of legs) {
    min += leg.min;
    line.push({ x: xOf(min), y: yOf(leg.toM) });
  }
  return line;
}

/**
 * The profile of a dive to scale: time along, depth down, stops included; a tick every 10 min at the
 * surface, a dotted line every 10 m.
 * @param legs surface to surface @param depthLabel at the deepest point @param widthPt whole width
 * @param heightPt of the drawing
 */
export function profileLine(
  set: Setter,
  legs: readonly Leg[],
  depthLabel: string,
  widthPt: number,
  heightPt: number,
  sizePt: number,
): Block {
  const style: TextStyle = { font: 'regular', sizePt };
  const gutter = set.width(depthLabel, style) + 4;
  const deepestM = Math.max(...legs.map((leg) => Math.max(leg.fromM, leg.toM)));
  const wholeMin = runtimeMin(legs);
  const plotWidth = widthPt - gutter;
  return {
    heightPt: heightPt + 2,
    at: (x, y) => {
      const left = x + gutter;
      const xOf = (min: number): number => left + (min / wholeMin) * plotWidth;
      const yOf = (depthM: number): number => y + (depthM / deepestM) * heightPt;
      const line = depthLine(legs, xOf, yOf);
      const marks: Mark[] = [area(line, WATER_GREY)];
      for (let m = TICK_M; m < deepestM; m += TICK_M) {
        marks.push(straight(left, yOf(m), left + plotWidth, yOf(m), 0.4, [1, 2]));
      }
      for (let tick = TICK_MIN; tick < wholeMin; tick += TICK_MIN) {
        marks.push(straight(xOf(tick), y, xOf(tick), y + 4, 0.6));
      }
      marks.push(straight(left, y, left + plotWidth, y, 0.8), polyline(line, 1.4));
      const label = set.text(depthLabel, style, gutter);
      marks.push(...label.at(x, y + heightPt - label.heightPt));
      return marks;
    },
  };
}
