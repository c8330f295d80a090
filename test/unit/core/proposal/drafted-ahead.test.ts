import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../../../core/cautions/all';
import { checkTrip } from '../../../../core/document/check-trip';
import { ledger } from '../../../../core/ledger/ledger';
import { draftedAhead } from '../../../../core/proposal/drafted-ahead';
import { fileWords } from '../../../../core/words/reader';
import { worseDemo } from '../../../support/worse-demo';
import { aDive, aDiver, aTrip } from '../../../builders/trip';

describe('draftedAhead', () => {
  it('keeps what is done, and of the rest site, start and divers', () => {
    const trip = worseDemo();
    const { trip: drafted, leftOut } = draftedAhead(trip, 10, 'm');
    expect(checkTrip(drafted)).toEqual([]);
    expect(drafted.dives.slice(0, 10)).toEqual(trip.dives.slice(0, 10));
    for (const dive of drafted.dives.slice(10)) {
      const { siteId, startsAt, divers } = trip.dives.find(({ id }) => id === dive.id)!;
      expect(dive).toMatchObject({ siteId, startsAt, ...(divers && { divers }) });
    }
    // An hour at the surface and twenty minutes do not fit between 09:25 and 10:35.
    expect(leftOut.map(({ startsAt }) => startsAt)).toEqual(['2027-03-17T09:25']);
    expect(drafted.dives).toHaveLength(trip.dives.length - 1);
  });

  it('leaves no caution to stop or change about what it drafted', () => {
    const { trip } = draftedAhead(worseDemo(), 10, 'm');
    expect(cautionsOf(ledger(trip)).filter(({ severity }) => severity !== 'know')).toEqual([]);
  });

  it('keeps what is analysed, on board and missed, and a dive that everybody misses', () => {
    const party = [aDiver({ id: 'a' }), aDiver({ id: 'b' })];
    const records = { asDived: [{ o2: 0.3 }], onBoard: ['lean'], notDived: [{ by: 'b' }] };
    const missed = aDive({ id: 'missed', startsAt: '2027-03-06T16:00', notDived: [{}] });
    const trip = aTrip([aDive({ id: 'first', ...records }), missed], { party });
    const { trip: drafted } = draftedAhead(trip, 0, 'm');
    expect(drafted.dives[0]).toMatchObject({ id: 'first', ...records });
    expect(drafted.dives[1]).toBe(missed);
  });

  it('says why a dive found no place', () => {
    const trip = aTrip([aDive({ startsAt: '2027-03-06T20:00' })], { flight: { at: '2027-03-07T06:00' } });
    const { trip: drafted, leftOut } = draftedAhead(trip, 0, 'm');
    expect(drafted.dives).toEqual([]);
    expect(fileWords(leftOut[0]!.reason)).toContain('before the flight');
  });

  it('counts whole feet where depths are in feet', () => {
    const { trip } = draftedAhead(aTrip([aDive({ depthM: 20 })]), 0, 'ft');
    expect(trip.dives[0]!.depthM / 0.3048).toBeCloseTo(Math.round(trip.dives[0]!.depthM / 0.3048), 6);
  });
});
