/**
 * The government air tables: checks that a mistyped digit would break, and worked dives.
 * Source: U.S. Navy Diving Manual, SS521-AG-PRO-010, Revision 7 (1 December 2016), tables 9-6 to 9-9, read
 * from a plain-text transcription that names it (medium-high confidence; not held against the publisher's file).
 */
import { describe, expect, it } from 'vitest';
import {
  ALTITUDE_STEPS_FT,
  ALTITUDE_WAITS,
  GROUPS,
  INTERVAL_BAND_ENDS,
  NO_STOP_ROWS,
  RESIDUAL_ROWS,
  type Group,
} from '../../core/tables/data';
import {
  altitudeWaitMin,
  groupAfterInterval,
  printedMin,
  rowFor,
  tableStep,
} from '../../core/tables/procedure';
import worked from './table-worked-cases.json';

const DEPTHS = [
  10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160, 170, 180, 190,
];

/** First, stop-free row of each depth of table 9-9 in the same manual: another place that prints the limits. */
const TABLE_9_9: Readonly<Record<number, readonly [number, Group]>> = {
  30: [371, 'Z'],
  35: [232, 'Z'],
  40: [163, 'O'],
  45: [125, 'N'],
  50: [92, 'M'],
  55: [74, 'L'],
  60: [63, 'K'],
  70: [48, 'K'],
  80: [39, 'J'],
  90: [33, 'J'],
  100: [25, 'H'],
  110: [20, 'H'],
  120: [15, 'F'],
  130: [12, 'F'],
  140: [10, 'E'],
  150: [8, 'E'],
  160: [7, 'E'],
  170: [6, 'D'],
  180: [6, 'E'],
  190: [5, 'D'],
};

/** The step between bands: 52.22 minutes, n times, rounded. Source: found in the printed bands. */
const BAND_STEP_MIN = 52.22;

describe('table 9-7, no-stop limits and groups', () => {
  it('has the 24 printed depths and 216 times', () => {
    expect(NO_STOP_ROWS.map((row) => row.depthFsw)).toEqual(DEPTHS);
    expect(NO_STOP_ROWS.flatMap((row) => row.maxMin.filter((min) => min !== null))).toHaveLength(216);
  });

  it('rises along every row', () => {
    for (const { maxMin } of NO_STOP_ROWS) {
      const given = maxMin.filter((min) => min !== null);
      expect(given).toEqual([...new Set(given)].toSorted((a, b) => a - b));
    }
  });

  it('never grows with depth in a column', () => {
    GROUPS.forEach((_, column) => {
      const downwards = NO_STOP_ROWS.flatMap((row) => row.maxMin[column] ?? []);
      expect(downwards).toEqual(downwards.toSorted((a, b) => b - a));
    });
  });

  it('ends every limited row with its no-stop limit, every unlimited one with an asterisk', () => {
    for (const { limitMin, maxMin, topGroup } of NO_STOP_ROWS) {
      if (limitMin === null) expect(topGroup).toBe(GROUPS[maxMin.length]);
      else expect([maxMin.at(-1), topGroup]).toEqual([limitMin, null]);
    }
    expect(NO_STOP_ROWS.filter((row) => row.limitMin === null).map((row) => row.depthFsw)).toEqual([
      10, 15, 20,
    ]);
  });

  it('agrees with the stop-free rows of table 9-9 in limit and group', () => {
    expect(Object.keys(TABLE_9_9)).toHaveLength(20);
    for (const [depth, [limitMin, group]] of Object.entries(TABLE_9_9)) {
      const row = rowFor(Number(depth))!;
      expect([row.limitMin, GROUPS[row.maxMin.length - 1]], `${depth} fsw`).toEqual([limitMin, group]);
    }
  });
});

/** Ends of the bands in A (0), B (1) or C (2), one for each group above. */
function endsIn(last: number): readonly number[] {
  return GROUPS.slice(last).map((group) => printedMin(INTERVAL_BAND_ENDS[group].at(-1 - last)!));
}

function steps(ends: readonly number[]): readonly number[] {
  return ends.slice(1).map((end, i) => end - ends[i]!);
}

describe('table 9-8, surface intervals', () => {
  it('has a band for every group down to A', () => {
    for (const group of GROUPS) expect(INTERVAL_BAND_ENDS[group]).toHaveLength(GROUPS.indexOf(group) + 1);
  });

  it('steps by 52.22 minutes in all bands that end in D or above', () => {
    for (const group of GROUPS) {
      const endsMin = INTERVAL_BAND_ENDS[group].map(printedMin);
      const regular = endsMin.slice(0, Math.max(0, endsMin.length - 3));
      expect(regular).toEqual(regular.map((_, i) => Math.round((i + 1) * BAND_STEP_MIN)));
    }
  });

  it('ends its C, B and A bands 52 or 53 minutes later for each group, after first steps of 55 and 76', () => {
    const inA = steps(endsIn(0));
    const inB = steps(endsIn(1));
    const inC = steps(endsIn(2));
    expect(inA.slice(0, 2)).toEqual([76, 55]);
    expect(inB[0]).toBe(55);
    for (const step of [...inA.slice(2), ...inB.slice(1), ...inC]) expect([52, 53]).toContain(step);
    expect(inA.length + inB.length + inC.length).toBe(15 + 14 + 13);
  });
});

describe('table 9-8, residual nitrogen times', () => {
  it('has the depths of table 9-7 and a cell for each of the 16 groups', () => {
    expect(RESIDUAL_ROWS.map(([depth]) => depth)).toEqual(DEPTHS);
    for (const [, cells] of RESIDUAL_ROWS) expect(cells).toHaveLength(16);
  });

  it('rises with the group in every row and never grows with depth in a column', () => {
    for (const [, cells] of RESIDUAL_ROWS) {
      const given = cells.filter((cell) => typeof cell === 'number');
      expect(given).toEqual([...new Set(given)].toSorted((a, b) => a - b));
    }
    GROUPS.forEach((_, column) => {
      const downwards = RESIDUAL_ROWS.map(([, cells]) => cells[column]).filter(
        (cell) => typeof cell === 'number',
      );
      expect(downwards).toEqual(downwards.toSorted((a, b) => b - a));
    });
  });

  it('lies 0 to 3 minutes above the longest time of its group in table 9-7, in all 194 cells below the limit', () => {
    const differences: Record<number, number> = {};
    NO_STOP_ROWS.forEach(({ maxMin, limitMin }, r) => {
      maxMin.forEach((max, column) => {
        const cell = RESIDUAL_ROWS[r]![1][column];
        if (max === null || max === limitMin || typeof cell !== 'number') return;
        differences[cell - max] = (differences[cell - max] ?? 0) + 1;
      });
    });
    expect(differences).toEqual({ 0: 4, 1: 116, 2: 67, 3: 7 });
  });

  it('gives no time exactly where the group is at or above the asterisk of the row', () => {
    for (const { depthFsw, topGroup } of NO_STOP_ROWS) {
      const [, cells] = RESIDUAL_ROWS.find(([depth]) => depth === depthFsw)!;
      const blank = GROUPS.filter((_, i) => cells[i] === 'cannot be determined');
      expect(blank).toEqual(topGroup === null ? [] : GROUPS.slice(GROUPS.indexOf(topGroup)));
    }
    expect(
      RESIDUAL_ROWS.flatMap(([depth, cells]) =>
        cells.filter((c) => c === 'use the 30 fsw row').map(() => depth),
      ),
    ).toEqual([25, 25]);
  });
});

describe('table 9-6, interval before an ascent to altitude', () => {
  const minutes = GROUPS.map((group) => ALTITUDE_WAITS[group].map(printedMin));

  it('has 16 groups and 10 altitudes, never falling along a row or down a column', () => {
    expect(ALTITUDE_STEPS_FT).toHaveLength(10);
    for (const row of minutes) {
      expect(row).toHaveLength(10);
      expect(row).toEqual(row.toSorted((a, b) => a - b));
    }
    minutes
      .slice(1)
      .forEach((row, i) => row.forEach((min, c) => expect(min).toBeGreaterThanOrEqual(minutes[i]![c]!)));
  });

  it('adds up: neighbouring altitudes differ by the same wait for every group, to a minute', () => {
    for (let c = 1; c < 10; c += 1) {
      const added = minutes.filter((row) => row[c - 1]! > 0).map((row) => row[c]! - row[c - 1]!);
      expect(Math.max(...added) - Math.min(...added)).toBeLessThanOrEqual(1);
    }
  });

  it('adds up: neighbouring groups differ by the same wait at every altitude, to a minute', () => {
    for (let g = 1; g < 16; g += 1) {
      const added = minutes[g]!.flatMap((min, c) =>
        minutes[g - 1]![c]! > 0 ? [min - minutes[g - 1]![c]!] : [],
      );
      if (added.length > 0) expect(Math.max(...added) - Math.min(...added)).toBeLessThanOrEqual(1);
    }
  });

  // A magazine page of 2014 that answers a reader with tables 9-6 and 9-7 of Revision 6.
  it('agrees with a printed answer: just under 6 200 ft reads in the 7 000 ft column', () => {
    const waits = (['A', 'B', 'C', 'D', 'E', 'F', 'G'] as const).map((group) => altitudeWaitMin(group, 6199));
    expect(waits).toEqual(['0:00', '0:00', '0:00', '0:00', '1:37', '4:04', '6:10'].map(printedMin));
    // Higher than the table goes no less is waited than in its last column.
    for (const group of GROUPS) expect(altitudeWaitMin(group, 10_001)).toBe(altitudeWaitMin(group, 10_000));
  });
});

describe('the hand procedure', () => {
  // The same magazine page: 10 ft for 102 to 158 min is C, 15 ft up to 163 min E, 20 ft up to 133 min F.
  it('gives the groups of a printed answer', () => {
    const asked = [
      { depthFsw: 10, bottomMin: 102 },
      { depthFsw: 10, bottomMin: 158 },
      { depthFsw: 15, bottomMin: 163 },
      { depthFsw: 20, bottomMin: 133 },
    ];
    const groups = asked.map((dive) => tableStep({ ...dive, intervalMin: null }, null).reading.groupAfter);
    expect(groups).toEqual(['C', 'C', 'E', 'F']);
  });

  it.each(worked.cases)('works %s fsw for %s min (%s), %s (%s), %s fsw for %s min', (...columns) => {
    const [d1, t1, g1, interval, between, d2, t2, residual, equivalent, limit, isWithin, g2] = columns;
    const first = tableStep({ depthFsw: Number(d1), bottomMin: Number(t1), intervalMin: null }, null);
    const { reading } = tableStep(
      { depthFsw: Number(d2), bottomMin: Number(t2), intervalMin: printedMin(String(interval)) },
      first.state,
    );
    expect(first.reading.groupAfter).toBe(g1);
    expect(reading).toMatchObject({
      groupBefore: between,
      residualMin: residual,
      equivalentMin: equivalent,
      limitMin: limit,
      isWithin,
      groupAfter: g2,
    });
  });

  it('has nine worked cases', () => expect(worked.cases).toHaveLength(9));

  // Inputs of an example of Revision 4 (101 fsw 48 min, 6:26, 98 fsw 15 min), reworked with Revision 7.
  it('works a dive that was past its limit from group Z', () => {
    const first = tableStep({ depthFsw: 101, bottomMin: 48, intervalMin: null }, null);
    const { reading } = tableStep({ depthFsw: 98, bottomMin: 15, intervalMin: 386 }, first.state);
    expect(first.reading).toMatchObject({ rowFsw: 110, isWithin: false, groupAfter: 'Z' });
    expect(reading).toMatchObject({
      groupBefore: 'I',
      residualMin: 30,
      equivalentMin: 45,
      limitMin: 25,
      isWithin: false,
    });
  });

  // A NOAA slide on the under-10-minutes rule: 80 fsw 20 min, 0:08, 70 fsw 20 min is entered as 80 fsw 40 min.
  it('joins dives less than ten minutes apart', () => {
    const first = tableStep({ depthFsw: 80, bottomMin: 20, intervalMin: null }, null);
    const { reading } = tableStep({ depthFsw: 70, bottomMin: 20, intervalMin: 8 }, first.state);
    expect(reading).toMatchObject({
      rowFsw: 80,
      equivalentMin: 40,
      residualMin: 0,
      groupBefore: null,
      isWithin: false,
    });
  });

  // NOAA newsletter 2(9), October 1999, inputs of a flight example; the answer is of Revision 7 as computed.
  it('asks 15:35 before a flight after 60 fsw for 60 min', () => {
    const { reading } = tableStep({ depthFsw: 60, bottomMin: 60, intervalMin: null }, null);
    expect(reading.groupAfter).toBe('K');
    expect(altitudeWaitMin(reading.groupAfter, 8000)).toBe(printedMin('15:35'));
  });

  it('reads the band edges to the minute', () => {
    expect([groupAfterInterval('I', 52), groupAfterInterval('I', 53)]).toEqual(['I', 'H']);
    expect([groupAfterInterval('I', 584), groupAfterInterval('I', 585)]).toEqual(['A', null]);
    expect(groupAfterInterval('I', 52.99)).toBe('I');
  });
});
