import { describe, expect, it } from 'vitest';
import { eadM, po2Bar } from '../../../core/gas';
import { ambientBar, type WaterColumn } from '../../../core/water';
import { publishedRows } from './table';

// U.S. Navy Diving Manual Revision 7 (2016), Table 10-1, "Equivalent Air Depth Table".
const rows = publishedRows('table-10-1.csv', ['depthFsw', 'o2Percent', 'eadFsw', 'beyondNormalMin'], 184);
const differences = publishedRows('table-10-1-differences.csv', ['depthFsw', 'o2Percent', 'ruleFsw'], 10);

/** Feet of sea water and atmospheres: 33 fsw to the atmosphere, as the manual counts them. */
const FEET: WaterColumn = { surfaceBar: 1, barPerM: 1 / 33 };

/** The table allows for half a percent of rounding and half a percent of analysis error (its note 2). */
const ALLOWED_O2 = 0.01;

/** Rows of the air tables, which the equivalent depth is rounded up to. */
const AIR_ROWS = [10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160, 170];

type Cell = (typeof rows)[number];

function leastO2(cell: Cell): number {
  return cell.o2Percent / 100 - ALLOWED_O2;
}

function mostAta(cell: Cell): number {
  return po2Bar(cell.o2Percent / 100 + ALLOWED_O2, ambientBar(cell.depthFsw, FEET));
}

function ruleFsw(cell: Cell): number {
  const exact = eadM(leastO2(cell), cell.depthFsw, FEET);
  return AIR_ROWS.find((row) => row >= exact - 1e-9)!;
}

function differenceAt(cell: Cell) {
  return differences.find((each) => each.depthFsw === cell.depthFsw && each.o2Percent === cell.o2Percent);
}

describe('Table 10-1', () => {
  it('is our equivalent air depth at the least oxygen, rounded up, in 174 of its 184 cells', () => {
    const agreeing = rows.filter((cell) => differenceAt(cell) === undefined);
    expect(agreeing).toHaveLength(174);
    for (const cell of agreeing) {
      expect(ruleFsw(cell), `${cell.depthFsw} fsw, ${cell.o2Percent} %`).toBe(cell.eadFsw);
    }
  });

  it('differs from the rule in the ten cells that are listed, as listed', () => {
    for (const cell of rows) {
      const difference = differenceAt(cell);
      if (!difference) continue;
      expect(ruleFsw(cell), `${cell.depthFsw} fsw, ${cell.o2Percent} %`).toBe(difference.ruleFsw);
      expect(cell.eadFsw).not.toBe(difference.ruleFsw);
    }
  });

  it('is nowhere shallower than the formula with the oxygen as labelled', () => {
    for (const cell of rows) {
      expect(cell.eadFsw).toBeGreaterThanOrEqual(eadM(cell.o2Percent / 100, cell.depthFsw, FEET) - 1e-9);
    }
  });

  it('marks the cells whose oxygen, at its most, passes 1.404 ata, and times them in the order of it', () => {
    const marked = rows.filter((cell) => !Number.isNaN(cell.beyondNormalMin));
    expect(marked).toHaveLength(35);
    // 80 fsw at 40 % is 1.4039 ata and is not marked: the printed limit of 1.4 has its own rounding.
    for (const cell of rows) expect(mostAta(cell) > 1.404).toBe(marked.includes(cell));
    const byPressure = marked.toSorted((a, b) => mostAta(a) - mostAta(b));
    for (const [index, cell] of byPressure.entries()) {
      const next = byPressure[index + 1];
      if (next) expect(next.beyondNormalMin).toBeLessThanOrEqual(cell.beyondNormalMin);
    }
  });
});
