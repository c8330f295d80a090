import { describe, expect, it } from 'vitest';
import { highTrip } from '../../../../core/document/high-trip';
import { withLoopsOf } from '../../../../core/document/loops';
import type { Mix, Trip } from '../../../../core/document/types';
import { writeStockRows } from '../../../../core/formats/stock-rows';
import { PLAIN_REQUEST, type StockRequest } from '../../../../core/mixes/shares';
import { searchStock, type StockAnswer } from '../../../../core/mixes/stock';
import { onLoopsSaid, stockPlan } from '../../../../core/mixes/stock-plan';
import { fileWords } from '../../../../core/words/reader';

/** Seven dives of four divers; Guest 3 makes all of them on a loop, with air as diluent and EAN32 as bail-out. */
const high = highTrip();

function found(trip: Trip, change: Partial<StockRequest> = {}): StockAnswer {
  const answer = searchStock(trip, { ...PLAIN_REQUEST, ...change });
  if (!answer.ok) throw new Error(answer.troubles[0].what);
  return answer.value;
}

/** With other bail-out, and mixes besides. */
function withBailOut(ids: readonly string[], ...mixes: readonly Mix[]): Trip {
  const party = high.party.map((diver) => {
    const { loop } = diver;
    if (loop === undefined) return diver;
    const { cylinder } = loop.bailOut[0]!;
    return { ...diver, loop: { ...loop, bailOut: ids.map((mix) => ({ mix, cylinder })) } };
  });
  return { ...high, mixes: [...high.mixes, ...mixes], party };
}

describe('a stock for a party with a loop', () => {
  it('counts its oxygen and diluent for each dive and its bail-out once, alike on every list', () => {
    const alone = { ...high, party: high.party.filter(({ loop }) => loop === undefined) };
    const others = found(alone, { count: 1 });
    const priced = { ...high, mixes: [...high.mixes, { id: 'o2', o2: 1, costPerFill: 5 }] };
    const all = found(high, { count: 1 });
    const withPrice = found(priced, { count: 1 });
    expect(all.lists.length).toBeGreaterThan(5);
    for (const list of all.lists) {
      const same = ({ percents }: { readonly percents: readonly number[] }) =>
        percents.join() === list.percents.join();
      const without = others.lists.find(same);
      if (without === undefined) continue;
      // Seven of oxygen and one of EAN32 at 9; the seven of diluent are air, which costs nothing here.
      expect(list.fills - without.fills).toBe(8);
      expect(list.cost - without.cost).toBeCloseTo(9, 9);
      const own = withPrice.lists.find(same);
      if (own !== undefined && own.percents[0] === 32) expect(own.cost - list.cost).toBeCloseTo(7 * 5, 9);
    }
    expect(withPrice.lists.some(({ percents }) => percents.join() === '32')).toBe(true);
  });

  it('serves its dives only with its bail-out on the list', () => {
    for (const list of found(high, { count: 2 }).lists) {
      if (!list.percents.includes(32)) expect(list.divesWithin).toBe(0);
    }
    expect(found(high, { count: 1 }).lists[0]).toMatchObject({ percents: [32], divesWithin: 7 });
    const [best] = found(high, { count: 1, excludedPercents: [32] }).lists;
    expect(best!.divesWithin).toBe(0);
    expect(
      found(
        { ...high, dives: high.dives.map((dive) => withLoopsOf(dive, () => false)) },
        {
          count: 1,
          excludedPercents: [32],
        },
      ).lists[0]!.divesWithin,
    ).toBeGreaterThan(0);
  });

  it('keeps a share that a loop alone takes, and asks no list for what none can hold', () => {
    const lean = withBailOut(['lean'], { id: 'lean', o2: 0.25, costPerFill: 4 });
    const one = found(lean, { count: 1, range: null });
    expect(one.lists.map(({ percents }) => percents[0])).toContain(25);
    const rich = withBailOut(['ean50', 'air'], { id: 'ean50', o2: 0.5, costPerFill: 12 });
    expect(found(rich, { count: 1 }).lists.some(({ divesWithin }) => divesWithin > 0)).toBe(true);
  });

  it('is told by diver, with what the list lacks and what has no price', () => {
    const plan = stockPlan(high, PLAIN_REQUEST, [28, 35]);
    const mine = plan.divers.find(({ diver }) => diver.id === 'guest3')!;
    const columns = plan.mixes.map(({ mix, price }) => [mix.o2, price]);
    expect(columns).toEqual([
      [0.28, 'reckoned'],
      [0.35, 'reckoned'],
      [0.32, 'typed'],
      [1, 'none'],
    ]);
    expect(mine).toMatchObject({ fills: [0, 0, 1, 7], cost: 9 });
    expect(plan.total.cost).toBeCloseTo(
      plan.divers.reduce((sum, { cost }) => sum + cost, 0),
      9,
    );
    const { counted, lacks } = onLoopsSaid(plan);
    expect(fileWords(counted)).toMatch(/^On a loop: Guest 3 \(Air as diluent, EAN32 as bail-out\)\./);
    expect(fileWords(counted)).toContain('Oxygen has no price here');
    expect(lacks.map(fileWords)).toEqual([
      'The loop of Guest 3 needs EAN32, which is not on this list: its dives count as outside the limits.',
    ]);
    const served = stockPlan(
      { ...high, mixes: [...high.mixes, { id: 'o2', o2: 1, costPerFill: 5 }] },
      PLAIN_REQUEST,
      [32],
    );
    expect(served.divers.find(({ diver }) => diver.id === 'guest3')).toMatchObject({
      fills: [1, 7],
      cost: 44,
    });
    expect(onLoopsSaid(served).lacks).toEqual([]);
    expect(fileWords(onLoopsSaid(served).counted)).not.toContain('no price');
  });

  it('says the same of list, plan and rows', () => {
    for (const list of found(high, { count: 2 }).lists.slice(0, 5)) {
      const plan = stockPlan(high, PLAIN_REQUEST, list.percents);
      expect(plan.total.cost).toBeCloseTo(list.cost, 9);
      expect(plan.total.fills.reduce((sum, each) => sum + each, 0)).toBe(list.fills);
      const rows = writeStockRows(plan.ledger, plan.openIds).trim().split('\r\n').slice(1);
      const cost = rows.reduce((sum, row) => sum + Number(row.split(',').at(-1)), 0);
      expect(cost).toBeCloseTo(list.cost, 1);
      const ofOxygen = rows.map((row) => row.split(',')).filter(([, , , oxygen]) => oxygen === '100');
      expect(new Set(ofOxygen.map(([diver]) => diver))).toEqual(new Set(['Guest 3']));
      // No price is no cost of nothing.
      expect(ofOxygen.flatMap((row) => row.slice(-2))).toEqual(ofOxygen.flatMap(() => ['', '']));
    }
  });
});
