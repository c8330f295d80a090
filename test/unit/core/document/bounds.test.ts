import { describe, expect, it } from 'vitest';
import { checkTrip } from '../../../../core/document/check-trip';
import { readTrip } from '../../../../core/document/read-trip';
import { LIST_RULES, MOST_DIVES_TOGETHER } from '../../../../core/document/schema';
import { bigTrip } from '../../../bench/big-trip';
import { tenDives, type Loose } from '../../../support/trip-documents';

function troublesOf(document: Loose) {
  const read = readTrip(JSON.stringify(document));
  return read.ok ? [] : read.troubles;
}

function spoilt(spoil: (trip: Loose) => void): Loose {
  const trip = tenDives();
  spoil(trip);
  return trip;
}

/** Items that must not be looked into: each would be a trouble of its own. */
const zeros = (count: number): readonly number[] => Array.from({ length: count }, () => 0);

describe('lists of a trip file', () => {
  const earlier = { id: 'b1', startsAt: '2027-03-05T10:00', depthM: 18, bottomMin: 40, mix: 'm' };
  const places: readonly [keyof typeof LIST_RULES, string, (trip: Loose, list: unknown) => void][] = [
    ['party', 'party', (trip, list) => (trip.party = list)],
    ['sites', 'sites', (trip, list) => (trip.sites = list)],
    ['mixes', 'mixes', (trip, list) => (trip.mixes = list)],
    ['dives', 'dives', (trip, list) => (trip.dives = list)],
    ['before', 'party[1].before (diver "b")', (trip, list) => (trip.party[1].before = list)],
    ['legs', 'dives[2].legs (dive "d3")', (trip, list) => (trip.dives[2].legs = list)],
    ['onBoard', 'dives[2].onBoard (dive "d3")', (trip, list) => (trip.dives[2].onBoard = list)],
    ['divers', 'dives[2].divers (dive "d3")', (trip, list) => (trip.dives[2].divers = list)],
    ['asDived', 'dives[2].asDived (dive "d3")', (trip, list) => (trip.dives[2].asDived = list)],
    ['notDived', 'dives[2].notDived (dive "d3")', (trip, list) => (trip.dives[2].notDived = list)],
    ['rates', 'party[1].rates (diver "b")', (trip, list) => (trip.party[1].rates = list)],
    ['days', 'days', (trip, list) => (trip.days = list)],
    ['legs', 'sites[0].levels (site "s")', (trip, list) => (trip.sites[0].levels = list)],
    [
      'certifications',
      'sites[0].notFor.certifications (site "s")',
      (trip, list) => (trip.sites[0].notFor = { certifications: list }),
    ],
    [
      'legs',
      'party[0].before[0].legs (diver "a", earlier dive "b1")',
      (trip, list) => (trip.party[0].before = [{ ...earlier, legs: list }]),
    ],
  ];

  it.each(places)('are judged by their length before what is in them: %s at %s', (key, where, spoil) => {
    const { max } = LIST_RULES[key];
    const found = troublesOf(spoilt((trip) => spoil(trip, zeros(max + 1))));
    expect(found.map((each) => each.where)).toEqual([where]);
    expect(found[0]!.what).toContain(`${max + 1} are given; there can be ${max}.`);
    expect(found[0]!.mend).not.toBe('');
  });

  it('are told together where several are too long', () => {
    const trip = spoilt((each) => {
      each.sites = zeros(501);
      each.dives[0].legs = zeros(21);
      each.dives[9].divers = zeros(61);
      each.title = '';
    });
    expect(troublesOf(trip).map(({ where }) => where)).toEqual([
      'sites',
      'dives[0].legs (dive "d1")',
      'dives[9].divers (dive "d10")',
    ]);
  });

  it('end in no stack trace where they are very long', () => {
    const levels = Array.from({ length: 150_000 }, () => ({ depthM: 20, min: 1 }));
    const trip = spoilt(({ dives }) => {
      dives[0].legs = levels;
      delete dives[0].depthM;
      delete dives[0].bottomMin;
    });
    expect(troublesOf(trip)).toHaveLength(1);
  });
});

describe('dives of all divers together', () => {
  const within = bigTrip(100, 30);

  it('are planned up to a number that is told', () => {
    expect(within.dives.length * within.party.length).toBe(MOST_DIVES_TOGETHER);
    expect(checkTrip(within)).toEqual([]);
    const [trouble, ...others] = checkTrip(bigTrip(101, 30));
    expect(others).toEqual([]);
    expect(trouble!.where).toBe('dives');
    expect(trouble!.what).toBe(
      'The divers make 3030 dives together, those brought to the trip included; 3000 are planned at most.',
    );
    expect(trouble!.mend).toContain('Split the trip');
  });

  it('count who is on a dive, and dives brought to the trip', () => {
    const [first, ...rest] = within.dives;
    const alone = { ...within, dives: [{ ...first!, divers: ['p1'] }, ...rest] };
    expect(checkTrip(alone)).toEqual([]);
    const before = Array.from({ length: 30 }, (_, at) => ({
      id: `b${at}`,
      startsAt: `2027-02-${String(1 + (at % 28)).padStart(2, '0')}T${at < 28 ? '08' : '14'}:00`,
      depthM: 18,
      bottomMin: 30,
      mix: 'air',
    })).toSorted((a, b) => a.startsAt.localeCompare(b.startsAt));
    const withBefore = (count: number) => ({
      ...alone,
      party: alone.party.map((diver) =>
        diver.id === 'p2' ? { ...diver, before: before.slice(0, count) } : diver,
      ),
    });
    expect(checkTrip(withBefore(29))).toEqual([]);
    expect(checkTrip(withBefore(30)).map(({ where }) => where)).toEqual(['dives']);
  });
});

describe('troubles of a file', () => {
  it('are told up to a hundred, and then that there are more', () => {
    for (const count of [100, 101, 400]) {
      const trip = spoilt((each) => {
        each.dives = Array.from({ length: count }, () => 0);
      });
      const found = troublesOf(trip);
      expect(found.length).toBe(Math.min(count, 101));
      expect(found.at(-1)!.what.startsWith('There is more to mend')).toBe(count > 100);
    }
  });

  it('are told so of references and of times as well', () => {
    const unknown = spoilt((each) => {
      each.dives = Array.from({ length: 300 }, (_, at) => ({
        ...each.dives[0],
        id: `d${at}`,
        siteId: `x${at}`,
        onBoard: ['y', 'z'],
      }));
    });
    expect(troublesOf(unknown).length).toBe(101);
    const clashing = spoilt((each) => {
      each.dives = Array.from({ length: 300 }, (_, at) => ({ ...each.dives[0], id: `d${at}` }));
    });
    expect(troublesOf(clashing).length).toBe(101);
  });

  it('quote no more of a name or an id than a message can hold', () => {
    const long = 'x'.repeat(100_000);
    const trip = spoilt((each) => {
      for (const dive of each.dives) dive.siteId = dive.id = long;
      each.dives[0].divers = [long, long];
      each.dives[1].asDived = [{ by: long }, { by: long }];
    });
    const found = troublesOf(trip);
    expect(found.length).toBeGreaterThan(20);
    for (const { what, where, mend } of found) expect(`${what}${where}${mend}`.length).toBeLessThan(400);
  });

  it('are told of objects with more keys than any part of a trip has', () => {
    const keys = Object.fromEntries(Array.from({ length: 1000 }, (_, at) => [`k${at}`, 0]));
    expect(troublesOf(spoilt((each) => (each.mine = keys)))).toEqual([]);
    const [trouble] = troublesOf(spoilt((each) => (each.mine = { ...keys, one: 0 })));
    expect(trouble!.what).toBe('The object that begins with the key "k0" has 1001 keys; there can be 1000.');
  });
});
