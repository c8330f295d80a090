import { modM } from '../../gas';
import { surroundingsOf } from '../../trip/dive-plan';
import { depths, joined, po2LimitText } from '../figures';
import {
  beside,
  rule,
  space,
  stack,
  straight,
  table,
  type Block,
  type Setter,
  type TextStyle,
} from '../layout';
import { heading, PRINT_MIN_PT, type Draft } from '../page-frame';
import type { SlateRequest } from '../request';

/** Height of a row that is written on by hand. */
const LOG_ROW_PT = 24;

/** Shares of the log's table of depths. Source: whole percents from air to the richest mix of common practice. */
const LOG_SHARES = Array.from({ length: 20 }, (_, i) => 21 + i);
const LOG_TABLE_COLUMNS = 5;

/** Depth by analysed share, at the strictest working PO2 of those chosen. */
function modTable(request: SlateRequest, set: Setter, widthPt: number): Block {
  const chosen = request.ledger.trip.party.filter(
    (diver) => request.diverIds === null || request.diverIds.includes(diver.id),
  );
  const working = Math.min(...chosen.map((diver) => diver.po2.working));
  const { column } = surroundingsOf(request.ledger.trip);
  const cell = (percent: number): string =>
    `${percent} %: ${joined(depths(modM(percent / 100, working, column), 'limit', 'both'))}`;
  const style: TextStyle = { font: 'regular', sizePt: PRINT_MIN_PT };
  const gap = 6;
  const wanted = Math.max(...LOG_SHARES.map((percent) => set.width(cell(percent), style)));
  const count = Math.max(1, Math.min(LOG_TABLE_COLUMNS, Math.floor((widthPt + gap) / (wanted + gap))));
  const columns = Array.from({ length: count }, () => ({
    widthPt: (widthPt - gap * (count - 1)) / count,
    align: 'left' as const,
  }));
  const rows: string[][] = [];
  const perColumn = Math.ceil(LOG_SHARES.length / count);
  for (let r = 0; r < perColumn; r += 1) {
    rows.push(
      columns.map((_, c) =>
        LOG_SHARES[c * perColumn + r] === undefined ? '' : cell(LOG_SHARES[c * perColumn + r]!),
      ),
    );
  }
  return stack([
    set.text(
      `MOD at a PO2 of ${po2LimitText(working)} bar, rounded down. Between two shares the depth of the richer one holds.`,
      style,
      widthPt,
    ),
    ...table(set, columns, rows, gap, () => style),
  ]);
}

/** Columns of the log by their share of its width; on narrow paper the last ones of the first list are left out. */
const LOG_COLUMNS: readonly (readonly [string, number])[] = [
  ['Date, dive', 1.3],
  ['Cylinder', 1],
  ['O2 %', 0.8],
  ['MOD', 0.9],
  ['Analysed by', 1.3],
  ['Diver, signed', 2],
];
const NARROW_LOG_COLUMNS: readonly (readonly [string, number])[] = [
  ['Dive', 1],
  ['O2 %', 1],
  ['MOD', 1],
  ['Signed', 2],
];
const NARROW_PT = 380;

/**
 * A page of blank rows: who analysed which cylinder, with what result, signed.
 * @returns null where not even three rows fit
 */
export function logDraft(
  request: SlateRequest,
  set: Setter,
  widthPt: number,
  heightPt: number,
): Draft | null {
  const style: TextStyle = { font: 'bold', sizePt: PRINT_MIN_PT };
  const parts = widthPt < NARROW_PT ? NARROW_LOG_COLUMNS : LOG_COLUMNS;
  const whole = parts.reduce((sum, [, share]) => sum + share, 0);
  const lefts = parts.map(
    (_, i) => (parts.slice(0, i).reduce((sum, [, share]) => sum + share, 0) / whole) * widthPt,
  );
  const head = stack([
    heading(set, 'Cylinder analysis log', request.ledger.trip.place, widthPt, 14),
    space(4),
    modTable(request, set, widthPt),
    space(6),
    beside(
      parts.map(([text, share], i) => ({
        block: set.text(text, style, (share / whole) * widthPt - 4),
        x: lefts[i]! + 2,
      })),
    ),
    rule(widthPt, 0.8, 4),
  ]);
  const count = Math.floor((heightPt - head.heightPt) / LOG_ROW_PT);
  if (count < 3) return null;
  const rows: Block = {
    heightPt: count * LOG_ROW_PT,
    at: (x, y) => [
      ...Array.from({ length: count }, (_, i) =>
        straight(x, y + (i + 1) * LOG_ROW_PT, x + widthPt, y + (i + 1) * LOG_ROW_PT, 0.4),
      ),
      ...[...lefts, widthPt].map((left) => straight(x + left, y, x + left, y + count * LOG_ROW_PT, 0.3)),
    ],
  };
  return { name: 'Cylinder analysis log', body: stack([head, rows]) };
}
