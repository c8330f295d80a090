/** What a label says: pieces in rows, and how wide they are. */
import { memoEach } from '../../../store/memo';
import { textWidth, type Face } from './text-width';

/** Between two pieces that do not belong to each other. */
const PIECE_GAP_PX = 4;

/** How a piece of a label is set; size in pixels at 100 % text. */
export const STYLES = {
  depth: { face: 'sansBold', px: 13.5 },
  note: { face: 'condensed', px: 12.5 },
  mix: { face: 'condensedBold', px: 12.5 },
  italic: { face: 'condensed', px: 12.5 },
  past: { face: 'condensed', px: 12.5 },
  care: { face: 'sansBold', px: 13.5 },
  name: { face: 'serif', px: 15 },
} as const satisfies Readonly<Record<string, { readonly face: Face; readonly px: number }>>;

export interface Piece {
  readonly style: keyof typeof STYLES;
  readonly text: string;
}

/** Pieces side by side. */
export type Row = readonly Piece[];

/** Whether a piece goes on from the one before it, as the time from the depth: "24/29". */
function isJoined(piece: Piece): boolean {
  return piece.text.startsWith('/');
}

/** Width of a row in pixels. */
export function rowWidth(row: Row, textScale: number): number {
  let width = 0;
  row.forEach((piece, i) => {
    const { face, px } = STYLES[piece.style];
    if (i > 0) width += isJoined(piece) ? 1 : PIECE_GAP_PX * textScale;
    width += textWidth(piece.text, face, px * textScale);
  });
  return width;
}

export function isName(row: Row): boolean {
  return row[0]?.style === 'name';
}

/** A variant measured: the width of each row, of all, and of the figure that could be taken for another's. */
export interface Measured {
  readonly rows: readonly Row[];
  readonly widths: readonly number[];
  readonly widest: number;
  readonly firstPx: number;
}

/** The same rows are measured once at a size of text. */
export const measured = memoEach((rows: readonly Row[], { textScale }: { textScale: number }): Measured => {
  const widths = rows.map((row) => rowWidth(row, textScale));
  const firstPx = rowWidth(rows[0]!.slice(0, 1), textScale);
  return { rows, widths, widest: Math.max(...widths), firstPx };
});
