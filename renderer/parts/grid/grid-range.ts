/** Which cells of a grid are chosen, and where keys go from there. Knows places alone, not what stands in them. */

/** A cell by its row and column as they stand on screen, from 0. */
export interface Place {
  readonly row: number;
  readonly column: number;
}

/** From the cell that is typed into to the one that the choice was drawn to; the same where one is chosen. */
export interface Chosen {
  readonly from: Place;
  readonly to: Place;
}

/** The rectangle of a choice, both ends within. */
export interface Block {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

export interface Size {
  readonly rows: number;
  readonly columns: number;
}

/** What one page up or down passes over. */
const PAGE_ROWS = 10;

export function blockOf({ from, to }: Chosen): Block {
  return {
    top: Math.min(from.row, to.row),
    left: Math.min(from.column, to.column),
    bottom: Math.max(from.row, to.row),
    right: Math.max(from.column, to.column),
  };
}

export function only(place: Place): Chosen {
  return { from: place, to: place };
}

export function cellCount({ top, left, bottom, right }: Block): number {
  return (bottom - top + 1) * (right - left + 1);
}

/**
 * A block and what it is drawn out over by its corner: down, up or to a side, whichever the hand went further.
 * @returns the choice from the end that stays to the one that was drawn
 */
export function drawnTo({ top, left, bottom, right }: Block, to: Place): Chosen {
  const down = Math.max(to.row - bottom, 0) - Math.max(top - to.row, 0);
  const across = Math.max(to.column - right, 0) - Math.max(left - to.column, 0);
  if (Math.abs(down) >= Math.abs(across)) {
    return down < 0
      ? { from: { row: bottom, column: right }, to: { row: to.row, column: left } }
      : { from: { row: top, column: left }, to: { row: bottom + down, column: right } };
  }
  return across < 0
    ? { from: { row: bottom, column: right }, to: { row: top, column: to.column } }
    : { from: { row: top, column: left }, to: { row: bottom, column: right + across } };
}

/** The nearest place that the grid has. @param size with at least one cell */
export function within({ row, column }: Place, { rows, columns }: Size): Place {
  return {
    row: Math.max(0, Math.min(rows - 1, row)),
    column: Math.max(0, Math.min(columns - 1, column)),
  };
}

/**
 * Where a key leads to; null for a key that leads nowhere.
 * @param isFar with Ctrl: to the edge
 */
export function moved(at: Place, key: string, isFar: boolean, size: Size): Place | null {
  const { row, column } = at;
  const last = { row: size.rows - 1, column: size.columns - 1 };
  switch (key) {
    case 'ArrowUp':
      return within({ row: isFar ? 0 : row - 1, column }, size);
    case 'ArrowDown':
      return within({ row: isFar ? last.row : row + 1, column }, size);
    case 'ArrowLeft':
      return within({ row, column: isFar ? 0 : column - 1 }, size);
    case 'ArrowRight':
      return within({ row, column: isFar ? last.column : column + 1 }, size);
    case 'Home':
      return within({ row: isFar ? 0 : row, column: 0 }, size);
    case 'End':
      return within({ row: isFar ? last.row : row, column: last.column }, size);
    case 'PageUp':
      return within({ row: row - PAGE_ROWS, column }, size);
    case 'PageDown':
      return within({ row: row + PAGE_ROWS, column }, size);
    default:
      return null;
  }
}

/** The next cell or the one before, over the ends of rows; null where the grid ends and Tab leaves it. */
export function tabbed({ row, column }: Place, by: 1 | -1, { rows, columns }: Size): Place | null {
  const next = row * columns + column + by;
  if (next < 0 || next >= rows * columns) return null;
  return { row: Math.floor(next / columns), column: next % columns };
}
