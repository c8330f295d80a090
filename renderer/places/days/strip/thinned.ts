/** Fewer points where a straight line says the same: charts take their time for every point they are given. */
import type { BandPoint } from './band-data';

/** A curve of the bands. */
type Series = 'share' | 'cns' | 'cnsDay';

const SERIES: readonly Series[] = ['share', 'cns', 'cnsDay'];

/** About half a pixel in bands as high as the window gives them; the points that stay are exact. */
export const TOLERANCE: Readonly<Record<Series, number>> = { share: 0.005, cns: 0.004, cnsDay: 0.004 };

interface Door {
  low: number;
  high: number;
}

/**
 * The points from which straight lines pass every point left out within the tolerance, on each curve.
 * One pass with a swinging door: a point is left out as long as one line from the last that stayed can pass
 * all since. Source: E. H. Bristol, "Swinging door trending", ISA National Conference, 1990.
 * @returns some of the points, the first and last among them; both ends of a gap stay
 */
export function thinned(points: readonly BandPoint[]): readonly BandPoint[] {
  const [first, ...rest] = points;
  if (first === undefined) return [];
  const kept = [first];
  let anchor = first;
  let last = first;
  let doors = open();
  const keep = (point: BandPoint) => {
    kept.push(point);
    anchor = point;
    doors = open();
  };
  for (const point of rest) {
    const isJump = startsOrEndsGap(last, point);
    if (isJump || !passes(doors, anchor, point)) {
      if (last !== anchor) keep(last);
      // Across a gap, and where two figures stand at one moment, both sides stay.
      if (isJump || !passes(doors, anchor, point)) keep(point);
    }
    narrow(doors, anchor, point);
    last = point;
  }
  if (last !== anchor) kept.push(last);
  return kept;
}

function startsOrEndsGap(before: BandPoint, point: BandPoint): boolean {
  return SERIES.some((each) => (before[each] === null) !== (point[each] === null));
}

function open(): readonly Door[] {
  return SERIES.map(() => ({ low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY }));
}

/** Whether a line from the anchor to this point passes all between. */
function passes(doors: readonly Door[], anchor: BandPoint, point: BandPoint): boolean {
  const run = point.x - anchor.x;
  return SERIES.every((each, i) => {
    const from = anchor[each];
    const to = point[each];
    if (from === null || to === null) return from === to;
    if (run <= 0) return Math.abs(to - from) <= TOLERANCE[each];
    const slope = (to - from) / run;
    return slope >= doors[i]!.low && slope <= doors[i]!.high;
  });
}

function narrow(doors: readonly Door[], anchor: BandPoint, point: BandPoint): void {
  const run = point.x - anchor.x;
  if (run <= 0) return;
  SERIES.forEach((each, i) => {
    const from = anchor[each];
    const to = point[each];
    if (from === null || to === null) return;
    const door = doors[i]!;
    door.low = Math.max(door.low, (to - TOLERANCE[each] - from) / run);
    door.high = Math.min(door.high, (to + TOLERANCE[each] - from) / run);
  });
}
