import { beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../../../core/document/demo-trip';
import { fileWords } from '../../../../../../core/words/reader';
import { undoStep } from '../../../../../../renderer/actions/history';
import { wordsIn } from '../../../../../../renderer/figures/reader';
import type { PutResult } from '../../../../../../renderer/parts/grid/grid';
import { putCells } from '../../../../../../renderer/places/days/table/put-cells';
import { PLANNED, tableRows, type TableRow } from '../../../../../../renderer/places/days/table/table-rows';
import { selectRooms, shownEntry } from '../../../../../../renderer/store/selectors';
import { desk, freshDesk } from '../../../../../../renderer/store/store';

beforeEach(() => desk.setState(freshDesk(demoTrip()), true));

function rows(): readonly TableRow[] {
  const state = desk.getState();
  const { trip, settings } = state;
  return tableRows({
    trip,
    units: settings.units,
    words: wordsIn({ ...settings, trip }),
    entryOf: (id) => shownEntry(state, id),
    roomOf: selectRooms(state),
    tight: new Set(),
    past: new Set(),
  });
}

type Cell = readonly [row: number, column: (typeof PLANNED)[number], text: string];

/** Puts cells into the trip on the desk; what was refused, as "row column: why". */
function put(...cells: readonly Cell[]): PutResult & { readonly said: readonly string[] } {
  const { trip, settings } = desk.getState();
  const result = putCells(
    cells.map(([row, column, text]) => ({ row, column: PLANNED.indexOf(column), text })),
    { trip, settings, words: wordsIn({ ...settings, trip }), rows: rows(), startsAt: '2027-03-19T18:30' },
  );
  const said = result.refused.map(({ row, column, why }) => `${row} ${PLANNED[column]}: ${fileWords(why)}`);
  return { ...result, said };
}

const dives = () => desk.getState().trip.dives;
const steps = () => desk.getState().history.past.map(({ label }) => label);

describe('cells that are put into the trip', () => {
  it('are one step, whatever their number', () => {
    const before = dives();
    const { said } = put([0, 'depth', '12'], [0, 'time', '35'], [1, 'mix', 'Air'], [1, 'site', 'thrift']);
    expect(said).toEqual([]);
    expect(dives()[0]).toMatchObject({ depthM: 12, bottomMin: 35 });
    expect(dives()[1]).toMatchObject({ mix: 'air', siteId: 'thrift', depthM: before[1]!.depthM });
    expect(steps()).toEqual(['4 cells of the table']);
    undoStep();
    expect(dives()).toEqual(before);
  });

  it('are refused one by one with the reason, and the others are taken', () => {
    const { said } = put([0, 'depth', 'deep'], [0, 'time', '35'], [1, 'site', 'Nowhere'], [2, 'mix', '50']);
    expect(said).toEqual([
      expect.stringContaining('0 depth: '),
      '1 site: There is no site “Nowhere”; add it under Sites first.',
      '2 mix: “50” is not on board; add it under Mixes first.',
    ]);
    expect(dives()[0]!.bottomMin).toBe(35);
    expect(steps()).toEqual(['Cell of the table']);
  });

  it('are refused where the trip cannot be with them, and not with those beside them', () => {
    // Dive 2 begins at 14:00; a first dive of five hours runs into it.
    const { said } = put([0, 'time', '300'], [0, 'depth', '10'], [3, 'depth', '20']);
    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(/^0 time: /);
    expect([dives()[0]!.depthM, dives()[3]!.depthM]).toEqual([10, 20]);
  });

  it('may pass one another, as long as all fit in the end', () => {
    const [one, two] = [dives()[0]!, dives()[1]!];
    expect(put([0, 'start', '14:00'], [1, 'start', '09:30']).said).toEqual([]);
    expect(
      dives()
        .slice(0, 2)
        .map(({ id }) => id),
    ).toEqual([two.id, one.id]);
  });

  it('read days as they are typed, and refuse a weekday of another day', () => {
    expect(put([0, 'day', '13']).said).toEqual([]);
    expect(dives()[0]!.startsAt).toBe('2027-03-13T09:30');
    expect(put([0, 'day', 'Sun 14']).said).toEqual([]);
    expect(put([0, 'day', '2027-03-13']).said).toEqual([]);
    expect(put([0, 'day', 'Mon 14']).said[0]).toContain('“Mon 14” is no day near the others');
    expect(put([0, 'day', '31 February']).said).toHaveLength(1);
  });

  it('read levels, and make one of none', () => {
    expect(put([0, 'levels', '15/20 9/20']).said).toEqual([]);
    expect(dives()[0]).toMatchObject({
      depthM: 15,
      bottomMin: 40,
      legs: [
        { depthM: 15, min: 20 },
        { depthM: 9, min: 20 },
      ],
    });
    expect(rows()[0]!.texts.levels).toBe('15/20 9/20');
    expect(put([0, 'levels', '']).said).toEqual([]);
    expect(dives()[0]!.legs).toBeUndefined();
    expect(put([0, 'levels', 'deep/5']).said[0]).toContain('type depth and time such as');
  });

  it('read divers by name, and all of them as nobody in particular', () => {
    expect(put([0, 'divers', 'guide, Guest 2']).said).toEqual([]);
    expect(rows()[0]!.texts.divers).toBe('Guide, Guest 2');
    expect(put([0, 'divers', 'all']).said).toEqual([]);
    expect(dives()[0]!.divers).toBeUndefined();
    expect(put([0, 'divers', 'Nobody']).said[0]).toContain('There is no diver “Nobody”');
  });

  it('make a dive of the row below the last, at its site’s depth where none is typed', () => {
    const count = dives().length;
    const { said, added } = put([count, 'site', 'Candle Harbour']);
    expect(said).toEqual([]);
    expect(dives()).toHaveLength(count + 1);
    expect(dives().find(({ id }) => id === added)).toMatchObject({
      siteId: 'candle',
      depthM: 12,
      startsAt: '2027-03-19T18:30',
    });
    expect(steps()).toEqual(['Cell of the table']);
    // A second one at the same moment cannot be.
    expect(put([dives().length, 'start', '18:30']).said[0]).toMatch(/^23 start: /);
  });

  it('come back as they are copied: every planned cell of every dive', () => {
    const before = dives();
    const cells = rows()
      .filter(({ dive }) => dive !== null)
      .flatMap(({ texts }, row) => PLANNED.map((column): Cell => [row, column, texts[column]]));
    expect(put(...cells).said).toEqual([]);
    expect(dives()).toEqual(before);
  });

  it('are in feet to who reads feet', () => {
    desk.setState(({ settings }) => ({ settings: { ...settings, units: 'imperial' } }));
    expect(put([0, 'depth', '40']).said).toEqual([]);
    expect(dives()[0]!.depthM).toBeCloseTo(12.192, 9);
    expect(rows()[0]!.texts.depth).toBe('40');
  });
});
