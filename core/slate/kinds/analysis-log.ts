/** The log of the analyses: a row for each cylinder that is filled, and blank ones, to be written in by hand. */
import { modM } from '../../gas';
import { surroundingsOf } from '../../profile';
import { wallDate } from '../../words/calendar';
import type { Reader, Words } from '../../words/reader';
import { shown } from '../../words/reader';
import { dayOf, figure, said, type Said } from '../../words/said';
import { down, up } from '../figures';
import {
  beside,
  rule,
  space,
  stack,
  straight,
  table,
  tagged,
  type Block,
  type Setter,
  type TextStyle,
} from '../layout';
import { unmarked } from '../markup';
import { namedSheets, PRINT_MIN_PT, type Draft } from '../page-frame';
import type { DatedRequest } from '../request';
import type { Tag } from '../tag/content';

const TITLE = said`Cylinder analysis log`;

/** Height of a row that is written on by hand. */
const LOG_ROW_PT = 24;

/** Of the page's height, at least this is left for the rows to write on where a coarser table leaves it. */
const ROWS_SHARE = 1 / 3;

/** A page with less room than for these rows is no log. */
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
function modTable(
  request: DatedRequest,
  set: Setter,
  reader: Reader,
  words: Words,
  widthPt: number,
  step: number,
): Block {
  const working = Math.min(...chosenOf(request).map(({ diver }) => diver.po2.working));
  const { column } = surroundingsOf(request.ledger.trip);
  const cell = (percent: number): string => {
    const mods = shown(figure('depthLimit', modM(percent / 100, working, column)), reader);
    return words(
      said`${String(percent)} %: ${mods.map(({ value, unit }) => `${value} ${unit}`).join(' / ')}`,
    );
  };
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
  const about = words(
    said`MOD at a PO2 of ${figure('po2Limit', working)}, rounded down. Between two shares the depth of the richer one holds.`,
  );
  return stack([set.text(about, style, widthPt), ...table(set, columns, rows, gap, () => style)]);
}

interface LogColumn {
  readonly head: Said;
  /** Of the width of the log. */
  readonly share: number;
  /** What is known beforehand; null: to be written. */
  readonly of: ((tag: Tag, words: Words) => string) | null;
}

const WHEN: LogColumn = {
  head: said`Day, dive`,
  share: 1.1,
  of: ({ entry, number }, words) => words(said`${dayOf(wallDate(entry.startMin), 'weekday')}, ${number}`),
};
const WHO: LogColumn = {
  head: said`Diver, mix`,
  share: 2.4,
  of: ({ diver, gas }, words) => words(said`${diver}, ${gas}`),
};

/** Columns of the log; on narrow paper those that can be told from the others are left out. */
const WIDE: readonly LogColumn[] = [
  WHEN,
  WHO,
  { head: said`Cylinder`, share: 1.1, of: ({ cylinder }) => cylinder },
  { head: said`O2 %`, share: 0.9, of: null },
  { head: said`MOD`, share: 0.9, of: null },
  { head: said`Analysed by`, share: 1.4, of: null },
  { head: said`Diver, signed`, share: 1.7, of: null },
];
const NARROW: readonly LogColumn[] = [
  { ...WHEN, share: 1.3 },
  { ...WHO, share: 2.2 },
  { head: said`O2 %`, share: 1, of: null },
  { head: said`MOD`, share: 1, of: null },
  { head: said`Signed`, share: 1.6, of: null },
];
const NARROW_PT = 380;

const CELL: TextStyle = { font: 'text', sizePt: PRINT_MIN_PT + 1, leadingPt: 11.6 };
const INSET_PT = 2;
/** Three lines of a cell. */
const LONG_PT = 36;

/** A row to be written in, with what is known beforehand; as high as its longest name. */
function rowBlock(
  set: Setter,
  words: Words,
  columns: readonly LogColumn[],
  lefts: readonly number[],
  tag: Tag | null,
  row: number,
): Block {
  const texts = columns.map(({ of }) => (of === null || tag === null ? '' : of(tag, words)));
  const wholePt = lefts[lefts.length - 1]!;
  const widthOf = (c: number): number => lefts[c + 1]! - lefts[c]! - 2 * INSET_PT;
  // A name too long for its column stands over the whole row: never cut.
  const long = texts.filter((text, c) => set.text(text, CELL, widthOf(c)).heightPt > LONG_PT);
  const over = long.map((text) => set.text(text, CELL, wholePt - 2 * INSET_PT));
  const overPt = over.reduce((sum, block) => sum + block.heightPt, 0);
  const cells = texts.flatMap((text, c) => {
    if (text === '' || long.includes(text)) return [];
    return [{ c, block: set.text(text, CELL, widthOf(c)) }];
  });
  const cellPt = Math.max(LOG_ROW_PT, ...cells.map(({ block }) => block.heightPt + 3));
  const heightPt = overPt + cellPt;
  return {
    heightPt,
    at: (x, y) => [
      straight(x, y + heightPt, x + wholePt, y + heightPt, 0.4),
      ...lefts.map((left) => straight(x + left, y + overPt, x + left, y + heightPt, 0.3)),
      ...stack(over).at(x + INSET_PT, y + 1),
      ...cells.flatMap(({ c, block }) =>
        tagged(block, { is: 'TD', row, column: c }).at(
          x + lefts[c]! + INSET_PT,
          y + overPt + (cellPt - block.heightPt) / 2,
        ),
      ),
    ],
  };
}

/**
 * Pages to write down who analysed which cylinder, with what result: a row a tag, then blank ones to the foot of the page.
 * @returns null where not even three rows fit
 */
export function logDrafts(
  request: DatedRequest,
  set: Setter,
  tags: readonly Tag[],
  reader: Reader,
  words: Words,
  widthPt: number,
  heightPt: number,
): readonly Draft[] | null {
  const columns = widthPt < NARROW_PT ? NARROW : WIDE;
  const whole = columns.reduce((sum, { share }) => sum + share, 0);
  let left = 0;
  const lefts = [0, ...columns.map(({ share }) => (left += (share / whole) * widthPt))];
  const head: TextStyle = { font: 'bold', sizePt: PRINT_MIN_PT };
  const headWith = (step: number | null): Block =>
    stack([
      tagged(set.text(words(TITLE), { font: 'name', sizePt: 16 }, widthPt), { is: 'H1' }),
      set.text(unmarked(request.ledger.trip.place), CELL, widthPt),
      ...(step === null ? [] : [space(3), modTable(request, set, reader, words, widthPt, step)]),
      space(6),
      beside(
        columns.map(({ head: says }, c) => ({
          block: tagged(set.text(words(says), head, lefts[c + 1]! - lefts[c]! - INSET_PT), {
            is: 'TH',
            row: 0,
            column: c,
          }),
          x: lefts[c]! + INSET_PT,
        })),
      ),
      rule(widthPt, 1.2, 4),
    ]);
  const heads = STEPS.map(headWith);
  const first =
    heads.find((each) => heightPt - each.heightPt >= ROWS_SHARE * heightPt) ?? heads[heads.length - 1]!;
  const further = headWith(null);
  const rows = tags.map((tag, i) => rowBlock(set, words, columns, lefts, tag, i + 1));
  const blank = rowBlock(set, words, columns, lefts, null, 0);
  const pages: Block[] = [];
  let next = 0;
  do {
    const top = pages.length === 0 ? first : further;
    const body = [top];
    let free = heightPt - top.heightPt;
    if (free < LEAST_ROWS * LOG_ROW_PT) return null;
    for (; next < rows.length && rows[next]!.heightPt <= free; next += 1) {
      body.push(rows[next]!);
      free -= rows[next]!.heightPt;
    }
    if (body.length === 1 && next < rows.length) return null;
    for (; next >= rows.length && free >= blank.heightPt; free -= blank.heightPt) body.push(blank);
    pages.push(stack(body));
  } while (next < rows.length);
  return namedSheets(words, TITLE, pages).map((sheet) => ({ ...sheet, begins: 0 }));
}
