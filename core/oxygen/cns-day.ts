import { clockPieces, limitShare, type ClockPiece, type OxygenLeg } from './clock-pieces';

export type { ClockPiece } from './clock-pieces';

/** The window of the daily limit, minutes. Source: the table's heading, "any 24-hour period". */
export const DAY_MIN = 1440;

/**
 * A dive as the daily clock sees it: times in which the daily limit runs linearly.
 * @param legs in order, pressures in bar @param o2 oxygen fraction, 0 to 1 @param startMin wall minutes
 * @returns pieces in order of time, without those at or below 0.5 bar; null where PO2 passes 1.6 bar
 * Source: NOAA limits with straight lines between the rows (core/oxygen/limits.ts).
 */
export function dailyPieces(
  legs: readonly OxygenLeg[],
  o2: number,
  startMin: number,
): readonly ClockPiece[] | null {
  return clockPieces(legs, o2, 'daily', startMin);
}

function limitAt(piece: ClockPiece, min: number): number {
  const length = piece.toMin - piece.fromMin;
  if (length === 0) return piece.fromLimitMin;
  return piece.fromLimitMin + ((piece.toLimitMin - piece.fromLimitMin) * (min - piece.fromMin)) / length;
}

/** Share of a piece that falls between two times. */
function shareBetween(piece: ClockPiece, fromMin: number, toMin: number): number {
  const from = Math.max(fromMin, piece.fromMin);
  const to = Math.min(toMin, piece.toMin);
  if (from === piece.fromMin && to === piece.toMin) return piece.share;
  return to > from ? limitShare(to - from, limitAt(piece, from), limitAt(piece, to)) : 0;
}

/**
 * Share of the daily limit taken in the 24 hours that end at a moment.
 * @param pieces of all dives, in order of time @param atMin wall minutes
 * @returns fraction: D(t) - D(t - 1440), D the shares summed up
 * Source: NOAA limits "in any 24-hour period"; the clock does not decay within it.
 */
export function dayShareAt(pieces: readonly ClockPiece[], atMin: number): number {
  let share = 0;
  for (let index = pieces.length - 1; index >= 0; index -= 1) {
    const piece = pieces[index]!;
    // In order of time: everything before this one has left the window too.
    if (piece.toMin <= atMin - DAY_MIN) break;
    share += shareBetween(piece, atMin - DAY_MIN, atMin);
  }
  return share;
}

/**
 * Where in a time two rates are equal that are both one over a linear limit: what comes in at the new end of
 * the window against what falls out at its old end.
 */
function crossingMin(coming: ClockPiece, leaving: ClockPiece, fromMin: number, toMin: number): number | null {
  const gapFrom = limitAt(coming, fromMin) - limitAt(leaving, fromMin - DAY_MIN);
  const gapTo = limitAt(coming, toMin) - limitAt(leaving, toMin - DAY_MIN);
  return gapFrom * gapTo < 0 ? fromMin + ((toMin - fromMin) * gapFrom) / (gapFrom - gapTo) : null;
}

/**
 * Highest share of the daily limit in any 24 hours that end during a dive, or as it ends.
 * Method: the share over the window, W(t) = D(t) - D(t - 1440), is smooth between the times at which a piece
 * begins or ends at either end of the window. Its slope there is 1/L1(t) - 1/L2(t - 1440) with both limits
 * linear, so it turns at most once, where they are equal. W is therefore known exactly at every time where it
 * can be highest, and nothing is sampled. Rounding: a wall minute holds 1e-9 minutes, so 1e-10 of the share.
 * @param earlier pieces of the dives before, in order of time @param current pieces of this dive
 * @returns fraction; 0 where the dive has no piece, as then nothing comes in
 * Source: NOAA limits "in any 24-hour period" (core/oxygen/limits.ts).
 */
export function dayPeak(earlier: readonly ClockPiece[], current: readonly ClockPiece[]): number {
  const first = current[0];
  const last = current[current.length - 1];
  if (!first || !last) return 0;
  const startMin = first.fromMin;
  const endMin = last.toMin;
  let from = earlier.length;
  while (from > 0 && earlier[from - 1]!.toMin > startMin - DAY_MIN) from -= 1;
  // A dive of more than a day would lose its own beginning from the window.
  const inWindow = [...earlier.slice(from), ...current];
  // Most dives: while nothing leaves the window its share only grows, and the end decides.
  if (!(inWindow[0]!.fromMin < endMin - DAY_MIN)) return dayShareAt(inWindow, endMin);
  const times = [startMin, endMin];
  for (const piece of current) times.push(piece.fromMin, piece.toMin);
  for (const piece of inWindow) {
    if (piece.fromMin + DAY_MIN >= endMin) break;
    times.push(piece.fromMin + DAY_MIN, piece.toMin + DAY_MIN);
  }
  const inSpan = times.filter((time) => time >= startMin && time <= endMin).sort((a, b) => a - b);
  let peak = dayShareAt(inWindow, endMin);
  for (let index = 0; index + 1 < inSpan.length; index += 1) {
    const lowMin = inSpan[index]!;
    const highMin = inSpan[index + 1]!;
    if (highMin === lowMin) continue;
    const middleMin = (lowMin + highMin) / 2;
    const leaving = inWindow.find((piece) => piece.fromMin < middleMin - DAY_MIN && middleMin - DAY_MIN < piece.toMin);
    // While nothing leaves the window its share only grows: the end of this stretch is asked with the next.
    if (!leaving) continue;
    peak = Math.max(peak, dayShareAt(inWindow, lowMin));
    const coming = current.find((piece) => piece.fromMin < middleMin && middleMin < piece.toMin);
    const turnMin = coming ? crossingMin(coming, leaving, lowMin, highMin) : null;
    if (turnMin !== null) peak = Math.max(peak, dayShareAt(inWindow, turnMin));
  }
  return peak;
}
