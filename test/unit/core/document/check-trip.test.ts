import { describe, expect, it } from 'vitest';
import { checkTrip } from '../../../../core/document/check-trip';
import { demoTrip } from '../../../../core/document/demo-trip';
import { readTrip } from '../../../../core/document/read-trip';
import { writeTrip } from '../../../../core/document/write-trip';
import type { Dive, Trip } from '../../../../core/document/types';

function withDive(index: number, change: Partial<Dive>): Trip {
  const trip = demoTrip();
  return { ...trip, dives: trip.dives.map((dive, at) => (at === index ? { ...dive, ...change } : dive)) };
}

describe('checkTrip', () => {
  it('finds nothing wrong with a trip that was read', () => {
    expect(checkTrip(demoTrip())).toEqual([]);
  });

  it.each<[string, Trip]>([
    ['a depth of 0', withDive(0, { depthM: 0 })],
    ['a depth that is no number', withDive(0, { depthM: Number.NaN })],
    ['no time for the descent', withDive(0, { depthM: 40, bottomMin: 2 })],
    ['an unknown site', withDive(3, { siteId: 'elsewhere' })],
    ['an overlap', withDive(1, { startsAt: '2027-03-14T09:40' })],
    ['two mistakes', withDive(1, { startsAt: '2027-03-14T09:40', siteId: 'elsewhere' })],
    ['an empty party', { ...demoTrip(), party: [] }],
  ])('says of %s what the reading of the file would say', (_, trip) => {
    const troubles = checkTrip(trip);
    expect(troubles.length).toBeGreaterThan(0);
    const file = readTrip(writeTrip(trip));
    // NaN has no JSON: the file says null, and is told so in other words at the same place.
    expect(file.ok ? [] : file.troubles.map(({ where }) => where)).toEqual(
      troubles.map(({ where }) => where),
    );
  });

  it('accepts an edit that keeps the rules, and judges the next one afresh', () => {
    expect(checkTrip(withDive(0, { depthM: 16 }))).toEqual([]);
    expect(checkTrip(withDive(0, { depthM: 101 }))).toHaveLength(1);
    expect(checkTrip(withDive(0, { depthM: 16 }))).toEqual([]);
  });

  it('finds a fault among parts that passed before, at its own place', () => {
    const trip = demoTrip();
    expect(checkTrip(trip)).toEqual([]);
    const dives = trip.dives.map((dive, at) => (at === 5 ? { ...dive, bottomMin: -1 } : dive));
    const sites = trip.sites.map((site, at) => (at === 2 ? { ...site, depthM: 4000 } : site));
    expect(checkTrip({ ...trip, dives, sites }).map(({ where }) => where)).toEqual([
      `sites[2].depthM (site "${trip.sites[2]!.id}")`,
      'dives[5].bottomMin (dive "d6")',
    ]);
  });

  it('counts the parts that passed before', () => {
    const trip = { ...demoTrip(), dives: [], flight: null };
    expect(checkTrip(trip)).toEqual([]);
    const site = trip.sites[0]!;
    const many = Array.from({ length: 600 }, (_, at) => ({ ...site, id: `s${at}` }));
    const within = { ...trip, sites: many.slice(0, 500) };
    expect(checkTrip(within)).toEqual([]);
    expect(checkTrip({ ...trip, sites: many }).map(({ where }) => where)).toEqual(['sites']);
  });

  it('looks at rates and water anew when they change', () => {
    const trip = demoTrip();
    const slow = { ...trip, settings: { ...trip.settings, descentMPerMin: 3 } };
    // 36 m at 3 m/min take 12 min, and the first level of the wall dive lasts 9.
    expect(checkTrip(slow).map(({ where }) => where)).toContain('dives[7].legs[0].min (dive "d8")');
    expect(checkTrip(trip)).toEqual([]);
  });
});
