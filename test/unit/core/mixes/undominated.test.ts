import { describe, expect, it } from 'vitest';
import {
  compareMerits,
  dominates,
  meritsOf,
  undominated,
  type Outcome,
} from '../../../../core/mixes/undominated';

const base: Outcome = { divesWithin: 20, smallestRoomMin: 5, oxygenPeak: 0.5, cost: 100, fills: 40 };
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
  it('does not hang on rounding', () => {
    expect(dominates(merits({ oxygenPeak: 0.5 - 1e-15 }), merits({}))).toBe(false);
  });
});

describe('compareMerits', () => {
  it('puts safety before money and money before work', () => {
    const order = [
      merits({ divesWithin: 21, cost: 900 }),
      merits({ smallestRoomMin: 6, cost: 900 }),
      merits({ oxygenPeak: 0.4, cost: 900 }),
      merits({ cost: 90, fills: 900 }),
      merits({ fills: 39 }),
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
