import type { Point } from '../layout';

/** As far from a curve as nobody sees on paper: a thirtieth of a millimetre, points. */
const UNSEEN_PT = 0.1;

/**
 * A curve without the points that a straight line between others stands for: of a fortnight a page has thousands, most
 * of them in the night, and each is written down.
 * @param points left to right @returns some of them, the first and the last too; none left out lies farther than a
 *   tenth of a point above or below the line
 */
export function thinned(points: readonly Point[]): readonly Point[] {
  const [first] = points;
  if (first === undefined) return points;
  const kept = [first];
  let from = first;
  let before = first;
  // Slopes of the lines from the point kept last that pass all since near enough.
  let [least, most] = [-Infinity, Infinity];
  for (const point of points.slice(1)) {
    const across = point.x - from.x;
    const slope = (point.y - from.y) / across;
    if (across > 0 && slope >= least && slope <= most) {
      least = Math.max(least, (point.y - UNSEEN_PT - from.y) / across);
      most = Math.min(most, (point.y + UNSEEN_PT - from.y) / across);
    } else {
      if (before !== from) kept.push(before);
      from = before;
      const next = point.x - from.x;
      [least, most] =
        next > 0
          ? [(point.y - UNSEEN_PT - from.y) / next, (point.y + UNSEEN_PT - from.y) / next]
          : [-Infinity, -Infinity];
    }
    before = point;
  }
  if (before !== from) kept.push(before);
  return kept;
}
