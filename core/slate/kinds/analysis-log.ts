import { modM } from '../../gas';
import { depths, down, joined, po2LimitText, up } from '../figures';
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
import type { DatedRequest } from '../request';
import { surroundingsOf } from '../../profile';

/** Height of a row that is written on by hand. */
const LOG_ROW_PT = 24;

/** Of the page's height, at least this is left for the rows to write on where a coarser table leaves it. */
const ROWS_SHARE = 1 / 3;

/** A page with fewer rows than these is no log. */
const LEAST_ROWS = 3;

/** The table of depths begins with air and reaches at least the richest mix of common practice, percent. */
const LEANEST = 21;
const USUAL_RICHEST = 40;

/** From one share of the table to the next, percent; the first with which it leaves room for the rows. */
const STEPS = [1, 2, 5, 10] as const;

const TABLE_COLUMNS = 5;

function chosenOf({ ledger, diverIds }: DatedRequest): DatedRequest['ledger']['divers'] {
  return ledger.divers.filter(({ diver }) => diverIds === null || diverIds.includes(diver.id));
}

/** The richest a cylinder of those chosen may be found: of all mixes as planned or analysed and all ceilings, percent. */
function richestPercent(request: DatedRequest): number {
  const chosen = chosenOf(request);
  const shares = [
    ...request.ledger.trip.mixes.flatMap(({ o2, analysedO2 }) => [o2, analysedO2 ?? 0]),
    ...chosen.flatMap(({ diver, entries }) => [diver.maxO2, ...entries.map(({ o2 }) => o2 ?? 0)]),
  ];
  return Math.max(USUAL_RICHEST, 100 * Math.max(...shares));
}

/** Air, then the multiples of the step up to the first that is as rich as the richest. */
function sharesOf(richest: number, step: number): readonly number[] {
  const last = up(richest, step);
  const first = down(LEANEST, step) + step;
  return [LEANEST, ...Array.from({ length: (last - first) / step + 1 }, (_, i) => first + i * step)];
}

/** Depth by analysed share, at the strictest working PO2 of those chosen. */
function modTable(request: DatedRequest, set: Setter, widthPt: number, step: number): Block {
  const working = Math.min(...chosenOf(request).map(({ diver }) => diver.po2.working));
  const { column } = surroundingsOf(request.ledger.trip);
  const cell = (percent: number): string =>
    `${percent} %: ${joined(depths(modM(percent / 100, working, column), 'limit', 'both'))}`;
  const style: TextStyle = { font: 'text', sizePt: PRINT_MIN_PT };
  const gap = 6;
  const cells = sharesOf(richestPercent(request), step).map(cell);
  const wanted = Math.max(...cells.map((text) => set.width(text, style)));
  const count = Math.max(1, Math.min(TABLE_COLUMNS, Math.floor((widthPt + gap) / (wanted + gap))));
  const columns = Array.from({ length: count }, () => ({
    widthPt: (widthPt - gap * (count - 1)) / count,
    align: 'left' as const,
  }));
  const perColumn = Math.ceil(cells.length / count);
  const rows = Array.from({ length: perColumn }, (_, r) =>
    columns.map((__, c) => cells[c * perColumn + r] ?? ''),
  );
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
  request: DatedRequest,
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
  const headWith = (step: number): Block =>
    stack([
      heading(set, 'Cylinder analysis log', request.ledger.trip.place, widthPt, 14),
      space(4),
      modTable(request, set, widthPt, step),
      space(6),
      beside(
        parts.map(([text, share], i) => ({
          block: set.text(text, style, (share / whole) * widthPt - 4),
          x: lefts[i]! + 2,
        })),
      ),
      rule(widthPt, 0.8, 4),
    ]);
  const heads = STEPS.map(headWith);
  const head =
    heads.find((each) => heightPt - each.heightPt >= ROWS_SHARE * heightPt) ?? heads[heads.length - 1]!;
  const count = Math.floor((heightPt - head.heightPt) / LOG_ROW_PT);
  if (count < LEAST_ROWS) return null;
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
