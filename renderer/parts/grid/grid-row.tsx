import { memo, type ReactElement, type ReactNode } from 'react';
import type { Said } from '../../../core/words/said';
import type { Words } from '../../../core/words/reader';
import { CellInput, type Ending } from './cell-input';
import type { GridColumn, RowKind } from './grid-types';
import type { Editing } from './use-grid';
import styles from './grid.module.css';

export interface GridRowProps<Row> {
  readonly row: Row;
  readonly index: number;
  readonly columns: readonly GridColumn<Row>[];
  readonly words: Words;
  /** The chosen columns of this row, both within; -1 where none is. */
  readonly left: number;
  readonly right: number;
  /** The cell by whose corner what is chosen is drawn out; -1 where none is. */
  readonly corner: number;
  /** Which of its cells takes the focus; -1 where none does. */
  readonly cursor: number;
  readonly editing: Editing | null;
  readonly refused: ReadonlyMap<number, Said> | undefined;
  readonly rowHead: ((row: Row) => ReactNode) | undefined;
  readonly className: string | undefined;
  /** What a row is, and which: menus of the window ask for it. */
  readonly kind: RowKind | undefined;
  readonly id: string;
  /** Of the row that is being typed into alone, so that the others stay as they are. */
  readonly finish: ((text: string, ending: Ending | null) => boolean) | null;
  readonly drop: (() => void) | null;
}

function Cells<Row>(props: GridRowProps<Row>): ReactNode {
  const { row, index, columns, words, left, right, corner, cursor, editing, refused } = props;
  const { rowHead, finish, drop } = props;
  return (
    <tr className={props.className} {...(props.kind ? { [`data-${props.kind}`]: props.id } : {})}>
      {rowHead ? (
        <th scope="row" className={styles.rowHead}>
          {rowHead(row)}
        </th>
      ) : null}
      {columns.map((column, at) => {
        const isEdited = editing !== null && editing.column === at;
        const canEdit = column.canEdit?.(row) ?? false;
        const why = refused?.get(at);
        const classes = [
          canEdit ? styles.typed : styles.worked,
          column.isFigure ? styles.number : '',
          why ? styles.refused : '',
          column.className?.(row) ?? '',
        ];
        return (
          <td
            key={column.id}
            role="gridcell"
            data-row={index}
            data-column={at}
            tabIndex={cursor === at && !isEdited ? 0 : -1}
            aria-selected={at >= left && at <= right}
            {...(canEdit ? {} : { 'aria-readonly': true })}
            {...(why ? { 'aria-invalid': true, title: words(why) } : {})}
            className={classes.filter(Boolean).join(' ')}
          >
            {isEdited && finish && drop ? (
              <CellInput
                label={words(column.name)}
                text={editing.text}
                isBegunByLetter={editing.isBegunByLetter}
                isRefused={why !== undefined}
                {...(column.options ? { options: column.options } : {})}
                listId={`options-of-${column.id}`}
                finish={finish}
                drop={drop}
              />
            ) : (
              (column.show?.(row) ?? column.text(row))
            )}
            {corner === at && !isEdited ? (
              <span className={styles.drawn} data-corner aria-hidden="true" />
            ) : null}
          </td>
        );
      })}
    </tr>
  );
}

/** One row; drawn anew where it, its chosen cells or what is typed into it changed, and not at every key. */
export const GridRow = memo(Cells) as <Row>(props: GridRowProps<Row>) => ReactElement;
