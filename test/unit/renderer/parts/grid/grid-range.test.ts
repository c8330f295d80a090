import { describe, expect, it } from 'vitest';
import { blockOf, drawnTo, moved, tabbed, within } from '../../../../../renderer/parts/grid/grid-range';

const size = { rows: 30, columns: 4 };
const at = { row: 12, column: 2 };

describe('moved', () => {
  it.each([
    ['ArrowUp', { row: 11, column: 2 }, { row: 0, column: 2 }],
    ['ArrowDown', { row: 13, column: 2 }, { row: 29, column: 2 }],
    ['ArrowLeft', { row: 12, column: 1 }, { row: 12, column: 0 }],
    ['ArrowRight', { row: 12, column: 3 }, { row: 12, column: 3 }],
    ['Home', { row: 12, column: 0 }, { row: 0, column: 0 }],
    ['End', { row: 12, column: 3 }, { row: 29, column: 3 }],
    ['PageUp', { row: 2, column: 2 }, { row: 2, column: 2 }],
    ['PageDown', { row: 22, column: 2 }, { row: 22, column: 2 }],
  ])('goes by %s to the next, with Ctrl to the edge', (key, near, far) => {
    expect(moved(at, key, false, size)).toEqual(near);
    expect(moved(at, key, true, size)).toEqual(far);
  });

  it('stays within the grid, and knows no other key', () => {
    expect(moved({ row: 0, column: 0 }, 'ArrowUp', false, size)).toEqual({ row: 0, column: 0 });
    expect(moved({ row: 29, column: 3 }, 'PageDown', false, size)).toEqual({ row: 29, column: 3 });
    expect(moved(at, 'x', false, size)).toBeNull();
  });
});

describe('tabbed', () => {
  it('goes over the end of a row into the next, and out at the ends of the grid', () => {
    expect(tabbed({ row: 0, column: 3 }, 1, size)).toEqual({ row: 1, column: 0 });
    expect(tabbed({ row: 1, column: 0 }, -1, size)).toEqual({ row: 0, column: 3 });
    expect(tabbed({ row: 29, column: 3 }, 1, size)).toBeNull();
    expect(tabbed({ row: 0, column: 0 }, -1, size)).toBeNull();
  });
});

describe('a choice', () => {
  it('is the same block from whichever corner it was drawn', () => {
    const block = { top: 1, left: 0, bottom: 4, right: 2 };
    expect(blockOf({ from: { row: 4, column: 0 }, to: { row: 1, column: 2 } })).toEqual(block);
    expect(blockOf({ from: { row: 1, column: 2 }, to: { row: 4, column: 0 } })).toEqual(block);
    expect(within({ row: -3, column: 9 }, size)).toEqual({ row: 0, column: 3 });
  });
});

describe('drawnTo', () => {
  const block = { top: 4, left: 1, bottom: 5, right: 2 };
  it.each([
    ['below', { row: 8, column: 2 }, { top: 4, left: 1, bottom: 8, right: 2 }],
    ['above', { row: 2, column: 1 }, { top: 2, left: 1, bottom: 5, right: 2 }],
    [
      'to the right, where the hand went further that way',
      { row: 6, column: 5 },
      { top: 4, left: 1, bottom: 5, right: 5 },
    ],
    ['to the left', { row: 4, column: 0 }, { top: 4, left: 0, bottom: 5, right: 2 }],
    ['back into it', { row: 4, column: 1 }, block],
  ])('goes %s', (_, to, over) => {
    expect(blockOf(drawnTo(block, to))).toEqual(over);
  });
});
