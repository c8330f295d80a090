/** Figures of a dive before and after, in words. */
import { clockSpan, figure, said, type Piece, type Said } from '../../words/said';
import { HEADS, NO_END, NONE, PAST } from '../../words/terms';
import type { DiveFigures } from './figures';
import type { DiveChange } from './proposals';

/** One figure of a dive before and after. */
export interface FigureChange {
  readonly head: Said;
  readonly before: Said;
  readonly after: Said;
}

/** Minutes of room, rounded down; below zero by how much the dive is too long, rounded up. */
function roomSaid({ room }: DiveFigures): Said {
  if (room === null) return said`${NONE}`;
  if (room.min !== null) return said`${figure('minutesLeft', room.min)}`;
  return room.limit === null ? NO_END : PAST;
}

function intervalSaid({ intervalMin }: DiveFigures): Said {
  return intervalMin === null ? said`${NONE}` : said`${clockSpan(intervalMin, 'down')}`;
}

function leftSaid({ left }: DiveFigures): Said {
  if (left === null) return said`${NONE}`;
  return left.bar === null ? said`out` : said`${figure('pressureLeft', left.bar)}`;
}

function scrubberSaid({ scrubber }: DiveFigures): Said {
  if (scrubber === null) return said`${NONE}`;
  return said`${figure('minutesLeft', scrubber.min)}`;
}

/**
 * What of a dive's figures a plan changes: its room always; interval, pressure and scrubber left where they do.
 * @returns nothing of a dive that is dropped
 * Source: CONVENTIONS, "Room".
 */
export function figureChanges({ before, after }: DiveChange): readonly FigureChange[] {
  if (after === null) return [];
  const row = (head: Said, of: (figures: DiveFigures) => Said): FigureChange => ({
    head,
    before: of(before),
    after: of(after),
  });
  return [
    row(HEADS.room, roomSaid),
    ...(before.intervalMin === after.intervalMin ? [] : [row(HEADS.interval, intervalSaid)]),
    ...(before.left?.bar === after.left?.bar ? [] : [row(HEADS.left, leftSaid)]),
    ...(before.scrubber?.min === after.scrubber?.min ? [] : [row(said`scrubber left`, scrubberSaid)]),
  ];
}

/** "room −2 min → 0 min". */
export function figureChangeSaid({ head, before, after }: FigureChange): Piece {
  return said`${head} ${before} → ${after}`;
}
