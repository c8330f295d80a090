import { describe, expect, it } from 'vitest';
import {
  cellsOfText,
  drawnOut,
  filled,
  landed,
  textOfCells,
} from '../../../../../renderer/parts/grid/grid-text';

const one = (row: number, column: number) => ({ top: row, left: column, bottom: row, right: column });

describe('cellsOfText', () => {
  it('reads tabs and lines as a spreadsheet copies them, the last line break not a row', () => {
    expect(cellsOfText('22\t45\r\n 18 \t40\r\n')).toEqual([
      ['22', '45'],
      ['18', '40'],
    ]);
  });

  it('keeps empty rows in the middle, so that nothing below them moves up', () => {
    expect(cellsOfText('22\n\n\n18\n')).toEqual([['22'], [''], [''], ['18']]);
    expect(cellsOfText('\n22')).toEqual([[''], ['22']]);
    expect(cellsOfText('"two\nlines"\ta\n\n18\tb')).toEqual([['two\nlines', 'a'], [''], ['18', 'b']]);
  });

  it('takes off the apostrophe that keeps a name from being a formula', () => {
    const name = '=Arch & Cave';
    expect(textOfCells([[name]])).toBe("'=Arch & Cave");
    expect(cellsOfText(textOfCells([[name]]))).toEqual([[name]]);
  });

  it('finds nothing in nothing', () => {
    expect(cellsOfText('')).toEqual([]);
    expect(cellsOfText(' \n')).toEqual([]);
  });
});

describe('textOfCells', () => {
  it('comes back as it was, whatever stands in the cells', () => {
    const cells = [
      ['a\tb', '"quoted"', 'plain'],
      ['two\nlines', '-2', ''],
    ];
    expect(cellsOfText(textOfCells(cells))).toEqual(cells);
  });

  it('leaves a number below zero a number', () => {
    expect(textOfCells([['-2', '-2.5', '-x']])).toBe("-2\t-2.5\t'-x");
  });
});

describe('landed', () => {
  const size = { rows: 5, columns: 3 };
  it('begins at the upper left of what is chosen', () => {
    const { edits, block, left } = landed([['1', '2']], one(1, 0), size);
    expect(edits).toEqual([
      { row: 1, column: 0, text: '1' },
      { row: 1, column: 1, text: '2' },
    ]);
    expect(block).toEqual({ top: 1, left: 0, bottom: 1, right: 1 });
    expect(left).toBe(0);
  });

  it('fills all that is chosen with one cell, and a multiple with the block again', () => {
    expect(landed([['9']], { top: 0, left: 1, bottom: 2, right: 1 }, size).edits).toHaveLength(3);
    const twice = landed([['1'], ['2']], { top: 0, left: 0, bottom: 3, right: 0 }, size);
    expect(twice.edits.map(({ text }) => text)).toEqual(['1', '2', '1', '2']);
    // Three chosen do not take two and a half times two.
    expect(landed([['1'], ['2']], { top: 0, left: 0, bottom: 2, right: 0 }, size).edits).toHaveLength(2);
  });

  it('counts what lies beside the grid, and puts it nowhere', () => {
    const { edits, block, left } = landed(
      [
        ['1', '2', '3'],
        ['4', '', '6'],
      ],
      one(4, 2),
      size,
    );
    expect(edits).toEqual([{ row: 4, column: 2, text: '1' }]);
    expect(block).toEqual(one(4, 2));
    expect(left).toBe(4);
  });
});

describe('filled', () => {
  const textAt = (row: number, column: number): string => `${row}/${column}`;
  it('copies the first row of what is chosen down, or the row above a single one', () => {
    expect(filled({ top: 1, left: 0, bottom: 3, right: 0 }, 'down', textAt)).toEqual([
      { row: 2, column: 0, text: '1/0' },
      { row: 3, column: 0, text: '1/0' },
    ]);
    expect(filled(one(2, 1), 'down', textAt)).toEqual([{ row: 2, column: 1, text: '1/1' }]);
    expect(filled(one(0, 1), 'down', textAt)).toEqual([]);
  });

  it('does the same to the right', () => {
    expect(filled({ top: 0, left: 0, bottom: 1, right: 1 }, 'right', textAt)).toEqual([
      { row: 0, column: 1, text: '0/0' },
      { row: 1, column: 1, text: '1/0' },
    ]);
    expect(filled(one(1, 2), 'right', textAt)).toEqual([{ row: 1, column: 2, text: '1/1' }]);
  });
});

describe('drawnOut', () => {
  const textAt = (row: number, column: number) => `${row}.${column}`;

  it('says what stands in the block again and again below it', () => {
    const source = { top: 1, left: 2, bottom: 2, right: 2 };
    expect(drawnOut(source, { ...source, bottom: 5 }, textAt)).toEqual([
      { row: 3, column: 2, text: '1.2' },
      { row: 4, column: 2, text: '2.2' },
      { row: 5, column: 2, text: '1.2' },
    ]);
  });

  it('goes on with the last of it above, and leaves the block itself', () => {
    const source = { top: 3, left: 0, bottom: 4, right: 0 };
    expect(drawnOut(source, { ...source, top: 0 }, textAt).map(({ text }) => text)).toEqual([
      '4.0',
      '3.0',
      '4.0',
    ]);
  });

  it('goes to a side as well', () => {
    const source = { top: 0, left: 1, bottom: 1, right: 1 };
    expect(drawnOut(source, { ...source, right: 2 }, textAt)).toEqual([
      { row: 0, column: 2, text: '0.1' },
      { row: 1, column: 2, text: '1.1' },
    ]);
  });
});
