import { describe, expect, it } from 'vitest';
import {
  checkedRequest,
  fillPrice,
  listCount,
  listsOf,
  mixOfShare,
  poolOf,
  PLAIN_REQUEST,
  type StockRequest,
} from '../../../../core/mixes/shares';
import { demoTrip } from '../../../../core/document/demo-trip';

const trip = demoTrip();

function kinds(request: Partial<StockRequest>): readonly string[] {
  const checked = checkedRequest(trip, { ...PLAIN_REQUEST, ...request });
  return checked.ok ? [] : checked.troubles.map((trouble) => trouble.kind);
}

describe('checkedRequest', () => {
  it('takes 1 to 4 mixes and nothing else', () => {
    for (const count of [1, 2, 3, 4]) expect(kinds({ count })).toEqual([]);
    for (const count of [0, -1, 5, 1.5, Number.NaN]) expect(kinds({ count })).toEqual(['count']);
  });

  it('refuses ranges that are none', () => {
    for (const [fromPercent, toPercent] of [
      [21, 40],
      [28, 41],
      [36, 28],
      [28.5, 36],
    ] as const) {
      expect(kinds({ range: { fromPercent, toPercent } })).toEqual(['range']);
    }
    expect(kinds({ range: { fromPercent: 22, toPercent: 22 } })).toEqual([]);
  });

  it('refuses shares outside 22 to 40, broken ones, doubled ones', () => {
    expect(kinds({ fixedPercents: [21] })).toEqual(['share']);
    expect(kinds({ fixedPercents: [41] })).toEqual(['share']);
    expect(kinds({ fixedPercents: [32.5] })).toEqual(['share']);
    expect(kinds({ excludedPercents: [30, 30] })).toEqual(['share']);
    expect(kinds({ fixedPercents: [22, 40] })).toEqual([]);
  });

  it('refuses more fixed shares than mixes, and a share fixed and excluded', () => {
    expect(kinds({ count: 1, fixedPercents: [30, 32] })).toEqual(['share']);
    expect(kinds({ fixedPercents: [32], excludedPercents: [32] })).toEqual(['share']);
  });

  it('refuses limits and dates that are none', () => {
    expect(kinds({ maxCost: -1 })).toEqual(['limit']);
    expect(kinds({ maxFills: Number.NaN })).toEqual(['limit']);
    expect(kinds({ fromDate: 'Tuesday' })).toEqual(['date']);
    expect(kinds({ fromDate: '2031-01-01' })).toEqual(['date']);
  });

  it('says so when no share is left', () => {
    const all = Array.from({ length: 19 }, (_, index) => 22 + index);
    expect(kinds({ count: 2, excludedPercents: all })).toEqual(['no-list']);
    expect(kinds({ count: 2, excludedPercents: all.slice(1), fixedPercents: [22] })).toEqual([]);
    const bare = checkedRequest({ ...trip, mixes: [] }, { ...PLAIN_REQUEST, range: null });
    expect(bare.ok).toBe(false);
  });

  it('tells all mistakes at once, each with a way to mend it', () => {
    const checked = checkedRequest(trip, { ...PLAIN_REQUEST, count: 0, fixedPercents: [50], maxCost: -2 });
    if (checked.ok) throw new Error('it was taken');
    expect(checked.troubles.map((trouble) => trouble.where)).toEqual(['stock', 'fixed', 'largest cost']);
    for (const trouble of checked.troubles) expect(trouble.mend).not.toBe('');
  });
});

describe('poolOf', () => {
  const onBoard = [
    { id: 'lean', o2: 0.24, costPerFill: 1 },
    { id: 'odd', o2: 0.305, costPerFill: 1 },
    { id: 'air', o2: 0.21, costPerFill: 0 },
  ];
  it('is what the trade blends and what is on board, in whole percents', () => {
    const usual = Array.from({ length: 13 }, (_, i) => 28 + i);
    expect(poolOf(PLAIN_REQUEST, [])).toEqual(usual);
    expect(poolOf(PLAIN_REQUEST, onBoard)).toEqual([24, ...usual]);
    expect(poolOf({ ...PLAIN_REQUEST, range: null }, onBoard)).toEqual([24]);
  });
  it('has what is fixed wherever it lies, and nothing that is excluded', () => {
    const request = {
      ...PLAIN_REQUEST,
      range: { fromPercent: 30, toPercent: 32 },
      excludedPercents: [24, 31],
    };
    expect(poolOf({ ...request, fixedPercents: [22] }, onBoard)).toEqual([22, 30, 32]);
  });
});

describe('listsOf', () => {
  it('has the lists that combinatorics counts, of one mix up to as many as asked', () => {
    for (const [count, lists] of [
      [1, 13],
      [2, 13 + 78],
      [3, 13 + 78 + 286],
      [4, 13 + 78 + 286 + 715],
    ] as const) {
      const request = { ...PLAIN_REQUEST, count };
      expect(listCount(request, [])).toBe(lists);
      expect(new Set(listsOf(request, []).map((list) => list.join())).size).toBe(lists);
    }
  });

  it('keeps fixed shares in every list and excluded ones out, each list rising', () => {
    const request = { ...PLAIN_REQUEST, count: 3, fixedPercents: [24], excludedPercents: [33, 34] };
    const lists = listsOf(request, []);
    expect(lists.length).toBe(1 + 11 + (11 * 10) / 2);
    expect(listCount(request, [])).toBe(lists.length);
    for (const list of lists) {
      expect(list).toContain(24);
      expect(list).not.toContain(33);
      expect(list).toEqual(list.toSorted((a, b) => a - b));
    }
  });
});

describe('fillPrice', () => {
  const mixes = [
    { id: 'a', o2: 0.28, costPerFill: 7 },
    { id: 'b', o2: 0.36, costPerFill: 15 },
  ];
  it('is that of the mix on board, straight between, and goes on past the richest', () => {
    expect(fillPrice(0.28, mixes)).toBe(7);
    expect(fillPrice(0.32, mixes)).toBeCloseTo(11, 12);
    expect(fillPrice(0.4, mixes)).toBeCloseTo(19, 12);
    // Air is free unless it has a price: a seventh of the way from 21 to 28 %.
    expect(fillPrice(0.22, mixes)).toBeCloseTo(1, 12);
  });
  it('is that of air where nothing else has a price', () => {
    expect(fillPrice(0.32, [{ id: 'air', o2: 0.21, costPerFill: 3 }])).toBe(3);
    expect(fillPrice(0.32, [])).toBe(0);
  });
});

describe('mixOfShare', () => {
  it('is the mix on board where the label agrees, analysis and all', () => {
    const onBoard = { id: 'left', o2: 0.32, costPerFill: 5, analysedO2: 0.317 };
    expect(mixOfShare(32, [onBoard])).toBe(onBoard);
  });
  it('has an id of its own otherwise', () => {
    const taken = { id: 'ean30', o2: 0.28, costPerFill: 5 };
    expect(mixOfShare(30, [taken]).id).toBe('ean30-2');
    expect(mixOfShare(21, [taken]).id).toBe('air');
  });
});
