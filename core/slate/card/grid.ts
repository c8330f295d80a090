/** The grid "if deeper or longer". */
import type { DeeperLonger } from '../deeper-longer';
import { beside, space, stack, tagged, type Block } from '../layout';
import { blockOf, lines, put, stroke, TYPES, widthMm, type Pen, type Type } from './pen';

/** Sizes and pitches of a grid; the page of one dive has larger ones. */
export interface GridType {
  readonly title: Type;
  readonly head: Type;
  readonly depth: Type;
  readonly cell: Type;
  readonly captionPitch: number;
  readonly pitch: number;
}

export const CARD_GRID: GridType = {
  title: TYPES.caption,
  head: TYPES.caption,
  depth: ['boldSlant', 11],
  cell: ['text', 11, 'semi'],
  captionPitch: 3.5,
  pitch: 4.3,
};

/** White between columns, millimetres. */
const GAP = 1.4;

/** Depths take at most this share of the width; longer ones take two lines. */
const DEPTH_SHARE = 0.45;

/** Left edges of the columns: depths and no-stop times as wide as they are, what is left for the cells. */
function columnsOf(pen: Pen, grid: DeeperLonger, type: GridType, width: number): readonly number[] {
  const depth = Math.min(
    DEPTH_SHARE * width,
    Math.max(
      widthMm(pen, grid.head[0]!, type.head),
      ...grid.rows.map((row) => widthMm(pen, row.depth, type.depth)),
    ),
  );
  const first = depth + GAP;
  const cells = grid.head
    .slice(1)
    .map((head, i) =>
      Math.max(
        widthMm(pen, head, type.head),
        ...grid.rows.map((row) =>
          typeof row.cells === 'string' ? 0 : widthMm(pen, row.cells[i]!, type.cell),
        ),
      ),
    );
  const noStop = cells.length > 2 ? [cells[0]!] : [];
  const [one, other] = cells.slice(-2) as [number, number];
  const second = noStop.reduce((sum, wide) => sum + wide + GAP, first);
  // Alike where both fit; else the wider one takes what it needs of the other.
  const free = width - second - GAP;
  const half = free / 2;
  const share = one > half ? Math.min(one, free - Math.min(other, half)) : Math.max(half, 0);
  const of = other > half ? Math.max(free - other, Math.min(one, half)) : share;
  return [0, ...noStop.map(() => first), second, second + of + GAP];
}

export function gridBlock(pen: Pen, grid: DeeperLonger, width: number, type: GridType = CARD_GRID): Block {
  const lefts = columnsOf(pen, grid, type, width);
  const widths = lefts.map((left, i) => (lefts[i + 1] === undefined ? width : lefts[i + 1]! - GAP) - left);
  const head = blockOf(
    pen,
    type.captionPitch,
    grid.head.map(
      (text, column) =>
        tagged(
          blockOf(pen, 0, [put(pen, text, type.head, { x: lefts[column]!, y: 0, pitch: type.captionPitch })]),
          { is: 'TH', row: 0, column },
        ).at,
    ),
  );
  const rows = grid.rows.map((row, r) => {
    const depth = { block: lines(pen, row.depth, type.depth, widths[0]!, type.pitch), x: 0 };
    const cells =
      typeof row.cells === 'string'
        ? [{ block: lines(pen, row.cells, type.cell, width - lefts[1]!, type.pitch), x: lefts[1]! * pen.mm }]
        : row.cells.map((text, i) => ({
            block: lines(pen, text, type.cell, widths[i + 1]!, type.pitch),
            x: lefts[i + 1]! * pen.mm,
          }));
    return stack([
      blockOf(pen, 1e-9, [stroke(pen, [0, 0], [width, 0], r === 0 ? 0.5 : 0.35)]),
      beside(
        [depth, ...cells].map(({ block, x }, column) => ({
          block: tagged(block, { is: column === 0 ? 'TH' : 'TD', row: r + 1, column }),
          x,
        })),
      ),
    ]);
  });
  return stack([
    space(0.6 * pen.mm),
    blockOf(pen, 0.5, [stroke(pen, [0, 0], [width, 0], 0.5)]),
    lines(pen, grid.title, type.title, width, type.captionPitch),
    head,
    ...rows,
  ]);
}
