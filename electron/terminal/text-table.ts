import { greatest } from '../../core/numeric';

/** What a terminal of the usual width shows without breaking lines. */
export const TABLE_COLUMNS = 100;

/** How wide an answer may be, and whether it has colours. */
export interface Look {
  readonly columns: number;
  readonly isColored: boolean;
}

/** For who says nothing of it: a pipe, a file. */
export const PLAIN: Look = { columns: TABLE_COLUMNS, isColored: false };

/** Sentences are no longer than they can be read, however wide the terminal is. */
export function sentenceColumns({ columns }: Look): number {
  return Math.min(columns, TABLE_COLUMNS);
}

/** Blanks between two columns. */
const GAP = '  ';

/** Letters as a terminal counts them. */
function widthOf(text: string): number {
  return Array.from(text).length;
}

/** A text and blanks, or blanks and a figure. */
export function padded(text: string, width: number, isText: boolean): string {
  const blanks = ' '.repeat(Math.max(0, width - widthOf(text)));
  return isText ? text + blanks : blanks + text;
}

/** Cells of one line. @param widths of the columns @param isText which of them hold words */
export function line(
  cells: readonly string[],
  widths: readonly number[],
  isText: (column: number) => boolean,
): string {
  return cells
    .map((cell, column) => padded(cell, widths[column]!, isText(column)))
    .join(GAP)
    .trimEnd();
}

/** Rows with columns as wide as their widest cell; the first `textColumns` hold words. */
export function table(rows: readonly (readonly string[])[], textColumns: number): readonly string[] {
  const widths = rows[0]!.map((_, column) => greatest(rows.map((row) => widthOf(row[column]!))));
  return rows.map((row) => line(row, widths, (column) => column < textColumns));
}

/** What the other columns of a line leave of the width for one of them. */
export function widthLeft(others: readonly number[], columns: number): number {
  return columns - others.reduce((sum, width) => sum + width + GAP.length, 0);
}

/** A text cut to a width, so that it can be seen to be cut. */
export function cut(text: string, width: number): string {
  const letters = Array.from(text);
  return letters.length <= width ? text : `${letters.slice(0, width - 1).join('')}\u2026`;
}

/** Breaks a sentence at blanks. @param indent blanks before each line but the first */
export function wrapped(text: string, indent: number, columns = TABLE_COLUMNS): string {
  const lines: string[] = [];
  let held = '';
  for (const word of text.split(' ')) {
    const room = columns - (lines.length === 0 ? 0 : indent);
    if (held !== '' && held.length + 1 + word.length > room) {
      lines.push(held);
      held = word;
    } else held = held === '' ? word : `${held} ${word}`;
  }
  return [...lines, held].join(`\n${' '.repeat(indent)}`);
}
