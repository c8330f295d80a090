import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../../../core/cautions/all';
import { checkTrip } from '../../../../core/trip/check-trip';
import { ledger } from '../../../../core/trip/ledger';
import { roomMinutes } from '../../../../core/trip/room';
import { startingSheet, type StartingAnswers, type StartingTrip } from '../../../../core/trip/starting-sheet';
import { aDiver } from '../../../builders/trip';

function answers(change: Partial<StartingAnswers> = {}): StartingAnswers {
  const site = (id: string, depthM: number) => ({ id, name: `Site ${id}`, depthM, notes: '' });
  return {
    title: 'A week',
    place: '',
    firstDay: '2027-03-06',
    nights: 7,
    times: ['07:30', '11:00', '15:00'],
    sites: [site('a', 12), site('b', 30), site('c', 18), site('d', 24)],
    party: [
      aDiver({ id: 'x', name: 'Guest 1' }),
      aDiver({ id: 'y', name: 'Guest 2', gradient: { low: 0.4, high: 0.7 } }),
    ],
    mixes: [{ id: 'ean32', o2: 0.32, costPerFill: 0 }],
    flight: '2027-03-13T15:00',
    water: { density: 'gauge', altitudeM: 0 },
    settings: { descentMPerMin: 18, ascentMPerMin: 9, gasLaw: 'ideal', analysisTolerance: 0 },
    longestMin: 50,
    ...change,
  };
}

function laidOut(change: Partial<StartingAnswers> = {}): StartingTrip {
  const result = startingSheet(answers(change));
  if (!result.ok) throw new Error(JSON.stringify(result.troubles));
  return result.value;
}

function troublesOf(change: Partial<StartingAnswers>): string[] {
  const result = startingSheet(answers(change));
  return result.ok ? [] : result.troubles.map(({ where }) => where);
}

describe('startingSheet', () => {
  it('lays out a week that nobody has to change: no caution to stop or change, room on every dive', () => {
    const { trip } = laidOut();
    expect(trip.dives).toHaveLength(18);
    expect(checkTrip(trip)).toEqual([]);
    const whole = ledger(trip);
    expect(cautionsOf(whole).filter(({ severity }) => severity !== 'know')).toEqual([]);
    expect(cautionsOf(whole).map(({ code }) => code)).not.toContain('esot-over-day');
    for (const each of whole.divers) {
      each.entries.forEach((entry, index) => {
        const carry = index === 0 ? each.start : each.carries[index - 1]!;
        expect(roomMinutes(trip, carry, entry).min ?? Infinity).toBeGreaterThanOrEqual(5);
      });
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
    for (let day = 0; day < 6; day += 1) {
      const depths = trip.dives.slice(3 * day, 3 * day + 3).map(({ depthM }) => depthM);
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
        const index = each.entries.findIndex((entry) => entry.dive.id === dive.id);
        return roomMinutes(longer, index === 0 ? each.start : each.carries[index - 1]!, each.entries[index]!)
          .min!;
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
      'Site b is dived to 18 m rather than 30 m: the limits of Guest 2 end at 18 m',
    );
  });

  it('keeps to depths the mixes reach, and says so', () => {
    const { trip, explanations } = laidOut({ mixes: [{ id: 'ean40', o2: 0.4, costPerFill: 0 }] });
    // (1.4 / 0.4 - 1.01325) bar are 24.8 m.
    expect(Math.max(...trip.dives.map(({ depthM }) => depthM))).toBeLessThanOrEqual(24);
    expect(explanations.join(' ')).toContain('the mixes on board for Guest 1 end at 24 m');
  });

  it('leaves out what would end too near the flight or the next dive, and says so', () => {
    const late = laidOut({ flight: '2027-03-13T08:00' });
    expect(late.trip.dives.at(-1)!.startsAt).toBe('2027-03-12T11:00');
    expect(late.explanations.join(' ')).toContain(
      'The dive on 2027-03-12 at 15:00 is left out: it would end less than 18 h before the flight.',
    );
    const close = laidOut({ times: ['08:00', '09:00', '12:00'] });
    expect(close.explanations.join(' ')).toContain(
      'at 08:00 is left out: the next one starts too soon after it.',
    );
  });

  it('lays out nothing rather than something bad, and says why', () => {
    const { trip, explanations } = laidOut({
      party: [aDiver({ surfaceRateLpm: 60, cylinder: { waterL: 5, fillBar: 100, reserveBar: 50 } })],
    });
    expect(trip.dives).toEqual([]);
    expect(explanations.filter((sentence) => sentence.includes('is left out'))).toHaveLength(18);
    expect(explanations.join(' ')).toContain('found no place on this trip');
  });

  it('gives the same trip for the same answers', () => {
    expect(laidOut()).toEqual(laidOut());
  });

  it.each<[string, Partial<StartingAnswers>, string[]]>([
    ['a day that does not exist', { firstDay: '2027-02-30' }, ['firstDay']],
    ['half a night', { nights: 2.5 }, ['nights']],
    ['a hundred nights', { nights: 100 }, ['nights']],
    ['no times', { times: [] }, ['times']],
    [
      'times that are none',
      { times: ['7:30', '25:00', '11:00', '11:00'] },
      ['times[0]', 'times[1]', 'times[3]'],
    ],
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

  it('gives its reasons in the units that are asked for', () => {
    const shallow = answers({ party: [aDiver({ maxDepthM: 18 })] });
    const [metric, imperial] = [startingSheet(shallow), startingSheet(shallow, 'imperial')];
    if (!metric.ok || !imperial.ok) throw new Error('not laid out');
    expect(imperial.value.trip).toEqual(metric.value.trip);
    expect(metric.value.explanations.join(' ')).toMatch(
      /rather than 30 m: the limits of Guest 1 end at 18 m/,
    );
    expect(imperial.value.explanations.join(' ')).toMatch(
      /rather than 99 ft: the limits of Guest 1 end at 59 ft/,
    );
    expect(imperial.value.explanations.join(' ')).not.toMatch(/\d m\b/);
  });
});
