/**
 * No-stop limits of the model beside the government table, at the ten usual depths for air, 32 % and 36 %.
 * Source: U.S. Navy Diving Manual Revision 7 (1 December 2016), table 9-7 and ch. 10 (equivalent air depth).
 * The model is never tuned to it: what differs is listed cell by cell in DEVELOPERS.md.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  comparison,
  comparisonBlock,
  modelLimitMin,
  place,
  standingBlock,
} from '../../build/tables/no-stop-comparison';

describe('the comparison with the government table', () => {
  const cells = comparison();

  it('has ten depths and three mixes, each with its row of the table', () => {
    expect(cells).toHaveLength(30);
    const airRows = cells.filter((cell) => cell.o2 === 0.21).map((cell) => [cell.rowFsw, cell.tableMin]);
    // Printed in table 9-7.
    expect(airRows).toEqual([
      [40, 163],
      [50, 92],
      [60, 63],
      [70, 48],
      [80, 39],
      [90, 33],
      [100, 25],
      [110, 20],
      [120, 15],
      [130, 12],
    ]);
  });

  it('stands in DEVELOPERS.md as it is now (run `npx tsx build/tables/no-stop-comparison.ts` when not)', () => {
    const guide = readFileSync(new URL('../../DEVELOPERS.md', import.meta.url), 'utf8');
    expect(standingBlock(guide)).toBe(comparisonBlock());
  });

  it('differs as listed: the worst is 8 min longer than the full model, and once the table is stricter', () => {
    const longer = cells.filter((cell) => place(cell) === 'longer');
    const worst = Math.max(...longer.map((cell) => cell.tableMin - Math.floor(cell.fullMin)));
    expect(worst).toBe(8);
    expect(cells.filter((cell) => place(cell) === 'stricter').map((cell) => [cell.o2, cell.depthM])).toEqual([
      [0.36, 12],
    ]);
    expect(longer).toHaveLength(14);
  });

  it('is ordered: the strict model inside the full one, shorter with depth, longer with oxygen', () => {
    for (const cell of cells) {
      expect(cell.strictMin).toBeLessThan(cell.fullMin);
      const deeper = cells.find((each) => each.o2 === cell.o2 && each.depthM === cell.depthM + 3);
      const richer = cells.find((each) => each.o2 > cell.o2 && each.depthM === cell.depthM);
      if (deeper)
        for (const key of ['strictMin', 'fullMin', 'tableMin'] as const)
          expect(deeper[key]).toBeLessThanOrEqual(cell[key]);
      if (richer)
        for (const key of ['strictMin', 'fullMin', 'tableMin'] as const)
          expect(richer[key]).toBeGreaterThanOrEqual(cell[key]);
    }
  });
});

// A. A. Bühlmann's air table of 1986 (0 to 700 m above sea level), m: min. The rows of 27 m and 21 m were read in a
// citation, the others are from memory. It is a table with a margin of its own, so only its order is used.
describe('the air table of 1986', () => {
  const rows = [
    [12, 125],
    [15, 75],
    [18, 51],
    [21, 35],
    [24, 25],
    [27, 20],
    [30, 17],
    [33, 14],
    [36, 12],
    [39, 10],
    [42, 9],
  ] as const;

  it('orders depths as the model does', () => {
    const printed = rows.map(([, min]) => min);
    const model = rows.map(([depthM]) => modelLimitMin(depthM, 0.21, 0.8));
    expect(printed).toEqual(printed.toSorted((a, b) => b - a));
    expect(model).toEqual(model.toSorted((a, b) => b - a));
    expect(rows).toHaveLength(11);
  });
});

// Common practice: at 15 m the no-stop time about doubles from air to 32 % and nears three times with 36 %.
it('lengthens the no-stop time at 15 m with enriched air, by about two and near three', () => {
  const [air, ean32, ean36] = [0.21, 0.32, 0.36].map((o2) => modelLimitMin(15, o2, 0.8));
  expect(ean32! / air!).toBeGreaterThan(1.75);
  expect(ean32! / air!).toBeLessThan(2.25);
  expect(ean36! / air!).toBeGreaterThan(2.6);
  expect(ean36! / air!).toBeLessThan(3.2);
});
