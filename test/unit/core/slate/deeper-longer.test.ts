import { describe, expect, it } from 'vitest';
import { deeperLonger, type DeeperLonger } from '../../../../core/slate/deeper-longer';
import { slateReader } from '../../../../core/slate/reading';
import type { Sample } from '../../../../core/profile';
import { deeper, entryWith, shapeOf } from '../../../../core/ledger/changed-dive';
import { ledger } from '../../../../core/ledger/ledger';
import { deepestLevel } from '../../../../core/ledger/level-limits';
import { roomOf } from '../../../../core/ledger/room';
import type { Dive, Trip } from '../../../../core/document/types';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { loopTrip } from '../../../support/loop-trip';

function tableOf(trip: Trip, units: 'metric' | 'imperial' | 'both' = 'metric') {
  const [mine] = ledger(trip).divers;
  return plain(deeperLonger(trip, mine!.entries[0]!, slateReader({ units, clock: '24h' })));
}

/** Words without the signs of their setting. */
function bare(text: string): string {
  return text.replaceAll(/[\ue000-\ue003]/g, '').replaceAll('\u00a0', ' ');
}

function plain({ title, head, rows }: DeeperLonger): DeeperLonger {
  return {
    title: bare(title),
    head: head.map(bare),
    rows: rows.map((row) => ({
      ...row,
      depth: bare(row.depth),
      cells: typeof row.cells === 'string' ? bare(row.cells) : row.cells.map(bare),
    })),
  };
}

function entryOfTrip(trip: Trip) {
  return ledger(trip).divers[0]!.entries[0]!;
}

/** The no-stop time and stops of the very dive, from a ledger of its own. */
function entryOf(change: Partial<Dive>) {
  return ledger(aTrip([aDive(change)])).divers[0]!.entries[0]!;
}

describe('deeperLonger', () => {
  it('goes on at the next two round depths and times', () => {
    const table = tableOf(aTrip([aDive({ depthM: 25, bottomMin: 22 })]));
    expect(table.head).toEqual(['at', 'no-stop', 'for 25 min', 'for 30 min']);
    expect(table.rows.map((row) => row.depth)).toEqual(['25 m', '27 m', '30 m']);
  });

  it('takes a depth and time that are round already one step further', () => {
    const table = tableOf(aTrip([aDive({ depthM: 24, bottomMin: 20 })]));
    expect(table.head.slice(2)).toEqual(['for 25 min', 'for 30 min']);
    expect(table.rows.map((row) => row.depth)).toEqual(['24 m', '27 m', '30 m']);
  });

  it('steps in tens of feet where feet are read', () => {
    const table = tableOf(aTrip([aDive({ depthM: 24, bottomMin: 20 })]), 'imperial');
    expect(table.rows.map((row) => row.depth)).toEqual(['78 ft', '80 ft', '90 ft']);
  });

  it('has no two rows that read alike, whatever the depth', () => {
    // 15 m is 49.2 ft: 49 of a plan, 50 of what was dived.
    const planned = tableOf(aTrip([aDive({ depthM: 15, bottomMin: 20 })]), 'imperial');
    expect(planned.rows.map((row) => row.depth)).toEqual(['49 ft', '50 ft', '60 ft']);
    const asDived = [{ depthM: 15, bottomMin: 20 }];
    const dived = tableOf(aTrip([aDive({ depthM: 20, bottomMin: 20, asDived })]), 'imperial');
    expect(dived.rows.map((row) => row.depth)).toEqual(['50 ft', '60 ft', '70 ft']);
    const metres = tableOf(aTrip([aDive({ depthM: 26.95, bottomMin: 14.7 })]));
    expect(metres.rows.map((row) => row.depth)).toEqual(['26.9 m', '27 m', '30 m']);
    expect(metres.head.slice(2)).toEqual(['for 20 min', 'for 25 min']);
  });

  it('says what the ledger says of each of those dives', () => {
    const kinds = new Set<string>();
    for (const { depthM, bottomMin, later } of [
      { depthM: 15, bottomMin: 31, later: [35, 40] },
      { depthM: 30, bottomMin: 16, later: [20, 25] },
      { depthM: 20, bottomMin: 27, later: [30, 35] },
    ]) {
      for (const row of tableOf(aTrip([aDive({ depthM, bottomMin })])).rows) {
        const cells = row.cells as readonly string[];
        expect(cells[0]).toBe(`${Math.floor(entryOf({ depthM: row.depthM, bottomMin }).noStopMin!)}`);
        for (const [i, min] of later.entries()) {
          const { stops } = entryOf({ depthM: row.depthM, bottomMin: min });
          const total = stops!.reduce((sum, stop) => sum + stop.min, 0);
          const kind = stops!.length === 0 ? 'none' : stops!.length === 1 ? 'one' : 'range';
          const said = {
            none: 'no stops',
            one: `${stops![0]?.depthM} m ${total} min`,
            range: `${stops![0]?.depthM}–${stops!.at(-1)?.depthM} m ${total} min`,
          }[kind];
          expect(cells[i + 1]!.replaceAll('\u00a0', ' ')).toBe(said);
          kinds.add(kind);
        }
      }
    }
    expect([...kinds].toSorted()).toEqual(['none', 'one', 'range']);
  });

  it('gives each depth the limit that it has at the planned time, on a loop and recorded too', () => {
    const ofLoop = loopTrip();
    const onLoop = ledger(ofLoop).divers[0]!.entries.slice(0, 8);
    const samples: readonly Sample[] = [
      [0, 0],
      [2, 24],
      [20, 22],
      [23, 5],
      [26, 5],
      [27, 0],
    ];
    const ofRecord = aTrip([aDive({ depthM: 30, bottomMin: 20, asDived: [{ samples }] })]);
    const cases = [
      ...onLoop.map((entry) => [ofLoop, entry] as const),
      [ofRecord, entryOfTrip(ofRecord)] as const,
    ];
    let held = 0;
    for (const [trip, entry] of cases) {
      const { rows } = plain(deeperLonger(trip, entry, slateReader({ units: 'metric', clock: '24h' })));
      for (const { depthM, cells } of rows) {
        if (typeof cells === 'string' || entry.levels.length > 1) continue;
        const lower = entryWith(trip, entry, deeper(shapeOf(entry), depthM - entry.depthM));
        const { noStopMin, unlimited } = deepestLevel(lower.levels);
        expect(cells[0]).toBe(unlimited ? 'no end' : `${Math.floor(noStopMin!)}`);
        held += 1;
      }
    }
    expect(held).toBeGreaterThan(12);
  });

  it('gives no time past the MOD of the mix', () => {
    const table = tableOf(aTrip([aDive({ depthM: 27, bottomMin: 20, mix: 'rich' })]));
    expect(table.rows[1]!.cells).toBe('past the MOD of 28 m');
    expect(table.rows[2]!.cells).toBe('past the MOD of 28 m');
  });

  it('gives no time past the diver\u2019s own limit', () => {
    const trip = aTrip([aDive({ depthM: 17, bottomMin: 20 })], { party: [aDiver({ maxDepthM: 18 })] });
    expect(tableOf(trip).rows.map((row) => typeof row.cells)).toEqual(['object', 'object', 'string']);
    expect(tableOf(trip).rows[2]!.cells).toBe('past your own limit of 18 m');
  });

  it('says so where the gas does not last', () => {
    const trip = aTrip([aDive({ depthM: 30, bottomMin: 14 })], {
      party: [aDiver({ cylinder: { waterL: 8, fillBar: 200, reserveBar: 50 } })],
    });
    expect(tableOf(trip).rows.at(-1)!.cells).toContain('gas short');
  });

  it('counts the minimum gas on leaving, as the room does, and not the reserve alone', () => {
    const trip = aTrip([aDive({ depthM: 30, bottomMin: 10, mix: 'lean' })], {
      party: [aDiver({ surfaceRateLpm: 20, cylinder: { waterL: 12, fillBar: 220, reserveBar: 30 } })],
    });
    const { min, minLimit } = roomOf(trip, entryOfTrip(trip));
    expect(minLimit).toBe('gas');
    expect(min).toBeLessThan(10);
    expect(tableOf(trip).head.slice(2)).toEqual(['for 15 min', 'for 20 min']);
    expect((tableOf(trip).rows[0]!.cells as readonly string[]).at(-1)).toBe('gas short');
  });

  it('says where an oxygen limit would be passed', () => {
    const half = { id: 'half', o2: 0.5, costPerFill: 0 };
    const party = [
      aDiver({ maxO2: 0.5, surfaceRateLpm: 6, cylinder: { waterL: 30, fillBar: 300, reserveBar: 50 } }),
    ];
    const trip = aTrip([aDive({ depthM: 17.5, bottomMin: 148, mix: 'half' })], { party, mixes: [half] });
    const [, ...costs] = tableOf(trip).rows[0]!.cells as readonly string[];
    expect(costs).toEqual(['no stops', 'past CNS']);
  });

  it('says where the oxygen limit of any 24 hours would be passed', () => {
    const half = { id: 'half', o2: 0.5, costPerFill: 0 };
    const party = [
      aDiver({ maxO2: 0.5, surfaceRateLpm: 6, cylinder: { waterL: 30, fillBar: 300, reserveBar: 50 } }),
    ];
    const long = (startsAt: string, bottomMin: number) =>
      aDive({ startsAt, depthM: 17, bottomMin, mix: 'half' });
    const trip = aTrip([long('2027-03-06T08:00', 80), long('2027-03-06T18:00', 103)], {
      party,
      mixes: [half],
    });
    const [mine] = ledger(trip).divers;
    const table = plain(
      deeperLonger(trip, mine!.entries[1]!, slateReader({ units: 'metric', clock: '24h' })),
    );
    expect((table.rows[0]!.cells as readonly string[]).slice(1)).toEqual(['no stops', 'past CNS 24 h']);
  });

  it('names each level, all of them deeper by one step, and no no-stop time: there is one a level', () => {
    const legs = [
      { depthM: 30, min: 12 },
      { depthM: 18, min: 22 },
    ];
    const trip = aTrip([aDive({ depthM: 30, bottomMin: 34, legs })]);
    const table = tableOf(trip);
    expect(table.rows.map((row) => row.depth)).toEqual(['30, 18 m', '33, 21 m']);
    expect(table.head).toEqual(['at', '35 min in all', '40 min in all']);
    expect(table.rows[1]!.cells).not.toContain('no stops');
    expect(tableOf(trip, 'both').rows[0]!.depth).toBe('30, 18 m, 98, 59 ft');
  });

  it('has the unit of stops in its title in feet, and in each cell in metres', () => {
    const trip = aTrip([aDive({ depthM: 30, bottomMin: 16 })]);
    expect(tableOf(trip).title).toBe('If deeper or longer: stops, minutes in all');
    expect(tableOf(trip, 'imperial').title).toBe('If deeper or longer: stops in ft, minutes in all');
    const cells = tableOf(trip, 'imperial').rows.flatMap(({ cells: each }) => each);
    expect(cells.filter((cell) => cell.includes('–'))).not.toEqual([]);
    for (const cell of cells) expect(cell).not.toMatch(/\d ft/);
    // Without its unit a depth beside minutes would read as one number with them.
    const both = [cells, tableOf(trip, 'both').rows.flatMap(({ cells: each }) => each)].flat();
    for (const cell of both.filter((each) => each.endsWith('min'))) expect(cell).toMatch(/\d: \d+.min$/);
  });

  it('holds what was dived to the depth as it is printed', () => {
    const asDived = [{ depthM: 18.3, bottomMin: 33.3 }];
    const table = tableOf(aTrip([aDive({ depthM: 18, bottomMin: 30, asDived })]), 'imperial');
    expect(table.rows[0]!.depth).toBe('61 ft');
    const at = ledger(aTrip([aDive({ depthM: 61 * 0.3048, bottomMin: 33.3 })])).divers[0]!.entries[0]!;
    expect(table.rows[0]!.cells[0]).toBe(`${Math.floor(at.noStopMin!)}`);
  });

  it('does not go where the way down takes longer than the dive', () => {
    const trip = aTrip([aDive({ depthM: 6, bottomMin: 0.4 })]);
    expect(tableOf(trip).rows[2]!.cells).toBe('no time left after the way down');
  });
});
