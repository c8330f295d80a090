import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../../../core/cautions/all';
import { checkTrip } from '../../../../core/document/check-trip';
import type { EarlierDive } from '../../../../core/document/types';
import { ledger } from '../../../../core/ledger/ledger';
import { roomMinutes } from '../../../../core/ledger/room';
import { startingSheet, type StartingAnswers } from '../../../../core/proposal/starting-sheet';
import { esotAdvised } from '../../../../core/oxygen/budgets';
import { wordsIn } from '../../../../renderer/figures/reader';
import { aDiver } from '../../../builders/trip';
import { answers, laidOut } from '../../../support/starting-answers';

function troublesOf(change: Partial<StartingAnswers>): string[] {
  const result = startingSheet(answers(change));
  return result.ok ? [] : result.troubles.map(({ where }) => where);
}

describe('startingSheet', () => {
  it('keeps to the oxygen advice for as many days as a diver dives, brought ones included', () => {
    const brought = (startsAt: string, change: Partial<EarlierDive> = {}): EarlierDive => ({
      id: `before-${startsAt}`,
      startsAt,
      depthM: 9,
      bottomMin: 20,
      mix: 'auto',
      ...change,
    });
    // In the night before, much oxygen and little nitrogen: the advice of six days comes before the clocks.
    const rich = { depthM: 12.5, bottomMin: 40, o2: 0.7 };
    const night = [brought('2027-03-06T00:30', rich), brought('2027-03-06T04:00', rich)];
    const days = [1, 2, 3, 4, 5].map((day) => brought(`2027-03-0${day}T09:00`));
    const highestEsot = (before: readonly EarlierDive[]) => {
      const { trip } = laidOut({
        nights: 1,
        times: ['10:00', '13:00', '16:00'],
        party: [aDiver({ before, cylinder: { waterL: 40, fillBar: 230, reserveBar: 50 } })],
        mixes: [{ id: 'ean36', o2: 0.36, costPerFill: 0 }],
        flight: null,
      });
      const [mine] = ledger(trip).divers;
      expect(mine!.entries.length).toBeGreaterThan(1);
      return Math.max(...mine!.days.map(({ esot }) => esot));
    };
    expect(highestEsot(night)).toBeGreaterThan(esotAdvised(6));
    expect(highestEsot([...days, ...night])).toBeLessThanOrEqual(esotAdvised(6));
  });

  it('lays out a week that nobody has to change: no caution to stop or change, room on every dive', () => {
    const { trip } = laidOut();
    expect(trip.dives).toHaveLength(16);
    expect(checkTrip(trip)).toEqual([]);
    const whole = ledger(trip);
    expect(cautionsOf(whole).filter(({ severity }) => severity !== 'know')).toEqual([]);
    expect(cautionsOf(whole).map(({ code }) => code)).not.toContain('esot-over-day');
    for (const each of whole.divers) {
      for (const entry of each.entries) {
        expect(roomMinutes(trip, entry).min ?? Infinity).toBeGreaterThanOrEqual(5);
      }
    }
  });

  it('leaves the days of arrival and departure free, and dives at the times given', () => {
    const { trip } = laidOut();
    const days = [...new Set(trip.dives.map(({ startsAt }) => startsAt.slice(0, 10)))];
    expect(days).toEqual([
      '2027-03-07',
      '2027-03-08',
      '2027-03-09',
      '2027-03-10',
      '2027-03-11',
      '2027-03-12',
    ]);
    expect([...new Set(trip.dives.map(({ startsAt }) => startsAt.slice(11)))]).toEqual([
      '07:30',
      '11:00',
      '15:00',
    ]);
    expect(
      laidOut({ nights: 0, flight: null }).trip.dives.map(({ startsAt }) => startsAt.slice(0, 10)),
    ).toEqual(Array.from({ length: 3 }, () => '2027-03-06'));
  });

  it('goes from deep to shallow each day, never below a site, and takes every site in turn', () => {
    const { trip } = laidOut();
    const days = [...new Set(trip.dives.map(({ startsAt }) => startsAt.slice(0, 10)))];
    expect(days).toHaveLength(6);
    for (const day of days) {
      const depths = trip.dives
        .filter(({ startsAt }) => startsAt.startsWith(day))
        .map(({ depthM }) => depthM);
      expect(depths).toEqual(depths.toSorted((a, b) => b - a));
      expect(depths[0]! - depths[1]!).toBeGreaterThanOrEqual(3);
    }
    for (const dive of trip.dives) {
      expect(dive.depthM).toBeLessThanOrEqual(trip.sites.find(({ id }) => id === dive.siteId)!.depthM);
    }
    expect(new Set(trip.dives.map(({ siteId }) => siteId)).size).toBe(4);
  });

  it('takes the longest time that fits, in steps of five minutes, and no more than asked', () => {
    const { trip } = laidOut({ longestMin: 40 });
    expect(Math.max(...trip.dives.map(({ bottomMin }) => bottomMin))).toBe(40);
    for (const dive of trip.dives) {
      expect(dive.bottomMin % 5).toBe(0);
      expect(dive.bottomMin).toBeGreaterThanOrEqual(20);
      const longer = {
        ...trip,
        dives: trip.dives.map((each) => (each === dive ? { ...each, bottomMin: each.bottomMin + 5 } : each)),
      };
      if (dive.bottomMin === 40) continue;
      // Five minutes more would take somebody's room on this dive.
      const whole = ledger(longer);
      const rooms = whole.divers.map((each) => {
        const entry = each.entries.find((one) => one.dive.id === dive.id)!;
        return roomMinutes(longer, entry).min!;
      });
      expect(Math.min(...rooms)).toBeLessThan(5);
    }
  });

  it('keeps the party together within the limits of each, and says whose they are', () => {
    const { trip, explanations } = laidOut({
      party: [aDiver({ id: 'x', name: 'Guest 1' }), aDiver({ id: 'y', name: 'Guest 2', maxDepthM: 18 })],
    });
    expect(Math.max(...trip.dives.map(({ depthM }) => depthM))).toBe(18);
    expect(explanations.join(' ')).toContain(
      'Site b is dived to 18 m rather than 30 m and Site d to 18 m rather than 24 m: the depth limit of Guest 2 is 18 m.',
    );
  });

  it('keeps to depths the mixes reach, and says so', () => {
    const { trip, explanations } = laidOut({ mixes: [{ id: 'ean40', o2: 0.4, costPerFill: 0 }] });
    // (1.4 / 0.4 - 1.01325) bar are 24.8 m.
    expect(Math.max(...trip.dives.map(({ depthM }) => depthM))).toBeLessThanOrEqual(24);
    expect(explanations).toContain(
      'Site b is dived to 24 m rather than 30 m: deeper, no mix on board may be breathed.',
    );
  });

  it('leaves out what would end too near the flight or the next dive, and says so', () => {
    const late = laidOut({ flight: '2027-03-13T05:00' });
    expect(late.trip.dives.at(-1)!.startsAt).toBe('2027-03-12T07:30');
    expect(late.explanations.join(' ')).toContain(
      'The dive of 2027-03-12T11:00 is left out: less than 18 h would be left before the flight.',
    );
    const close = laidOut({ times: ['08:00', '09:00', '12:00'] });
    expect(close.explanations).toContain(
      'There are no dives at 09:00: too soon after 08:00 for 20 min of diving and an hour at the surface.',
    );
    // The dives that are left take the deepest sites, as if the third had not been asked for.
    expect(close.trip.dives).toEqual(laidOut({ times: ['08:00', '12:00'] }).trip.dives);
  });

  it('lays out nothing rather than something bad, and says why', () => {
    const { trip, explanations } = laidOut({
      party: [aDiver({ surfaceRateLpm: 60, cylinder: { waterL: 5, fillBar: 100, reserveBar: 50 } })],
    });
    expect(trip.dives).toEqual([]);
    expect(explanations.slice(1)).toEqual([
      'No dive can be drafted: even at 8 m, the gas leaves less than 20 min.',
    ]);
  });

  it('drafts dives of 45 min and more, the first of a day for its depth', () => {
    const { trip } = laidOut({ longestMin: 60, times: ['08:00', '11:00', '14:30', '17:30'] });
    for (const day of new Set(trip.dives.map(({ startsAt }) => startsAt.slice(0, 10)))) {
      const [first, ...later] = trip.dives.filter(({ startsAt }) => startsAt.startsWith(day));
      expect(first!.bottomMin).toBeGreaterThanOrEqual(20);
      for (const { bottomMin, depthM } of later) {
        expect(bottomMin).toBeGreaterThanOrEqual(45);
        expect(bottomMin).toBeLessThanOrEqual(60);
        expect(depthM).toBeLessThan(first!.depthM);
      }
    }
  });

  it('dives a site by its levels, those that lie too deep raised, and leaves room at each', () => {
    const wall = {
      id: 'w',
      name: 'Wall',
      depthM: 30,
      notes: '',
      levels: [
        { depthM: 30, min: 12 },
        { depthM: 18, min: 20 },
        { depthM: 9, min: 18 },
      ],
    };
    const { trip, explanations } = laidOut({
      sites: [wall],
      nights: 0,
      times: ['08:00', '11:00'],
      flight: null,
    });
    const [first, second] = trip.dives;
    expect(first!.legs!.map(({ depthM }) => depthM)).toEqual([30, 18, 9]);
    expect(first!.bottomMin).toBe(50);
    expect(first!.legs!.reduce((sum, { min }) => sum + min, 0)).toBe(50);
    expect(second!.legs!.map(({ depthM }) => depthM)).toEqual([second!.depthM, 18, 9]);
    expect(second!.depthM).toBeLessThanOrEqual(27);
    expect(explanations).toContain('Sites with levels are dived by them.');
    for (const { entries } of ledger(trip).divers) {
      for (const { levels } of entries) {
        for (const { min, noStopMin } of levels)
          expect((noStopMin ?? Infinity) - min).toBeGreaterThanOrEqual(5);
      }
    }
  });

  it('lets sites without levels rise where that is asked for, and says how', () => {
    const { trip, explanations } = laidOut({ rising: true });
    const deep = trip.dives.find(({ depthM }) => depthM === 30)!;
    expect(deep.legs!.map(({ depthM }) => depthM)).toEqual([30, 20, 10]);
    expect(deep.bottomMin).toBeGreaterThanOrEqual(45);
    expect(explanations.join(' ')).toContain('a third of the time at the depth');
    // What is shallow stays at its depth.
    expect(trip.dives.every(({ depthM, legs }) => depthM > 15 || legs === undefined)).toBe(true);
  });

  it('puts a night dive at a site dived by day, no deeper than 18 m, and makes time before it', () => {
    const { trip, cells, explanations } = laidOut({
      times: ['08:00', '11:00', '14:30', '17:30'],
      night: { time: '18:30', on: 'every' },
    });
    const nights = trip.dives.filter(({ startsAt }) => startsAt.endsWith('18:30'));
    expect(nights).toHaveLength(4);
    expect(cells.filter(({ isNight }) => isNight)).toHaveLength(4);
    for (const { startsAt, siteId, depthM } of nights) {
      expect(depthM).toBeLessThanOrEqual(18);
      const today = trip.dives.filter((dive) => dive.startsAt.startsWith(startsAt.slice(0, 10)));
      expect(today.map(({ startsAt: at }) => at.slice(11))).toEqual(['08:00', '11:00', '14:30', '18:30']);
      expect(today.slice(0, -1).some((dive) => dive.siteId === siteId)).toBe(true);
    }
    expect(explanations.join(' ')).toContain('A night dive goes to a site dived that day');
  });

  it('rests on long trips, so that nobody dives seven days in a row', () => {
    const daysOf = (rests: boolean) => {
      const { trip, explanations } = laidOut({ nights: 14, times: ['09:00'], flight: null, rests });
      const codes = cautionsOf(ledger(trip)).map(({ code }) => code);
      return { days: trip.dives.map(({ startsAt }) => startsAt.slice(0, 10)), codes, explanations };
    };
    const rested = daysOf(true);
    expect(rested.days).toHaveLength(12);
    expect(rested.days).not.toContain('2027-03-13');
    expect(rested.codes).not.toContain('no-rest');
    expect(rested.explanations[0]).toContain(', 2027-03-13 for rest;');
    expect(daysOf(false).codes).toContain('no-rest');
  });

  it('drafts around a dive that is locked, one that is dropped and one at a site asked for', () => {
    const first = laidOut();
    const [one, two, three] = first.trip.dives.filter(({ startsAt }) => startsAt.startsWith('2027-03-08'));
    const second = laidOut({
      cells: [
        { kind: 'site', startsAt: one!.startsAt, siteId: 'd' },
        { kind: 'lock', startsAt: two!.startsAt, siteId: 'a', shape: { depthM: 11, bottomMin: 33 } },
        { kind: 'drop', startsAt: three!.startsAt },
        { kind: 'drop', startsAt: '2027-05-01T08:00' },
      ],
    });
    const day = second.trip.dives.filter(({ startsAt }) => startsAt.startsWith('2027-03-08'));
    expect(day.map(({ siteId }) => siteId)).toEqual(['d', 'a']);
    expect(day[1]).toMatchObject({ depthM: 11, bottomMin: 33 });
    const states = second.cells.filter(({ startsAt }) => startsAt.startsWith('2027-03-08'));
    expect(states.map(({ state }) => state)).toEqual(['drafted', 'locked', 'dropped']);
    expect(second.trip.dives).toHaveLength(15);
  });

  it('says that a locked dive cannot stay, and drafts another at its site', () => {
    const { trip, cells, explanations } = laidOut({
      cells: [
        { kind: 'lock', startsAt: '2027-03-08T07:30', siteId: 'b', shape: { depthM: 30, bottomMin: 90 } },
      ],
    });
    expect(explanations).toContain(
      'The locked dive of 2027-03-08T07:30 would pass a limit now, and is drafted again.',
    );
    expect(cells.find(({ startsAt }) => startsAt === '2027-03-08T07:30')!.state).toBe('drafted');
    expect(trip.dives.find(({ startsAt }) => startsAt === '2027-03-08T07:30')!.siteId).toBe('b');
  });

  it('leaves out of a dive whom its site is not for, and goes as deep as the others may', () => {
    const [a, b, ...others] = answers().sites;
    const deepSite = { ...b!, notFor: { depthLimitUnderM: 30 } };
    const party = [aDiver({ id: 'x', name: 'Guest 1' }), aDiver({ id: 'y', name: 'Guest 2', maxDepthM: 18 })];
    const { trip } = laidOut({ party, sites: [a!, deepSite, ...others] });
    const deep = trip.dives.filter(({ siteId }) => siteId === 'b');
    expect(deep.length).toBeGreaterThan(0);
    for (const { divers, depthM } of deep) {
      expect(divers).toEqual(['x']);
      expect(depthM).toBeGreaterThan(18);
    }
    expect(
      trip.dives.filter(({ siteId }) => siteId !== 'b').every(({ divers }) => divers === undefined),
    ).toBe(true);
    const none = laidOut({ party: [party[1]!], sites: [deepSite] });
    expect(none.explanations.join(' ')).toContain('the site is for nobody of the party');
  });

  it('says of each dive what holds it, and of each that is missing why', () => {
    const { cells } = laidOut({ flight: '2027-03-13T05:00' });
    expect(cells.at(-1)).toMatchObject({
      state: 'left out',
      why: 'less than 18 h would be left before the flight.',
    });
    const deep = cells.filter(({ state, why }) => state === 'drafted' && why !== null);
    expect(deep.length).toBeGreaterThan(0);
    for (const { why } of deep) expect(why).toMatch(/no-stop limit|less deep than the dive before/);
  });

  it('gives the same trip for the same answers', () => {
    expect(laidOut()).toEqual(laidOut());
  });

  it.each<[string, Partial<StartingAnswers>, string[]]>([
    ['a day that does not exist', { firstDay: '2027-02-30' }, ['firstDay']],
    ['half a night', { nights: 2.5 }, ['nights']],
    ['a hundred nights', { nights: 100 }, ['nights']],
    ['no times', { times: [] }, ['times']],
    ['times without an end', { times: Array.from({ length: 5000 }, () => 'noon') }, ['times']],
    [
      'times that are none',
      { times: ['7:30', '25:00', '11:00', '11:00'] },
      ['times[0]', 'times[1]', 'times[3]'],
    ],
    ['a night dive at no time', { night: { time: '25:00', on: 'once' } }, ['night']],
    ['no sites', { sites: [] }, ['sites']],
    ['no mixes', { mixes: [] }, ['mixes']],
    ['an empty party', { party: [] }, ['party']],
    ['dives of four hours', { longestMin: 240 }, ['longestMin']],
    ['a mix in percent', { mixes: [{ id: 'm', o2: 32, costPerFill: 0 }] }, ['mixes[0].o2 (mix "m")']],
    ['a flight without time', { flight: '2027-03-13' }, ['flight.at']],
    ['several at once', { nights: -1, sites: [], party: [] }, ['nights', 'sites', 'party']],
  ])('refuses %s', (_, change, where) => {
    expect(troublesOf(change)).toEqual(where);
  });

  it('says no safety stop in feet on a dive whose last level lies above it', () => {
    const endingAt = (id: string, lastM: number) => ({
      id,
      name: `Site ${id}`,
      depthM: 15,
      notes: '',
      levels: [15, lastM].map((depthM) => ({ depthM, min: 20 })),
    });
    const { trip } = laidOut({ depthUnit: 'ft', sites: [endingAt('reef', 3), endingAt('wall', 8)] });
    expect(checkTrip(trip)).toEqual([]);
    const stops = trip.dives.map(({ siteId, safetyStop }) => [siteId, safetyStop !== undefined]);
    expect(stops).toContainEqual(['reef', false]);
    expect(stops).toContainEqual(['wall', true]);
    expect(stops).not.toContainEqual(['reef', true]);
  });

  it('lays out whole feet where depths are counted so, and gives its reasons in the words asked for', () => {
    const feet = answers({ depthUnit: 'ft', party: [aDiver({ maxDepthM: 60 * 0.3048 })] });
    const result = startingSheet(feet, wordsIn({ units: 'imperial', clock: '12h' }));
    if (!result.ok) throw new Error('not laid out');
    const { trip, explanations } = result.value;
    for (const { depthM, siteId } of trip.dives) {
      const site = trip.sites.find(({ id }) => id === siteId)!;
      const depthFt = depthM / 0.3048;
      const { safetyStop } = trip.dives.find((dive) => dive.siteId === siteId && dive.depthM === depthM)!;
      expect(safetyStop ? Math.round(safetyStop.depthM / 0.3048) : null).toBe(depthM > 10 ? 15 : null);
      if (depthM !== site.depthM) expect(Math.abs(depthFt - Math.round(depthFt))).toBeLessThan(1e-9);
    }
    const text = explanations.join(' ');
    expect(text).toContain('There are 6 days for diving, Sun 7 March to Fri 12 March;');
    expect(text).toContain('at least 10 ft less deep, or no deeper than 40 ft');
    expect(text).toContain(
      'Site b is dived to 60 ft rather than 98 ft and Site d to 60 ft rather than 78 ft: the depth limit is 60 ft.',
    );
    expect(text).toContain('before the flight on Sat 13, 3:00 pm.');
    expect(text).not.toMatch(/\d m\b|T\d\d:|\d{4}-/);
  });
});
