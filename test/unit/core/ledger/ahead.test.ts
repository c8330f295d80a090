import { describe, expect, it } from 'vitest';
import { divesAhead, doneUntilMin } from '../../../../core/ledger/ahead';
import { wallMin } from '../../../../core/words/calendar';
import type { Dive } from '../../../../core/document/types';
import { aDive, aDiver, aTrip } from '../../../builders/trip';

const party = [aDiver({ id: 'a' }), aDiver({ id: 'b', name: 'Guest 2' })];
const dives = ['06T08:00', '06T14:00', '07T08:00', '07T14:00'].map((at, i) =>
  aDive({ id: `d${i + 1}`, startsAt: `2027-03-${at}` }),
);
const tripWith = (id: string, change: Partial<Dive>) =>
  aTrip(
    dives.map((dive) => (dive.id === id ? { ...dive, ...change } : dive)),
    { party },
  );
const plain = aTrip(dives, { party });
const ahead = (trip: typeof plain, now: string | null) => [
  ...divesAhead(trip, now === null ? null : wallMin(now)),
];

describe('divesAhead', () => {
  it('is every dive of a trip that is not under way, whatever week the clock shows', () => {
    for (const now of [
      null,
      '2026-11-29T12:00',
      '2027-03-05T23:59',
      '2027-03-09T00:00',
      '2031-01-01T00:00',
    ]) {
      expect(ahead(plain, now), String(now)).toEqual(['d1', 'd2', 'd3', 'd4']);
    }
  });

  it('leaves out what began before the clock while the trip is under way', () => {
    expect(ahead(plain, '2027-03-06T00:00')).toEqual(['d1', 'd2', 'd3', 'd4']);
    expect(ahead(plain, '2027-03-06T08:00')).toEqual(['d2', 'd3', 'd4']);
    expect(ahead(plain, '2027-03-06T20:40')).toEqual(['d3', 'd4']);
    expect(ahead(plain, '2027-03-08T10:00')).toEqual([]);
  });

  it('leaves out what anybody logged and all before it, whatever the clock says', () => {
    expect(ahead(tripWith('d2', { asDived: [{ by: 'b' }] }), null)).toEqual(['d3', 'd4']);
    expect(ahead(tripWith('d2', { asDived: [{ o2: 0.3 }] }), null)).toEqual(['d1', 'd2', 'd3', 'd4']);
  });

  it('leaves out what all missed, and keeps what one of them missed', () => {
    expect(ahead(tripWith('d3', { notDived: [{}] }), null)).toEqual(['d1', 'd2', 'd4']);
    expect(ahead(tripWith('d3', { notDived: [{ by: 'a' }, { by: 'b' }] }), null)).toEqual(['d1', 'd2', 'd4']);
    expect(ahead(tripWith('d3', { divers: ['a'], notDived: [{ by: 'a' }] }), null)).toEqual([
      'd1',
      'd2',
      'd4',
    ]);
    expect(ahead(tripWith('d3', { notDived: [{ by: 'a' }] }), null)).toEqual(['d1', 'd2', 'd3', 'd4']);
  });
});

describe('doneUntilMin', () => {
  it('is the later of the clock and the last logged start', () => {
    const logged = tripWith('d2', { asDived: [{ startsAt: '2027-03-06T14:20' }] });
    expect(doneUntilMin(logged, null)).toBe(wallMin('2027-03-06T14:20'));
    expect(doneUntilMin(logged, wallMin('2027-03-06T18:00'))).toBe(wallMin('2027-03-06T18:00'));
    expect(doneUntilMin(logged, wallMin('2027-03-06T09:00'))).toBe(wallMin('2027-03-06T14:20'));
    expect(doneUntilMin(plain, wallMin('2028-03-06T09:00'))).toBeNull();
    expect(doneUntilMin(aTrip([]), wallMin('2027-03-06T09:00'))).toBeNull();
  });
});
