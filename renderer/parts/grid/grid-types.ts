import type { ReactNode } from 'react';
import type { Said } from '../../../core/words/said';
import type { CellEdit } from './grid-text';
import type { Place } from './grid-range';

/** A column of a grid. */
export interface GridColumn<Row> {
  readonly id: string;
  /** What its cells are called, for who cannot see the head, and where one of them is spoken of. */
  readonly name: Said;
  /** Its head; the name where nothing else is said. */
  readonly head?: ReactNode;
  /** What a cell says: so it is read, copied, filled down and edited from. */
  readonly text: (row: Row) => string;
  /** What a cell shows where that is more than its text. */
  readonly show?: (row: Row) => ReactNode;
  /** Whether a cell can be typed in; a column without it is worked out, not typed. */
  readonly canEdit?: (row: Row) => boolean;
  /** Offered while typing, such as the names of the sites. */
  readonly options?: readonly string[];
  /**
   * Rem. Where every column says how wide it is, none looks at what stands in it: else a letter typed into one cell has
   * all cells of the table measured and painted again. Words wider than their column take another line, and room that
   * is left is shared.
   */
  readonly widthRem?: number;
  /** Figures stand at the end of their cell. */
  readonly isFigure?: boolean;
  /** A class for a cell that says more than its text, such as past a limit. */
  readonly className?: (row: Row) => string | undefined;
  /** Whether rows can be put in its order. */
  readonly canSort?: boolean;
}

/** A cell whose text was not taken, and why. */
export interface CellRefusal {
  readonly row: number;
  readonly column: number;
  readonly why: Said;
}

/** What became of edits. */
export interface PutResult {
  readonly refused: readonly CellRefusal[];
  /** The key of the row that stands now for what was typed into the new row. */
  readonly added?: string | undefined;
}

export interface Sorting {
  readonly column: string;
  readonly isDown: boolean;
}

/** What rows may be of: menus of the window ask for it. */
export type RowKind = 'dive' | 'diver';

export interface GridProps<Row> {
  /** What the grid is, for who cannot see it. */
  readonly label: string;
  /** The same array while nothing of it changes, or every row is drawn anew at every key. */
  readonly columns: readonly GridColumn<Row>[];
  readonly rows: readonly Row[];
  readonly keyOf: (row: Row) => string;
  /** What a row is called where one of its cells is spoken of: "dive 9". */
  readonly nameOf: (row: Row) => Said;
  /**
   * Takes texts into cells, in one step of undo; what cannot be is given back with its reason, the rest is taken.
   * Every cell is one that can be edited, and its text another than it had.
   */
  readonly put: (edits: readonly CellEdit[]) => PutResult;
  /** Before the cells of a row; not part of what is chosen. The same function while it shows the same. */
  readonly rowHead?: (row: Row) => ReactNode;
  /** Rem; as that of columns. */
  readonly rowHeadRem?: number;
  /** The head over `rowHead`. */
  readonly corner?: ReactNode;
  /** What the rows are of, where their keys are its ids. */
  readonly kind?: RowKind;
  /** A row of heads above those of the columns. */
  readonly above?: ReactNode;
  readonly rowClass?: (row: Row) => string | undefined;
  /** Where the last row stands for one that is not there yet: pasted rows may go on behind it. */
  readonly grows?: boolean;
  readonly sorting?: Sorting;
  readonly onSort?: (column: string) => void;
  /** A key on a cell that is not being edited; true where it was taken. Asked before the grid's own keys. */
  readonly onKey?: (key: string, places: readonly Place[]) => boolean;
  /** Where the cell that is typed into is: told whenever it moves. */
  readonly onMove?: (row: Row, column: GridColumn<Row>) => void;
  /** The cell that is chosen at first, by row key and column. */
  readonly start?: { readonly key: string; readonly column: string };
  /** Whether that cell has the focus as the grid comes. */
  readonly takesFocus?: boolean;
}
