import { bothClocks, limitShare, type ClockPiece, type OxygenLeg } from './clock-pieces';

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
  return bothClocks(legs, o2, startMin)?.daily ?? null;
}

/** Only asked within a piece, so never of one whose minutes rounding left without length. */
function limitAt({ fromMin, toMin, fromLimitMin, toLimitMin }: ClockPiece, min: number): number {
  return fromLimitMin + ((toLimitMin - fromLimitMin) * (min - fromMin)) / (toMin - fromMin);
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
  return shareWith(0, pieces, atMin);
}

/** As `dayShareAt`, added to what later pieces take. */
function shareWith(later: number, pieces: readonly ClockPiece[], atMin: number): number {
  let share = later;
  for (let index = pieces.length - 1; index >= 0; index -= 1) {
    const piece = pieces[index]!;
    // In order of time: everything before this one has left the window too.
    if (piece.toMin <= atMin - DAY_MIN) break;
    share += shareBetween(piece, atMin - DAY_MIN, atMin);
  }
  return share;
}

/**
 * The first piece from `index` on that ends after a moment. Times are moved by `shiftMin` before they are
 * compared, here and in `nextEdge` alike, so that rounding cannot make the two disagree. There always is one:
 * the last piece ends with the dive.
 */
function skipTo(pieces: readonly ClockPiece[], index: number, shiftMin: number, min: number): number {
  let next = index;
  while (pieces[next]!.toMin + shiftMin <= min) next += 1;
  return next;
}

/** The next time after a moment at which a piece, moved by `shiftMin`, begins or ends. */
function nextEdge(piece: ClockPiece, shiftMin: number, min: number): number {
  return piece.fromMin + shiftMin > min ? piece.fromMin + shiftMin : piece.toMin + shiftMin;
}

/**
 * Highest share of the daily limit in any 24 hours that end during a dive, from its entry to its surfacing.
 * Method: the share over the window, W(t) = D(t) - D(t - 1440), is smooth between the times at which a piece
 * begins or ends at either end of the window. Its slope there is 1/L1(t) - 1/L2(t - 1440) with both limits
 * linear, so it turns at most once, where they are equal. One sweep over those times compares limits alone, finds
 * every moment at which W stops rising, and asks the clock there: nothing is sampled. Rounding: a wall minute holds
 * 1e-9 minutes, so 1e-10 of the share.
 * @param earlier pieces of the dives before, in order of time @param current pieces of this dive
 * @param entryMin wall minutes, not after the first of its pieces
 * @returns fraction; where the dive has no piece what the clock reads at entry, as after that it only falls
 * Source: NOAA limits "in any 24-hour period" (core/oxygen/limits.ts).
 */
export function dayPeak(
  earlier: readonly ClockPiece[],
  current: readonly ClockPiece[],
  entryMin: number,
): number {
  return Math.max(dayShareAt(earlier, entryMin), peakOfPieces(earlier, current));
}

/** As `dayPeak`, while pieces of the dive itself come in; 0 where it has none. */
function peakOfPieces(earlier: readonly ClockPiece[], current: readonly ClockPiece[]): number {
  const first = current[0];
  const last = current[current.length - 1];
  if (!first || !last) return 0;
  const endMin = last.toMin;
  // Most dives: while nothing leaves the window its share only grows, and the end decides.
  const leavesFirst = earlier.find(({ toMin }) => toMin + DAY_MIN > first.fromMin) ?? first;
  if (leavesFirst.fromMin + DAY_MIN >= endMin) {
    return shareWith(dayShareAt(current, endMin), earlier, endMin);
  }
  // A dive of more than a day would lose its own beginning from the window.
  const all = [...earlier, ...current];
  let leavingAt = skipTo(all, 0, DAY_MIN, first.fromMin);
  let comingAt = 0;
  let min = first.fromMin;
  let peak = 0;
  let isRising = true;
  while (min < endMin) {
    comingAt = skipTo(current, comingAt, 0, min);
    leavingAt = skipTo(all, leavingAt, DAY_MIN, min);
    const coming = current[comingAt]!;
    const leaving = all[leavingAt]!;
    const next = Math.min(nextEdge(coming, 0, min), nextEdge(leaving, DAY_MIN, min));
    const fromSlope = slopeAt(coming, leaving, min, min);
    const toSlope = slopeAt(coming, leaving, min, next);
    if (isRising && fromSlope <= 0) peak = Math.max(peak, dayShareAt(all, min));
    if (fromSlope > 0 && toSlope < 0) {
      const turn = min + ((next - min) * fromSlope) / (fromSlope - toSlope);
      peak = Math.max(peak, dayShareAt(all, turn));
    }
    // Level at its end it may have risen up to there: whether that is a peak, the next stretch tells.
    isRising = toSlope >= 0;
    min = next;
  }
  return isRising ? Math.max(peak, dayShareAt(all, endMin)) : peak;
}

/**
 * Above 0 where the window gains at a moment of a stretch within which no piece begins or ends, below 0 where it
 * loses: 1/L1 against 1/L2 has the sign of L2 - L1, which is linear.
 */
function slopeAt(coming: ClockPiece, leaving: ClockPiece, fromMin: number, atMin: number): number {
  if (leaving.fromMin + DAY_MIN > fromMin) return 1;
  if (coming.fromMin > fromMin) return -1;
  return limitAt(leaving, atMin - DAY_MIN) - limitAt(coming, atMin);
}
