import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compareMerits,
  dominates,
  meritsOf,
  undominated,
  upperMedian,
  type Outcome,
} from '../../../../core/mixes/undominated';
import { whyFirst } from '../../../../core/mixes/why-first';

const base: Outcome = {
  divesWithin: 20,
  smallestRoomMin: 5,
  nitrogenRoomMin: 30,
  cost: 100,
  oxygenPeak: 0.5,
  fills: 40,
  mixes: 2,
};
const merits = (change: Partial<Outcome>) => meritsOf({ ...base, ...change });

describe('dominates', () => {
  it('wants one measure better and none worse', () => {
    expect(dominates(merits({ cost: 90 }), merits({}))).toBe(true);
    expect(dominates(merits({ cost: 90, fills: 41 }), merits({}))).toBe(false);
    expect(dominates(merits({}), merits({}))).toBe(false);
  });
  it('counts more dives within and more room as better, more oxygen as worse', () => {
    expect(dominates(merits({ divesWithin: 21 }), merits({}))).toBe(true);
    expect(dominates(merits({ smallestRoomMin: 6 }), merits({}))).toBe(true);
    expect(dominates(merits({ oxygenPeak: 0.4 }), merits({}))).toBe(true);
  });
  it('takes no limit as the most room and an unknowable clock as the worst', () => {
    expect(dominates(merits({ smallestRoomMin: null }), merits({}))).toBe(true);
    expect(dominates(merits({}), merits({ oxygenPeak: null }))).toBe(true);
  });
  it('takes for alike what reads alike, and for better what reads better', () => {
    for (const change of [
      { smallestRoomMin: 5.99 },
      { nitrogenRoomMin: 30.5 },
      { oxygenPeak: 0.4901 },
      { cost: 99.996 },
      { cost: 100 - 1e-9 },
    ]) {
      expect(merits(change)).toEqual(merits({}));
    }
    expect(merits({ smallestRoomMin: 6 - 1e-9 })).toEqual(merits({ smallestRoomMin: 6 }));
    expect(dominates(merits({ oxygenPeak: 0.49 }), merits({}))).toBe(true);
    expect(dominates(merits({ cost: 99.99 }), merits({}))).toBe(true);
  });
  it('counts the cost of a half cent alike whatever order it was summed in', () => {
    expect(merits({ cost: 12.125 - 1e-10 })).toEqual(merits({ cost: 12.125 + 1e-10 }));
  });
});

describe('compareMerits', () => {
  it('puts safety before money and money before work', () => {
    const order = [
      merits({ divesWithin: 21, cost: 900 }),
      merits({ smallestRoomMin: 6, cost: 900 }),
      merits({ nitrogenRoomMin: 31, cost: 900 }),
      merits({ cost: 90, fills: 900 }),
      merits({ oxygenPeak: 0.4, fills: 900 }),
      merits({ fills: 39, mixes: 3 }),
      merits({ mixes: 1 }),
      merits({}),
    ];
    expect(order.toReversed().toSorted(compareMerits)).toEqual(order);
  });
});

describe('undominated', () => {
  it('keeps equals side by side and drops what is beaten', () => {
    const all = [merits({}), merits({}), merits({ cost: 101 }), merits({ cost: 101, fills: 30 })];
    expect(undominated(all)).toEqual([0, 1, 3]);
  });
});

describe('whyFirst', () => {
  const told = (changes: readonly Partial<Outcome>[]) => changes.map((change) => ({ ...base, ...change }));
  it('names the measures that told the first from others, and the best of those each left behind', () => {
    const lists = told([
      { cost: 90, mixes: 1 },
      { cost: 95 },
      { nitrogenRoomMin: 29, cost: 50 },
      { nitrogenRoomMin: 10, cost: 10 },
      { divesWithin: 19 },
    ]);
    expect(whyFirst(lists)).toEqual([
      { measure: 'within', next: lists[4] },
      { measure: 'nitrogen', next: lists[2] },
      { measure: 'cost', next: lists[1] },
    ]);
  });
  it('goes by what reads differently alone, and names none where all read alike', () => {
    expect(whyFirst(told([{}, { smallestRoomMin: 5.2 }, { oxygenPeak: 0.4999 }]))).toEqual([]);
    expect(whyFirst(told([{}]))).toEqual([]);
    expect(whyFirst([])).toEqual([]);
  });
});

describe('upperMedian', () => {
  it('is the middle one, of an even number the greater of the two in the middle', () => {
    expect(upperMedian(Float64Array.of(9, 1, 5))).toBe(5);
    expect(upperMedian(Float64Array.of(7, 9, 1, 5))).toBe(7);
    expect(upperMedian(Float64Array.of(-Infinity, Infinity, 2, -Infinity))).toBe(2);
    expect(upperMedian(new Float64Array(0))).toBe(Infinity);
  });
  it('is what sorting gives, whatever stands where', () => {
    const figure = fc.oneof(fc.integer({ min: -3, max: 3 }), fc.constantFrom(Infinity, -Infinity));
    fc.assert(
      fc.property(fc.array(figure, { minLength: 1, maxLength: 40 }), (figures) => {
        const sorted = Float64Array.from(figures).toSorted();
        expect(upperMedian(Float64Array.from(figures))).toBe(sorted[sorted.length >> 1]);
      }),
    );
  });
});
