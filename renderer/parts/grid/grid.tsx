/**
 * A table that is typed into as a spreadsheet is.
 *
 * The place that shows it gives columns, rows and `put`, which makes one step of undo of many cells and gives back what
 * it does not take; the grid does the rest: arrows, Home, End, Page, with Shift a range and with Ctrl to the edge;
 * letters, F2 or a double click to type, Enter and Tab to go on, Escape to let go; Delete empties, Ctrl D and Ctrl R
 * fill down and to the right, as a corner drawn out by hand does to any side, Ctrl C, X and V copy and paste with a spreadsheet. It is one stop of Tab: Tab goes
 * from cell to cell, and after Escape out of the grid. What is refused is marked in its cell and told below.
 */
import {
  useId,
  useLayoutEffect,
  useRef,
  type ClipboardEvent,
  type KeyboardEvent,
  type MouseEvent,
  type ReactNode,
} from 'react';
import { said } from '../../../core/words/said';
import { undoStep } from '../../actions/history';
import { useWords } from '../use-words';
import type { Ending } from './cell-input';
import {
  cellCount,
  drawnTo,
  moved,
  only,
  tabbed,
  within,
  type Block,
  type Place,
  type Size,
} from './grid-range';
import { GridRow } from './grid-row';
import type { GridProps } from './grid-types';
import { inBlock, placeOfEvent, useGrid } from './use-grid';
import styles from './grid.module.css';

export type { CellEdit } from './grid-text';
export type { CellRefusal, GridColumn, GridProps, PutResult, Sorting } from './grid-types';

const STEPS: Readonly<Record<Exclude<Ending, 'next' | 'before'>, Place>> = {
  down: { row: 1, column: 0 },
  up: { row: -1, column: 0 },
  left: { row: 0, column: -1 },
  right: { row: 0, column: 1 },
  stay: { row: 0, column: 0 },
};

function after(at: Place, ending: Ending, size: Size): Place {
  if (ending === 'next' || ending === 'before') return tabbed(at, ending === 'next' ? 1 : -1, size) ?? at;
  const step = STEPS[ending];
  return within({ row: at.row + step.row, column: at.column + step.column }, size);
}

/** How wide all columns are, the head of the rows first; null where one is as wide as what stands in it. */
function widthsOf<Row>({ columns, rowHead, rowHeadRem }: GridProps<Row>): readonly number[] | null {
  const all = [...(rowHead ? [rowHeadRem] : []), ...columns.map(({ widthRem }) => widthRem)];
  return all.every((rem) => rem !== undefined) ? all : null;
}

function isInField({ target }: ClipboardEvent): boolean {
  return target instanceof HTMLInputElement;
}

export function Grid<Row>(props: GridProps<Row>): ReactNode {
  const { rows, columns, keyOf, sorting, onSort } = props;
  const box = useRef<HTMLTableElement>(null);
  const grid = useGrid(props, box);
  /** As it is now, for what comes once the hand lets go. */
  const latest = useRef(grid);
  useLayoutEffect(() => {
    latest.current = grid;
  });
  const words = useWords();
  const help = useId();
  /** After Escape the next Tab leaves: nobody is caught in the grid. */
  const isLeaving = useRef(false);
  const isDrawing = useRef(false);
  /** What is being drawn out by its corner. */
  const drawnFrom = useRef<Block | null>(null);
  const size = { rows: rows.length, columns: columns.length };
  const widths = widthsOf(props);
  const { from, to } = grid.chosen;
  const { block } = grid;

  const onKeyDown = (event: KeyboardEvent): void => {
    // What stands in a cell, such as a field or a button, has keys of its own.
    if (
      event.defaultPrevented ||
      !(event.target instanceof HTMLElement) ||
      !event.target.matches('[data-row]')
    )
      return;
    const isCtrl = event.ctrlKey || event.metaKey;
    if (event.key === 'Tab') {
      const next = isLeaving.current ? null : tabbed(from, event.shiftKey ? -1 : 1, size);
      isLeaving.current = false;
      if (next === null) return;
      event.preventDefault();
      grid.choose(only(next));
      return;
    }
    if (!['Shift', 'Control', 'Meta', 'Alt'].includes(event.key)) isLeaving.current = event.key === 'Escape';
    if (event.altKey) return;
    if (!isCtrl && props.onKey?.(event.key, inBlock(block))) {
      event.preventDefault();
      return;
    }
    const next = moved(event.shiftKey ? to : from, event.key, isCtrl, size);
    if (next !== null) {
      event.preventDefault();
      grid.choose(event.shiftKey ? { from, to: next } : only(next));
      return;
    }
    if (runKey(event, isCtrl)) event.preventDefault();
  };

  /** Keys that do something to what is chosen. */
  const runKey = (event: KeyboardEvent, isCtrl: boolean): boolean => {
    const key = event.key.toLowerCase();
    if (isCtrl) {
      if (key === 'd') grid.fill('down');
      else if (key === 'r') grid.fill('right');
      else if (key === 'a')
        grid.choose({
          from: { row: 0, column: 0 },
          to: within({ row: rows.length, column: columns.length }, size),
        });
      else return false;
      return true;
    }
    if (key === 'enter') grid.choose(only(after(from, event.shiftKey ? 'up' : 'down', size)));
    else if (key === 'delete' || key === 'backspace') grid.clear();
    else if (key === 'f2') grid.edit();
    else if (key === 'escape' && cellCount(block) > 1) grid.choose(only(from));
    else if (event.key.length === 1 && event.key !== ' ') grid.edit(event.key);
    else return false;
    return true;
  };

  const onMouseDown = (event: MouseEvent): void => {
    const place = placeOfEvent(event.target);
    const isOfOther = event.target instanceof Element && event.target.closest('button, a, input, select');
    if (place === null || isOfOther || event.button !== 0) return;
    // The browser would draw its own choice of text along.
    event.preventDefault();
    // What is being typed elsewhere in the grid is taken as by leaving its field.
    if (document.activeElement instanceof HTMLInputElement) document.activeElement.blur();
    isDrawing.current = true;
    window.addEventListener('mouseup', onMouseUp, { once: true });
    if (event.target instanceof Element && event.target.matches('[data-corner]')) {
      drawnFrom.current = block;
      return;
    }
    grid.choose(event.shiftKey ? { from, to: place } : only(place));
  };
  const onMouseUp = (): void => {
    isDrawing.current = false;
    const source = drawnFrom.current;
    drawnFrom.current = null;
    if (source !== null) latest.current.drawOut(source);
  };
  const onMouseOver = (event: MouseEvent): void => {
    const place = isDrawing.current ? placeOfEvent(event.target) : null;
    if (place !== null && drawnFrom.current !== null) grid.choose(drawnTo(drawnFrom.current, place));
    else if (place !== null && (place.row !== to.row || place.column !== to.column))
      grid.choose({ from, to: place });
  };

  const onCopy = (event: ClipboardEvent): void => {
    if (isInField(event)) return;
    event.clipboardData.setData('text/plain', grid.copied());
    event.preventDefault();
    if (event.type === 'cut') grid.clear();
  };
  const onPaste = (event: ClipboardEvent): void => {
    if (isInField(event)) return;
    event.preventDefault();
    grid.paste(event.clipboardData.getData('text/plain'));
  };
  const finish = (text: string, ending: Ending | null): boolean =>
    grid.finish(text, ending === null ? null : after(from, ending, size));

  return (
    <div className={styles.grid}>
      <div className={styles.scroll}>
        <table
          ref={box}
          role="grid"
          aria-label={props.label}
          aria-multiselectable="true"
          aria-describedby={help}
          className={widths ? styles.fixed : undefined}
          onKeyDown={onKeyDown}
          onMouseDown={onMouseDown}
          onMouseOver={onMouseOver}
          onDoubleClick={(event) => {
            if (placeOfEvent(event.target) && !(event.target instanceof HTMLInputElement)) grid.edit();
          }}
          onCopy={onCopy}
          onCut={onCopy}
          onPaste={onPaste}
        >
          {widths ? (
            <colgroup>
              {widths.map((rem, at) => (
                <col key={at} style={{ width: `${rem}rem` }} />
              ))}
            </colgroup>
          ) : null}
          <thead>
            {props.above}
            <tr>
              {props.rowHead ? <td className={styles.corner}>{props.corner}</td> : null}
              {columns.map((column) => {
                const isSorted = sorting?.column === column.id;
                const head = column.head ?? words(column.name);
                return (
                  <th
                    key={column.id}
                    scope="col"
                    className={column.isFigure ? styles.number : undefined}
                    {...(isSorted ? { 'aria-sort': sorting.isDown ? 'descending' : 'ascending' } : {})}
                  >
                    {column.canSort && onSort ? (
                      <button type="button" onClick={() => onSort(column.id)}>
                        {head}
                        {isSorted ? <span aria-hidden="true">{sorting.isDown ? ' ▾' : ' ▴'}</span> : null}
                      </button>
                    ) : (
                      head
                    )}
                  </th>
                );
              })}
            </tr>
          </thead>
          <tbody>
            {rows.map((row, index) => {
              const key = keyOf(row);
              const isIn = index >= block.top && index <= block.bottom;
              const isEdited = grid.editing?.key === key;
              return (
                <GridRow
                  key={key}
                  row={row}
                  index={index}
                  columns={columns}
                  words={words}
                  left={isIn ? block.left : -1}
                  right={isIn ? block.right : -1}
                  corner={
                    index === block.bottom && grid.canEdit({ row: index, column: block.right })
                      ? block.right
                      : -1
                  }
                  cursor={index === from.row ? from.column : -1}
                  editing={isEdited ? grid.editing : null}
                  refused={grid.refused.get(key)}
                  rowHead={props.rowHead}
                  className={props.rowClass?.(row)}
                  kind={props.kind}
                  id={key}
                  finish={isEdited ? finish : null}
                  drop={isEdited ? grid.drop : null}
                />
              );
            })}
          </tbody>
        </table>
      </div>
      <div className={styles.foot}>
        <p role="status" className={grid.told?.isRefused ? 'care' : undefined}>
          {grid.told
            ? words(grid.told.words)
            : cellCount(block) > 1
              ? words(said`${cellCount(block)} cells`)
              : null}{' '}
          {grid.told?.canUndo ? (
            <button
              type="button"
              className="linked"
              onClick={() => {
                undoStep();
                grid.drop();
              }}
            >
              {words(said`Undo`)}
            </button>
          ) : null}
        </p>
        <p id={help} className={styles.help}>
          <kbd>F2</kbd> {words(said`edit`)} <kbd>Ctrl D</kbd> {words(said`fill down`)} <kbd>Ctrl C</kbd>{' '}
          <kbd>Ctrl V</kbd> {words(said`copy, paste`)} <kbd>Shift</kbd> {words(said`range`)} <kbd>Esc</kbd>{' '}
          <kbd>Tab</kbd> {words(said`leave the table`)}
        </p>
      </div>
    </div>
  );
}
