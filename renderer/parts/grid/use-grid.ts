import { useLayoutEffect, useMemo, useRef, useState, type RefObject } from 'react';
import { inRow, said, sentences, type Piece, type Said } from '../../../core/words/said';
import { blockOf, cellCount, within, type Block, type Chosen, type Place } from './grid-range';
import { cellsOfText, drawnOut, filled, landed, textOfCells, type CellEdit } from './grid-text';
import type { CellRefusal, GridProps } from './grid-types';

/** A cell by its row's key: rows may come into another order, and the choice goes with them. */
interface Spot {
  readonly key: string;
  readonly column: number;
}

/** What is being typed into a cell. */
export interface Editing extends Spot {
  readonly text: string;
  /** By a letter on the cell, which took the place of what it said. */
  readonly isBegunByLetter: boolean;
}

/** What is said under the grid after something was put into it. */
export interface Told {
  readonly words: Said;
  readonly isRefused: boolean;
  readonly canUndo: boolean;
}

/** By row key and then column: why what was put there was not taken. */
export type Refused = ReadonlyMap<string, ReadonlyMap<number, Said>>;

interface Held {
  readonly from: Spot;
  readonly to: Spot;
  readonly editing: Editing | null;
  readonly told: Told | null;
  readonly refused: Refused;
}

const NONE_REFUSED: Refused = new Map();
/** So many refusals are told in words; all are marked in their cells. */
const TOLD = 3;

export interface GridState<Row> {
  readonly chosen: Chosen;
  readonly block: Block;
  readonly editing: Editing | null;
  readonly told: Told | null;
  readonly refused: Refused;
  readonly canEdit: (place: Place) => boolean;
  readonly choose: (chosen: Chosen) => void;
  /** Begins to type into the chosen cell: from what it says, or from a first letter that takes its place. */
  readonly edit: (text?: string) => void;
  readonly drop: () => void;
  /** Takes what was typed, and goes on to a place. False where it was refused: the text stays with its reason. */
  readonly finish: (text: string, next: Place | null) => boolean;
  readonly clear: () => void;
  readonly fill: (way: 'down' | 'right') => void;
  /** Fills what is chosen from a block of it, again and again. */
  readonly drawOut: (source: Block) => void;
  readonly paste: (text: string) => void;
  readonly copied: () => string;
  readonly rowAt: (place: Place) => Row;
}

/** The state of a grid: what is chosen, what is being typed, what was refused; and what can be done with it. */
export function useGrid<Row>(props: GridProps<Row>, box: RefObject<HTMLTableElement | null>): GridState<Row> {
  const { rows, columns, keyOf, put, start, onMove } = props;
  const wantsFocus = useRef(props.takesFocus ?? false);
  const [held, setHeld] = useState<Held>(() => {
    const column = Math.max(
      0,
      columns.findIndex(({ id }) => id === start?.column),
    );
    const first = { key: start?.key ?? (rows[0] ? keyOf(rows[0]) : ''), column };
    return { from: first, to: first, editing: null, told: null, refused: NONE_REFUSED };
  });
  const rowOf = useMemo(() => new Map(rows.map((row, at) => [keyOf(row), at])), [rows, keyOf]);

  const size = { rows: rows.length, columns: columns.length };
  const placeOf = ({ key, column }: Spot): Place => within({ row: rowOf.get(key) ?? 0, column }, size);
  const spotOf = ({ row, column }: Place): Spot => ({ key: keyOf(rows[row]!), column });
  const chosen = { from: placeOf(held.from), to: placeOf(held.to) };
  const block = blockOf(chosen);
  const { row, column } = chosen.from;

  useLayoutEffect(() => {
    if (!wantsFocus.current || held.editing) return;
    wantsFocus.current = false;
    const cell = cellAt(box.current, chosen.from);
    // Where both scroll, the page is laid out for each of them.
    if (cell !== document.activeElement) cell?.focus({ preventScroll: true });
    cellAt(box.current, chosen.to)?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  });

  const textAt = (atRow: number, atColumn: number): string => {
    const there = rows[atRow];
    return there === undefined ? '' : columns[atColumn]!.text(there);
  };
  /** A row that is not there yet can be typed into as the last one can, which stands for it. */
  const canEdit = (place: Place): boolean => {
    const there = rows[place.row] ?? (props.grows ? rows.at(-1) : undefined);
    return there !== undefined && (columns[place.column]?.canEdit?.(there) ?? false);
  };

  const choose = (next: Chosen): void => {
    wantsFocus.current = true;
    setHeld((before) => ({ ...before, from: spotOf(next.from), to: spotOf(next.to) }));
    const there = rows[next.from.row]!;
    if (next.from.row !== row || next.from.column !== column) onMove?.(there, columns[next.from.column]!);
  };

  /** Gives edits on; what is not typed, and what says what it said, is kept from them. */
  const giveOn = (edits: readonly CellEdit[]): { readonly refused: CellRefusal[]; added?: string } => {
    const changed = edits.filter((edit) => edit.text !== textAt(edit.row, edit.column));
    const worked = changed
      .filter((edit) => !canEdit(edit) && edit.text !== '')
      .map((edit): CellRefusal => ({ row: edit.row, column: edit.column, why: said`It is not typed here.` }));
    const typed = changed.filter(canEdit);
    if (typed.length === 0) return { refused: worked };
    const result = put(typed);
    const refused = [...worked, ...result.refused];
    return result.added === undefined ? { refused } : { refused, added: result.added };
  };

  const toldOf = (what: Said, refused: readonly CellRefusal[], isDone: boolean): Told => ({
    words: sentences([what, refusedWords(refused)]),
    isRefused: refused.length > 0,
    canUndo: isDone,
  });
  const refusedWords = (refused: readonly CellRefusal[]): Piece => {
    const told = refused.slice(0, TOLD).map(({ row: at, column: across, why }) => {
      const there = rows[at];
      const called = there === undefined ? said`row ${at + 1}` : props.nameOf(there);
      return said`${called}, ${columns[across]!.name}: ${why}`;
    });
    const rest = refused.length - told.length;
    if (refused.length === 0) return '';
    const all = rest > 0 ? [...told, said`and ${rest} more`] : told;
    return refused.length === 1
      ? said`Not taken: ${inRow(all)}`
      : said`Not taken, ${refused.length} cells: ${inRow(all)}`;
  };

  /** @param what is said of it; null where the cell itself shows it */
  const putAll = (edits: readonly CellEdit[], what: ((count: number) => Said) | null, more?: Block): void => {
    const { refused, added } = giveOn(edits);
    const taken = edits.length - refused.length;
    wantsFocus.current = true;
    setHeld((before) => ({
      ...before,
      ...(more ? chosenOf(more, spotOf, size.rows) : added === undefined ? {} : inNew(before, added)),
      editing: null,
      refused: marked(refused, rows, keyOf),
      told:
        what === null && refused.length === 0 ? null : toldOf(what?.(taken) ?? said``, refused, taken > 0),
    }));
  };

  return {
    chosen,
    block,
    editing: held.editing,
    told: held.told,
    refused: held.refused,
    canEdit,
    choose,
    edit: (text) => {
      if (!canEdit(chosen.from)) return;
      const from = spotOf(chosen.from);
      setHeld((before) => ({
        ...before,
        to: from,
        editing: { ...from, text: text ?? textAt(row, column), isBegunByLetter: text !== undefined },
        told: null,
      }));
    },
    drop: () => {
      wantsFocus.current = true;
      setHeld((before) => ({ ...before, editing: null, told: null, refused: NONE_REFUSED }));
    },
    finish: (text, next) => {
      if (held.editing === null) return true;
      const at = placeOf(held.editing);
      const { refused, added } = giveOn([{ ...at, text }]);
      const isTaken = refused.length === 0;
      const stays = !isTaken && next !== null;
      const moved = next === null || stays ? null : spotOf(next);
      wantsFocus.current = next !== null;
      setHeld((before) => ({
        ...before,
        // What was typed into the new row stands in a row of its own now, and the next cell is in that.
        ...(moved === null
          ? {}
          : alone(added !== undefined && next?.row === at.row ? { ...moved, key: added } : moved)),
        editing: stays ? { ...held.editing!, text } : null,
        refused: isTaken ? NONE_REFUSED : marked(refused, rows, keyOf),
        told: isTaken ? null : toldOf(said``, refused, false),
      }));
      // Before anything is drawn: a focus that moves has all that changed laid out, and so has a field that is taken
      // away with the focus in it.
      if (next !== null && !stays) cellAt(box.current, next)?.focus({ preventScroll: true });
      return !stays;
    },
    clear: () =>
      putAll(
        inBlock(block).map((place) => ({ ...place, text: '' })),
        null,
      ),
    fill: (way) => putAll(filled(block, way, textAt), null),
    drawOut: (source) => putAll(drawnOut(source, block, textAt), null),
    paste: (text) => {
      const cells = cellsOfText(text);
      if (cells.length === 0) return;
      const room = { ...size, rows: size.rows + (props.grows ? cells.length : 0) };
      const { edits, block: on, left } = landed(cells, block, room);
      const beside =
        left === 0
          ? ''
          : left === 1
            ? said`One cell lay beside the table.`
            : said`${left} cells lay beside the table.`;
      putAll(
        edits,
        (count) => sentences([count === 1 ? said`Pasted 1 cell.` : said`Pasted ${count} cells.`, beside]),
        on,
      );
    },
    copied: () => {
      const { top, left, bottom, right } = block;
      return textOfCells(
        Array.from({ length: bottom - top + 1 }, (_, down) =>
          Array.from({ length: right - left + 1 }, (__, across) => textAt(top + down, left + across)),
        ),
      );
    },
    rowAt: (place) => rows[place.row]!,
  };
}

/** Every place of a block, row by row. */
export function inBlock(block: Block): readonly Place[] {
  return Array.from({ length: cellCount(block) }, (_, at) => {
    const columns = block.right - block.left + 1;
    return { row: block.top + Math.floor(at / columns), column: block.left + (at % columns) };
  });
}

function alone(spot: Spot): Pick<Held, 'from' | 'to'> {
  return { from: spot, to: spot };
}

/** The choice in the row that has come of the new one. */
function inNew({ from }: Held, key: string): Pick<Held, 'from' | 'to'> {
  return alone({ ...from, key });
}

/** A block as a choice, as far as there are rows on screen. */
function chosenOf(block: Block, spotOf: (place: Place) => Spot, rows: number): Pick<Held, 'from' | 'to'> {
  const bottom = Math.min(block.bottom, rows - 1);
  return {
    from: spotOf({ row: block.top, column: block.left }),
    to: spotOf({ row: bottom, column: block.right }),
  };
}

function marked<Row>(
  refused: readonly CellRefusal[],
  rows: readonly Row[],
  keyOf: (row: Row) => string,
): Refused {
  if (refused.length === 0) return NONE_REFUSED;
  const marks = new Map<string, Map<number, Said>>();
  for (const { row, column, why } of refused) {
    const there = rows[row];
    if (there === undefined) continue;
    const key = keyOf(there);
    const held = marks.get(key);
    if (held) held.set(column, why);
    else marks.set(key, new Map([[column, why]]));
  }
  return marks;
}

function cellAt(box: HTMLTableElement | null, { row, column }: Place): HTMLElement | null {
  return box?.querySelector<HTMLElement>(`[data-row="${row}"][data-column="${column}"]`) ?? null;
}

/** The place of the cell that an event is of; null where it is of none. */
export function placeOfEvent(target: EventTarget | null): Place | null {
  const cell = target instanceof Element ? target.closest<HTMLElement>('[data-row]') : null;
  if (!cell) return null;
  return { row: Number(cell.dataset['row']), column: Number(cell.dataset['column']) };
}
