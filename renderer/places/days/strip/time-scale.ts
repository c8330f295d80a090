/**
 * Time across the page. It is not linear: a minute in the water is five times as wide as a minute at the
 * surface, nights are narrow, every day has the same width. So a bar is long enough to take hold of and the
 * week fits. Strictly rising and invertible, so that every place on the page is one moment.
 */
import { assert } from '../../../../core/result';

/** Widths of a minute beside each other; within a day these ratios hold exactly. */
export const WEIGHT = { water: 5, surface: 1, night: 0.15 } as const;

/** Nobody dives in most of it, so it is narrowed; a dive inside it is as wide as any other. */
export const NIGHT = { endsAtMin: 390, beginsAtMin: 1230 } as const;

const DAY_MIN = 1440;

/** Time in the water, wall-clock minutes. */
export interface Stretch {
  readonly startMin: number;
  readonly endMin: number;
}

/** Moments and their places; between two neighbours time runs evenly. */
export interface TimeScale {
  readonly firstDay: number;
  readonly dayCount: number;
  readonly widthPx: number;
  readonly dayWidthPx: number;
  readonly momentsMin: readonly number[];
  readonly placesPx: readonly number[];
}

/** What the page has to span: whole days since 1970-01-01. */
export interface Span {
  readonly firstDay: number;
  readonly dayCount: number;
}

/**
 * Lays time out over a width.
 * @param stretches time in the water of anybody, in any order, overlaps allowed
 * @param widthPx above 0
 */
export function timeScale(span: Span, stretches: readonly Stretch[], widthPx: number): TimeScale {
  assert(span.dayCount >= 1 && widthPx > 0, 'a time scale without days or width');
  const wet = merged(stretches);
  const dayWidthPx = widthPx / span.dayCount;
  const momentsMin: number[] = [];
  const placesPx: number[] = [];
  for (let day = 0; day < span.dayCount; day += 1) {
    const fromMin = (span.firstDay + day) * DAY_MIN;
    const pieces = piecesOfDay(fromMin, wet);
    const total = pieces.reduce((sum, { min, weight }) => sum + min * weight, 0);
    let atMin = fromMin;
    let done = 0;
    for (const { min, weight } of pieces) {
      momentsMin.push(atMin);
      placesPx.push(dayWidthPx * (day + done / total));
      atMin += min;
      done += min * weight;
    }
  }
  momentsMin.push((span.firstDay + span.dayCount) * DAY_MIN);
  placesPx.push(widthPx);
  return { ...span, widthPx, dayWidthPx, momentsMin, placesPx };
}

/** Place of a moment in pixels; beyond the span time runs on at an even day's pace. */
export function placeOf(scale: TimeScale, min: number): number {
  return across(scale.momentsMin, scale.placesPx, min, scale.dayWidthPx / DAY_MIN);
}

/** Moment of a place: the inverse of `placeOf`. */
export function momentOf(scale: TimeScale, px: number): number {
  return across(scale.placesPx, scale.momentsMin, px, DAY_MIN / scale.dayWidthPx);
}

/** The days that are shown: from the first dive to the last, and on to the flight where that is near. */
export function spanOf(
  divesMin: readonly Stretch[],
  lookAheadMin: readonly (number | null)[],
  fallbackDay: number,
): Span {
  const starts = divesMin.map(({ startMin }) => startMin);
  const ends = divesMin.map(({ endMin }) => endMin);
  const known = lookAheadMin.filter((min): min is number => min !== null);
  if (starts.length === 0) return { firstDay: fallbackDay, dayCount: 1 };
  const firstDay = Math.floor(Math.min(...starts) / DAY_MIN);
  const lastDiveDay = Math.floor(Math.max(...ends) / DAY_MIN);
  // A flight weeks later would press the dives together; past this it is told in words instead.
  const furthest = lastDiveDay + DAYS_AHEAD;
  const lastDay = Math.max(
    lastDiveDay,
    ...known.map((min) => Math.floor(min / DAY_MIN)).filter((day) => day <= furthest),
  );
  return { firstDay, dayCount: lastDay - firstDay + 1 };
}

const DAYS_AHEAD = 3;

function across(from: readonly number[], to: readonly number[], value: number, slopeBeyond: number): number {
  const last = from.length - 1;
  if (value <= from[0]!) return to[0]! + (value - from[0]!) * slopeBeyond;
  if (value >= from[last]!) return to[last]! + (value - from[last]!) * slopeBeyond;
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (from[middle]! <= value) low = middle;
    else high = middle;
  }
  const share = (value - from[low]!) / (from[low + 1]! - from[low]!);
  return to[low]! + share * (to[low + 1]! - to[low]!);
}

function merged(stretches: readonly Stretch[]): readonly Stretch[] {
  const sorted = stretches
    .filter(({ startMin, endMin }) => endMin > startMin)
    .toSorted((a, b) => a.startMin - b.startMin);
  const result: Stretch[] = [];
  for (const stretch of sorted) {
    const last = result.at(-1);
    if (last && stretch.startMin <= last.endMin) {
      result[result.length - 1] = { startMin: last.startMin, endMin: Math.max(last.endMin, stretch.endMin) };
    } else {
      result.push(stretch);
    }
  }
  return result;
}

interface Piece {
  readonly min: number;
  readonly weight: number;
}

function piecesOfDay(fromMin: number, wet: readonly Stretch[]): readonly Piece[] {
  const untilMin = fromMin + DAY_MIN;
  const inside = wet.filter(({ startMin, endMin }) => endMin > fromMin && startMin < untilMin);
  const cuts = new Set([fromMin, fromMin + NIGHT.endsAtMin, fromMin + NIGHT.beginsAtMin, untilMin]);
  for (const { startMin, endMin } of inside) {
    cuts.add(Math.max(startMin, fromMin));
    cuts.add(Math.min(endMin, untilMin));
  }
  const sorted = [...cuts].toSorted((a, b) => a - b);
  return sorted.slice(1).map((end, i) => {
    const start = sorted[i]!;
    const isWet = inside.some(({ startMin, endMin }) => startMin <= start && endMin >= end);
    const clock = start - fromMin;
    const isNight = clock < NIGHT.endsAtMin || clock >= NIGHT.beginsAtMin;
    return { min: end - start, weight: isWet ? WEIGHT.water : isNight ? WEIGHT.night : WEIGHT.surface };
  });
}
