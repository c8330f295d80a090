import { describe, expect, it } from 'vitest';
import { foundSites, siteRows, sortedSites } from '../../../../../renderer/places/sites/site-rows';
import { aDive, aDiver, aTrip } from '../../../../builders/trip';

const sites = [
  { id: 'wall', name: 'Wall', depthM: 30, notes: 'Bring a light' },
  { id: 'cafe', name: 'Café Rock 10', depthM: 12, notes: '', position: { lat: -7, lon: 148 } },
  { id: 'two', name: 'Café Rock 2', depthM: 45, notes: '' },
];
const shallow = aDiver({ id: 'shallow', name: 'Guest 2', maxDepthM: 18, maxO2: 0.3 });
const trip = aTrip([aDive({ siteId: 'wall' }), aDive({ siteId: 'wall', startsAt: '2027-03-06T12:00' })], {
  sites,
  party: [aDiver(), shallow],
});
const rows = siteRows(trip);

describe('siteRows', () => {
  it('counts the dives at each site', () => {
    expect(rows.map(({ dives }) => dives.length)).toEqual([2, 0, 0]);
  });

  it('names the richest mix on board that everybody may breathe at the depth', () => {
    // 30 m in gauge water is 4 bar and a little: 1.4 bar allows 34 %, so 28 % and not 36 %.
    expect(rows[0]!.mixForAll?.id).toBe('lean');
    // At 12 m the ceiling of the second diver holds it, not the depth.
    expect(rows[1]!.mixForAll?.id).toBe('lean');
    expect(rows[1]!.richest).toMatchObject({ limit: 'ceiling', percent: 30, diver: { id: 'shallow' } });
  });

  it('names whom it does not suit', () => {
    expect(rows.map(({ tooDeepFor }) => tooDeepFor.map(({ id }) => id))).toEqual([
      ['shallow'],
      [],
      ['guest-1', 'shallow'],
    ]);
    const rich = siteRows({ ...trip, mixes: [trip.mixes[2]!] });
    expect(rich[1]!.mixForAll).toBe(null);
    expect(rich[1]!.withoutMix.map(({ id }) => id)).toEqual(['shallow']);
  });
});

describe('sortedSites', () => {
  const names = (...args: Parameters<typeof sortedSites>) => sortedSites(...args).map(({ site }) => site.id);

  it('keeps the order of the trip until asked', () => {
    expect(names(rows, null, false)).toEqual(['wall', 'cafe', 'two']);
  });

  it('sorts names as people count', () => {
    expect(names(rows, 'name', false)).toEqual(['two', 'cafe', 'wall']);
    expect(names(rows, 'name', true)).toEqual(['wall', 'cafe', 'two']);
  });

  it('sorts figures by size', () => {
    expect(names(rows, 'depth', false)).toEqual(['cafe', 'wall', 'two']);
    expect(names(rows, 'dives', true)).toEqual(['wall', 'cafe', 'two']);
    expect(names(rows, 'mix', false)).toEqual(['two', 'wall', 'cafe']);
  });

  it('puts what is not known last whichever way', () => {
    for (const isDescending of [false, true]) {
      expect(names(rows, 'position', isDescending)[0]).toBe('cafe');
      expect(names(rows, 'when', isDescending)[0]).toBe('wall');
      expect(names(rows, 'notes', isDescending)[0]).toBe('wall');
    }
  });
});

describe('foundSites', () => {
  it('finds every word wherever it stands, without case and accents', () => {
    expect(foundSites(rows, ' CAFE 10 ').map(({ site }) => site.id)).toEqual(['cafe']);
    expect(foundSites(rows, 'light wall').map(({ site }) => site.id)).toEqual(['wall']);
    expect(foundSites(rows, 'light rock')).toEqual([]);
    expect(foundSites(rows, '  ')).toBe(rows);
  });
});
