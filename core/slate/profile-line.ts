import type { Leg } from '../profile';
import type { Point } from './layout';

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
