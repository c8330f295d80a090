/** Cells as text that a spreadsheet understands, and what a spreadsheet copied as cells. */
import { plainText, readDelimited, safeText } from '../../../core/formats/delimited';
import { cellCount, type Block, type Size } from './grid-range';

/** Rows of cells. */
export type Cells = readonly (readonly string[])[];

/** Minus signs and decimals a spreadsheet takes for a number rather than a formula. */
const NUMBER = /^-\d[\d.,]*$/;

/** Cells with tabs between and a line a row, as every spreadsheet pastes them; no cell can become a formula there. */
export function textOfCells(cells: Cells): string {
  return cells.map((row) => row.map(cellText).join('\t')).join('\n');
}

function cellText(cell: string): string {
  const guarded = NUMBER.test(cell) ? cell : safeText(cell);
  return /[\t\r\n]/.test(guarded) || guarded.startsWith('"') ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}

/**
 * What was copied from a spreadsheet, or typed with tabs. Empty rows in the middle stay, for the cells below them must
 * not move up; empty rows at the end are the line break that stands behind every row.
 * @returns cells without spaces around them; none where nothing but spaces was copied
 */
export function cellsOfText(text: string): Cells {
  const cells: (readonly string[])[] = [];
  for (const { line, cells: row } of readDelimited(text, '\t').rows) {
    const inner = cells.reduce((sum, each) => sum + breaksIn(each), 0);
    while (cells.length + inner < line - 1) cells.push(['']);
    cells.push(row);
  }
  return cells.map((row) => row.map((cell) => plainText(cell).trim()));
}

function breaksIn(row: readonly string[]): number {
  return row.reduce((sum, cell) => sum + cell.split(/\r\n|\r|\n/).length - 1, 0);
}

/** One cell that is given another text. */
export interface CellEdit {
  /** As it stands on screen, from 0; one past the last is a new row. */
  readonly row: number;
  readonly column: number;
  readonly text: string;
}

/** Where pasted cells come to lie, and how many lie beside the grid. */
export interface Landed {
  readonly edits: readonly CellEdit[];
  readonly block: Block;
  /** Cells with something in them for which there is no place. */
  readonly left: number;
}

/**
 * Lays copied cells over a grid: from its upper left corner on, and as often as they fit where more is chosen than was
 * copied, so that one cell fills all that are chosen.
 * @param size of the grid; `rows` more where it grows
 */
export function landed(cells: Cells, chosen: Block, size: Size): Landed {
  const columns = cells.reduce((most, row) => Math.max(most, row.length), 0);
  const high = timesIn(chosen.bottom - chosen.top + 1, cells.length);
  const wide = timesIn(chosen.right - chosen.left + 1, columns);
  const edits: CellEdit[] = [];
  let left = 0;
  for (let down = 0; down < high; down += 1) {
    for (let across = 0; across < wide; across += 1) {
      const text = cells[down % cells.length]?.[across % columns] ?? '';
      const place = { row: chosen.top + down, column: chosen.left + across };
      if (place.row < size.rows && place.column < size.columns) edits.push({ ...place, text });
      else if (text !== '') left += 1;
    }
  }
  const block = {
    ...chosen,
    bottom: Math.min(chosen.top + high, size.rows) - 1,
    right: Math.min(chosen.left + wide, size.columns) - 1,
  };
  return { edits, block, left };
}

/** As many as are chosen where the copied ones go into them without a rest, else as many as were copied. */
function timesIn(chosen: number, copied: number): number {
  return copied > 0 && chosen % copied === 0 ? chosen : copied;
}

/**
 * The first row of a block in all others, or its first column; of a single one what stands before it.
 * @param textAt of a cell of the grid
 */
export function filled(
  block: Block,
  way: 'down' | 'right',
  textAt: (row: number, column: number) => string,
): readonly CellEdit[] {
  const isDown = way === 'down';
  const isSingle = isDown ? block.top === block.bottom : block.left === block.right;
  const first = (isDown ? block.top : block.left) - (isSingle ? 1 : 0);
  if (first < 0 || cellCount(block) === 0) return [];
  const edits: CellEdit[] = [];
  for (let row = isDown ? first + 1 : block.top; row <= block.bottom; row += 1) {
    for (let column = isDown ? block.left : first + 1; column <= block.right; column += 1) {
      edits.push({ row, column, text: isDown ? textAt(first, column) : textAt(row, first) });
    }
  }
  return edits;
}

/** A place in something that is told again and again; before its beginning the end comes first. */
function turned(by: number, of: number): number {
  return ((by % of) + of) % of;
}

/**
 * A block drawn out over more cells: what stands in it again and again, in both directions.
 * @param source the block that is drawn out @param over all of it and what it is drawn over @param textAt of a cell
 */
export function drawnOut(
  source: Block,
  over: Block,
  textAt: (row: number, column: number) => string,
): readonly CellEdit[] {
  const high = source.bottom - source.top + 1;
  const wide = source.right - source.left + 1;
  const edits: CellEdit[] = [];
  for (let row = over.top; row <= over.bottom; row += 1) {
    for (let column = over.left; column <= over.right; column += 1) {
      const isOfSource =
        row >= source.top && row <= source.bottom && column >= source.left && column <= source.right;
      if (isOfSource) continue;
      const from = source.top + turned(row - source.top, high);
      edits.push({ row, column, text: textAt(from, source.left + turned(column - source.left, wide)) });
    }
  }
  return edits;
}
