// @vitest-environment jsdom
import { cleanup, createEvent, fireEvent, render, screen } from '@testing-library/react';
import { useState, type ReactNode } from 'react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { said } from '../../../../../core/words/said';
import {
  Grid,
  type CellEdit,
  type CellRefusal,
  type GridColumn,
  type PutResult,
} from '../../../../../renderer/parts/grid/grid';
import { desk, freshDesk } from '../../../../../renderer/store/store';

interface Line {
  readonly key: string;
  readonly depth: string;
  readonly min: string;
}

const COLUMNS: readonly GridColumn<Line>[] = [
  { id: 'depth', name: said`depth`, text: ({ depth }) => depth, canEdit: () => true, isFigure: true },
  { id: 'min', name: said`time`, text: ({ min }) => min, canEdit: () => true },
  { id: 'sum', name: said`both`, text: ({ depth, min }) => `${depth}/${min}` },
];

const LINES: readonly Line[] = [
  { key: 'a', depth: '20', min: '40' },
  { key: 'b', depth: '18', min: '45' },
  { key: 'c', depth: '12', min: '50' },
];

const puts = vi.fn<(edits: readonly CellEdit[]) => void>();

/** Keeps what is typed, and refuses what is no number. */
function Sheet({ grows = false }: { readonly grows?: boolean }): ReactNode {
  const [lines, setLines] = useState(LINES);
  const put = (edits: readonly CellEdit[]): PutResult => {
    puts(edits);
    const next = [...lines];
    const refused: CellRefusal[] = [];
    for (const { row, column, text } of edits) {
      if (!/^\d+$/.test(text)) refused.push({ row, column, why: said`“${text}” is not a number.` });
      else {
        const held = next[row] ?? { key: `new-${row}`, depth: '', min: '' };
        next[row] = { ...held, [COLUMNS[column]!.id]: text };
      }
    }
    setLines(next);
    return { refused };
  };
  return (
    <Grid
      label="Depths"
      columns={COLUMNS}
      rows={lines}
      keyOf={({ key }) => key}
      nameOf={({ key }) => said`line ${key}`}
      put={put}
      grows={grows}
    />
  );
}

beforeEach(() => {
  desk.setState(freshDesk(), true);
  puts.mockClear();
  // jsdom lays nothing out, so nothing can be scrolled to.
  Element.prototype.scrollIntoView = vi.fn();
});
afterEach(cleanup);

const cells = (): readonly HTMLElement[] => screen.getAllByRole('gridcell');
const cell = (row: number, column: number): HTMLElement =>
  cells().find(({ dataset }) => dataset['row'] === `${row}` && dataset['column'] === `${column}`)!;
const texts = (): readonly string[] =>
  cells().flatMap((each) => (each.dataset['row'] ? [each.textContent] : []));
const press = (key: string, how: object = {}): void => {
  fireEvent.keyDown(document.activeElement!, { key, ...how });
};
const pasted = (text: string): void => {
  const event = createEvent.paste(document.activeElement!);
  Object.assign(event, { clipboardData: { getData: () => text } });
  fireEvent(document.activeElement!, event);
};

describe('a grid', () => {
  it('is one stop of Tab, walked by arrows, and left by Tab after Escape', () => {
    render(<Sheet />);
    expect(cells().filter(({ tabIndex }) => tabIndex === 0)).toEqual([cell(0, 0)]);
    fireEvent.mouseDown(cell(0, 0));
    press('ArrowDown');
    press('ArrowRight');
    expect(document.activeElement).toBe(cell(1, 1));
    press('Tab');
    expect(document.activeElement).toBe(cell(1, 2));
    press('Escape');
    const isHeld = !fireEvent.keyDown(document.activeElement!, { key: 'Tab' });
    expect(isHeld).toBe(false);
  });

  it('takes a letter as the beginning of another text, Enter goes down', () => {
    render(<Sheet />);
    fireEvent.mouseDown(cell(0, 0));
    press('2');
    const field = screen.getByRole<HTMLInputElement>('textbox', { name: 'depth' });
    expect(field.value).toBe('2');
    fireEvent.change(field, { target: { value: '24' } });
    press('Enter');
    expect(puts.mock.calls).toEqual([[[{ row: 0, column: 0, text: '24' }]]]);
    expect(cell(0, 0).textContent).toBe('24');
    expect(document.activeElement).toBe(cell(1, 0));
  });

  it('begins from the text with F2, and Escape changes nothing', () => {
    render(<Sheet />);
    fireEvent.mouseDown(cell(1, 1));
    press('F2');
    const field = screen.getByRole<HTMLInputElement>('textbox', { name: 'time' });
    expect(field.value).toBe('45');
    fireEvent.change(field, { target: { value: '99' } });
    press('Escape');
    expect(puts).not.toHaveBeenCalled();
    expect(document.activeElement).toBe(cell(1, 1));
  });

  it('keeps what it refuses in its cell with the reason, and goes nowhere', () => {
    render(<Sheet />);
    fireEvent.mouseDown(cell(1, 0));
    press('x');
    press('Enter');
    expect(screen.getByRole<HTMLInputElement>('textbox').value).toBe('x');
    expect(screen.getByRole('status').textContent).toContain(
      'Not taken: line b, depth: “x” is not a number.',
    );
    expect(cell(1, 0).getAttribute('aria-invalid')).toBe('true');
  });

  it('takes what is typed when another cell is pressed', () => {
    render(<Sheet />);
    fireEvent.mouseDown(cell(0, 0));
    press('7');
    fireEvent.mouseDown(cell(2, 1));
    expect(cell(0, 0).textContent).toBe('7');
    expect(document.activeElement).toBe(cell(2, 1));
  });

  it('pastes a block at the cursor in one go, and tells by cell what it does not take', () => {
    render(<Sheet />);
    fireEvent.mouseDown(cell(1, 0));
    pasted('30\t20\ndeep\t25\n');
    expect(puts).toHaveBeenCalledTimes(1);
    expect(texts()).toEqual(['20', '40', '20/40', '30', '20', '30/20', '12', '25', '12/25']);
    expect(screen.getByRole('status').textContent).toContain(
      'Pasted 3 cells. Not taken: line c, depth: “deep” is not a number.',
    );
    expect(cells().filter((each) => each.getAttribute('aria-selected') === 'true')).toHaveLength(4);
  });

  it('tells that worked-out cells are not typed, unless they say the same', () => {
    render(<Sheet />);
    fireEvent.mouseDown(cell(0, 1));
    pasted('41\t20/40');
    expect(screen.getByRole('status').textContent).not.toContain('Not taken');
    pasted('41\t999');
    expect(screen.getByRole('status').textContent).toContain('Not taken: line a, both');
  });

  it('fills down what is chosen with Shift, and empties nothing that cannot be empty', () => {
    render(<Sheet />);
    fireEvent.mouseDown(cell(0, 0));
    press('ArrowDown', { shiftKey: true });
    press('ArrowDown', { shiftKey: true });
    press('d', { ctrlKey: true });
    expect([cell(0, 0), cell(1, 0), cell(2, 0)].map(({ textContent }) => textContent)).toEqual([
      '20',
      '20',
      '20',
    ]);
    press('Delete');
    expect(screen.getByRole('status').textContent).toContain('Not taken, 3 cells');
  });

  it('copies what is chosen as a spreadsheet pastes it', () => {
    render(<Sheet />);
    fireEvent.mouseDown(cell(0, 0));
    fireEvent.mouseDown(cell(1, 2), { shiftKey: true });
    const setData = vi.fn<(type: string, text: string) => void>();
    const event = createEvent.copy(document.activeElement!);
    Object.assign(event, { clipboardData: { setData } });
    fireEvent(document.activeElement!, event);
    expect(setData.mock.calls).toEqual([['text/plain', '20\t40\t20/40\n18\t45\t18/45']]);
  });

  it('goes on behind its last row only where it grows', () => {
    render(<Sheet />);
    fireEvent.mouseDown(cell(2, 0));
    pasted('1\n2\n3');
    expect(screen.getByRole('status').textContent).toContain('Pasted 1 cell. 2 cells lay beside the table.');
    cleanup();
    render(<Sheet grows />);
    fireEvent.mouseDown(cell(2, 0));
    pasted('1\n2\n3');
    expect(texts().filter((_, at) => at % 3 === 0)).toEqual(['20', '18', '1', '2', '3']);
  });
});
