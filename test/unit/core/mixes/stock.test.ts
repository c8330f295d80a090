import { describe, expect, it } from 'vitest';
import { whyFirst } from '../../../../core/mixes/why-first';
import { minutesLeft } from '../../../../core/ledger/room';
import { outcomeOf } from '../../../../core/mixes/outcome';
import { diveDates, PLAIN_REQUEST } from '../../../../core/mixes/shares';
import { searchStock, type StockAnswer } from '../../../../core/mixes/stock';
import { openTrip, stockedTrip } from '../../../../core/mixes/stocked-trip';
import { checkTrip } from '../../../../core/document/check-trip';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import type { Dive, Trip } from '../../../../core/document/types';

const trip = demoTrip();
const fourthDay = diveDates(trip)[3]!;

function found(request: Partial<typeof PLAIN_REQUEST>, of: Trip = trip): StockAnswer {
  const answer = searchStock(of, { ...PLAIN_REQUEST, ...request });
  if (!answer.ok) throw new Error(answer.troubles[0].what);
  return answer.value;
}

describe('searchStock', () => {
  it('tells all lists there are, and how many it had to work out', () => {
    const answer = found({ count: 3 });
    expect(answer.total).toBe(13 + 78 + 286);
    expect(answer.searched).toBeGreaterThan(0);
    expect(answer.searched).toBeLessThan(answer.total - answer.withUnused);
    expect(answer.lists.filter((list) => list.isBest).length).toBeGreaterThan(0);
  });

  it('keeps to the largest cost and number of fills, and says how many lists those left out', () => {
    const free = found({ count: 2 });
    const cost = free.lists[0]!.cost - 1;
    const bound = found({ count: 2, maxCost: cost, maxFills: 60 });
    expect(bound.overLimit).toBeGreaterThan(0);
    for (const list of bound.lists) {
      expect(list.cost).toBeLessThanOrEqual(cost);
      expect(list.fills).toBeLessThanOrEqual(60);
    }
    expect(found({ count: 1, maxFills: 0 }).lists).toEqual([]);
  });

  it('leaves out lists with a share that fills no dive, and marks one that was asked for all the same', () => {
    // 30 % is the richest that goes to 36 m: what is richer is of no use there.
    const deep: Trip = { ...trip, dives: trip.dives.map((dive) => ({ ...dive, depthM: 36, bottomMin: 8 })) };
    const answer = found({ count: 2, fixedPercents: [40], range: { fromPercent: 29, toPercent: 32 } }, deep);
    // What is on board is in every pool.
    expect(answer.lists.map(({ percents }) => percents)).toEqual(
      expect.arrayContaining([[28, 40], [29, 40], [30, 40], [40]]),
    );
    expect(answer.lists).toHaveLength(4);
    for (const { unusedPercents } of answer.lists) expect(unusedPercents).toEqual([40]);
    const free = found({ count: 2 }, deep);
    for (const { percents, unusedPercents } of free.lists) {
      expect(percents).toHaveLength(1);
      expect(unusedPercents).toEqual([]);
    }
    expect([free.total, free.withUnused]).toEqual([91, 91 - 3]);
  });

  it('tells lists apart by nitrogen where gas sets the least room, and says where and by what it is set', () => {
    const { lists } = found({ count: 2 });
    const [first] = lists;
    expect(first!.percents).toEqual([28, 35]);
    const steps = whyFirst(lists);
    expect(steps.map(({ measure }) => measure)).toEqual(['within', 'room', 'nitrogen', 'cost']);
    const byNitrogen = steps[2]!.next;
    expect(byNitrogen.percents).toEqual([28, 34]);
    expect(byNitrogen.nitrogenRoomMin!).toBeLessThan(first!.nitrogenRoomMin!);
    expect(steps[3]!.next.cost).toBeGreaterThan(first!.cost);
    expect(first!.smallestAt).toEqual({ diveId: trip.dives[9]!.id, limit: 'gas' });
    const open = openTrip(trip, PLAIN_REQUEST);
    const whole = ledger(stockedTrip(open, first!.percents));
    const rooms = whole.divers.flatMap(({ entries }) =>
      entries.map((entry) => ({ ...minutesLeft(whole.trip, entry), id: entry.dive.id })),
    );
    const least = rooms.reduce((a, b) => (b.min! < a.min! ? b : a));
    expect({ diveId: least.id, limit: least.minLimit }).toEqual(first!.smallestAt);
    expect(first!.smallestRoomMin).toBeCloseTo(least.min!, 9);
  });

  it('names the dives that a list keeps outside', () => {
    const [first, ...rest] = trip.dives;
    const long: Trip = { ...trip, dives: [{ ...first!, bottomMin: 300 }, ...rest] };
    for (const list of found({ count: 1 }, long).lists) {
      expect(list.outsideIds).toContain(first!.id);
      expect(list.outsideIds.length).toBe(trip.dives.length - list.divesWithin);
    }
  });

  it('names the dives no share suits, and counts them outside', () => {
    const [first, ...rest] = trip.dives;
    const deep: Trip = { ...trip, dives: [{ ...first!, depthM: 62, bottomMin: 6 }, ...rest] };
    const answer = found({ count: 1 }, deep);
    expect(answer.unreachedDiveIds).toEqual([first!.id]);
    expect(Math.max(...answer.lists.map((list) => list.divesWithin))).toBeLessThan(trip.dives.length);
  });

  it('tells its progress in rising steps up to the whole', () => {
    const told: [number, number][] = [];
    searchStock(trip, { ...PLAIN_REQUEST, count: 2 }, (done, total) => told.push([done, total]));
    expect(told.length).toBeGreaterThan(10);
    expect(told.every(([done], at) => at === 0 || done > told[at - 1]![0])).toBe(true);
    expect(told.at(-1)![0] / told.at(-1)![1]).toBeGreaterThan(0.98);
  });

  it('answers for a trip without dives', () => {
    const answer = found({ count: 1 }, { ...trip, dives: [] });
    // Every share is of no use to it.
    expect(answer).toMatchObject({ lists: [], total: 13, withUnused: 13, overLimit: 0 });
    const fixed = found({ count: 1, fixedPercents: [32] }, { ...trip, dives: [] });
    expect(fixed.lists).toMatchObject([
      { divesWithin: 0, smallestRoomMin: null, nitrogenRoomMin: null, oxygenPeak: 0, fills: 0, mixes: 1 },
    ]);
  });

  it('counts lung doses carried in from dives before, where the oxygen peak is theirs', () => {
    // Six days of long dives at 1.4 bar: the daily ESOT is a greater share than any CNS clock.
    const dive = (day: number, hour: number): Dive => ({
      id: `d${day}-${hour}`,
      siteId: trip.sites[0]!.id,
      startsAt: `2027-03-${String(10 + day)}T${String(hour).padStart(2, '0')}:00`,
      depthM: 24.8,
      bottomMin: 50,
      mix: 'auto',
    });
    const diver = {
      ...trip.party[0]!,
      maxO2: 0.4,
      before: [
        { id: 'b', startsAt: '2027-03-10T05:00', depthM: 24.8, bottomMin: 60, mix: 'auto' as const, o2: 0.4 },
      ],
    };
    const dives = [0, 1, 2, 3, 4, 5].flatMap((day) => [dive(day, 9), dive(day, 17)]);
    const long: Trip = { ...trip, party: [diver], dives, flight: null };
    const answer = found({ count: 1, fixedPercents: [40] }, long);
    const open = openTrip(long, PLAIN_REQUEST);
    const whole = ledger(stockedTrip(open, [40]));
    const outcome = outcomeOf(whole, open.openIds, 1);
    expect(answer.lists[0]!.oxygenPeak).toBeCloseTo(outcome.oxygenPeak!, 9);
    const firstDay = whole.divers[0]!.days[0]!;
    const clocks = whole.divers[0]!.entries.flatMap((entry) => [entry.cns.after!, entry.cns.day!]);
    expect(firstDay.esot / (60 * Math.sqrt(40))).toBeGreaterThan(Math.max(...clocks));
  });
});

describe('stockedTrip', () => {
  it('is a trip the window would take, whatever the date', () => {
    for (const fromDate of [null, fourthDay]) {
      const stocked = stockedTrip(openTrip(trip, { fromDate }), [28, 34]);
      expect(checkTrip(stocked)).toEqual([]);
    }
  });

  it('leaves the dives before the date as they were, figure for figure', () => {
    const before = ledger(trip);
    const after = ledger(stockedTrip(openTrip(trip, { fromDate: fourthDay }), [29, 34]));
    before.divers.forEach((diver, place) => {
      const kept = diver.entries.filter((entry) => entry.dive.startsAt < fourthDay);
      expect(kept.length).toBeGreaterThan(5);
      kept.forEach((entry, index) => {
        const other = after.divers[place]!.entries[index]!;
        expect(other.mix).toBe(entry.mix);
        expect(other.after.tensions).toEqual(entry.after.tensions);
      });
      const later = after.divers[place]!.entries.slice(kept.length);
      for (const { o2 } of later) expect([0.21, 0.29, 0.34]).toContain(o2);
    });
  });

  it('keeps a dive that was dived, and the mix it names', () => {
    const [first, ...rest] = trip.dives;
    const mixId = trip.mixes[0]!.id;
    const dived: Trip = {
      ...trip,
      dives: [{ ...first!, mix: mixId, asDived: [{ bottomMin: 30 }] }, ...rest],
    };
    const stocked = stockedTrip(openTrip(dived, PLAIN_REQUEST), [33]);
    expect(stocked.dives[0]).toBe(dived.dives[0]);
    expect(stocked.mixes.map((mix) => mix.id)).toContain(mixId);
    expect(checkTrip(stocked)).toEqual([]);
  });
});
