import { describe, expect, it } from 'vitest';
import { chosenSite, draftDays, nightSite, type Uses } from '../../../../core/proposal/starting-days';

const asked = {
  firstDay: '2027-03-06',
  nights: 7,
  times: ['08:00', '11:00', '14:30'],
  night: null,
  rests: true,
};

describe('draftDays', () => {
  it('leaves arrival and departure free, and one dive out on the first and the last day', () => {
    const { days } = draftDays(asked);
    expect(days.map(({ date }) => date.slice(8))).toEqual(['07', '08', '09', '10', '11', '12']);
    expect(days.map(({ slots }) => slots.length)).toEqual([2, 3, 3, 3, 3, 2]);
    expect(days.map(({ isEasy }) => isEasy)).toEqual([true, false, false, false, false, true]);
  });

  it('takes every time on a trip of a day or two', () => {
    expect(draftDays({ ...asked, nights: 0 }).days.map(({ slots }) => slots.length)).toEqual([3]);
    expect(draftDays({ ...asked, nights: 3 }).days.map(({ slots }) => slots.length)).toEqual([3, 3]);
  });

  it.each([
    [8, ['10']],
    [7, []],
    [9, ['10']],
    [21, ['13', '20']],
  ])('rests so that no run is longer than six days: %d nights', (nights, expected) => {
    const { rests, days } = draftDays({ ...asked, nights });
    expect(rests.map((date) => date.slice(8))).toEqual(expected);
    const numbers = days.map(({ date }) => Number(date.slice(8)));
    for (let at = 6; at < numbers.length; at += 1) expect(numbers[at]! - numbers[at - 6]!).not.toBe(6);
  });

  it.each([
    ['once', ['09']],
    ['every other', ['08', '10']],
    ['every', ['08', '09', '10', '11']],
  ] as const)('has night dives %s, never on the first or the last evening', (on, expected) => {
    const { days } = draftDays({ ...asked, night: { time: '19:00', on } });
    const nights = days.filter(({ slots }) => slots.some(({ isNight }) => isNight));
    expect(nights.map(({ date }) => date.slice(8))).toEqual(expected);
  });
});

describe('chosenSite', () => {
  const deepestFirst = [33, 26, 22, 18, 14].map((depthM) => ({
    id: `s${depthM}`,
    name: '',
    depthM,
    notes: '',
  }));

  it('dives five sites in days of four alike often, each day from deep to shallow', () => {
    const uses = new Map<string, Uses>();
    for (let day = 0; day < 5; day += 1) {
      let before = -1;
      for (let at = 0; at < 4; at += 1) {
        const position = chosenSite({ deepestFirst, at, of: 4, before, uses });
        expect(position).toBeGreaterThan(before);
        before = position;
        const { id } = deepestFirst[position]!;
        uses.set(id, { count: (uses.get(id)?.count ?? 0) + 1, lastDay: day });
      }
    }
    const counts = deepestFirst.map(({ id }) => uses.get(id)!.count);
    expect(Math.max(...counts) - Math.min(...counts)).toBeLessThanOrEqual(1);
  });

  it('goes twice to a site where there are fewer sites than dives, and never back to a deeper one', () => {
    const two = deepestFirst.slice(0, 2);
    const uses = new Map<string, Uses>();
    const first = chosenSite({ deepestFirst: two, at: 0, of: 3, before: -1, uses });
    const second = chosenSite({ deepestFirst: two, at: 1, of: 3, before: first, uses });
    const third = chosenSite({ deepestFirst: two, at: 2, of: 3, before: second, uses });
    expect([first, second, third]).toEqual([0, 0, 1]);
  });
});

describe('nightSite', () => {
  const deepestFirst = [30, 18, 12].map((depthM) => ({ id: `s${depthM}`, name: '', depthM, notes: '' }));

  it('is one known from the day, or the shallowest', () => {
    expect(nightSite(deepestFirst, [0, 1, 2], 18)).toBe(1);
    expect(nightSite(deepestFirst, [0], 18)).toBe(2);
  });
});
