import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../../../../core/cautions/all';
import type { Trip } from '../../../../../core/document/types';
import { ledger } from '../../../../../core/ledger/ledger';
import { mendings } from '../../../../../core/proposal/mend/proposals';
import { FULL_REACH } from '../../../../../core/proposal/mend/moves';
import { USUAL_REQUEST } from '../../../../../core/proposal/mend/request';
import { FILE_READER, wordsOf } from '../../../../../core/words/reader';
import { worseDemo } from '../../../../support/worse-demo';
import { aDive, aDiver, aTrip } from '../../../../builders/trip';

/** A dive too long for its depth, and one too soon after it: quickly mended. */
const TIGHT = aTrip([
  aDive({ depthM: 24, bottomMin: 30 }),
  aDive({ startsAt: '2027-03-06T09:10', depthM: 20, bottomMin: 25 }),
]);

const UNDERWAY = { ...USUAL_REQUEST, doneCount: 10 };

describe('mendings', () => {
  it('tells each kind once, with what each keeps to', () => {
    const trip = worseDemo();
    const { proposals, none } = mendings(trip, UNDERWAY);
    expect(none).toEqual([]);
    expect(proposals.map(({ kind, cost, atLeast }) => [kind, cost, atLeast])).toEqual([
      ['best', 11, 11],
      ['times', 37, 37],
      ['depths', 16, 16],
      ['party', 11, 11],
    ]);
    for (const { trip: mended } of proposals) {
      expect(cautionsOf(ledger(mended)).filter(({ severity }) => severity !== 'know')).toEqual([]);
      expect(mended.dives.slice(0, 10)).toEqual(trip.dives.slice(0, 10));
    }
    const [, times, depths] = proposals.map((each) => each.trip.dives);
    expect(times!.map(({ startsAt }) => startsAt)).toEqual(trip.dives.map(({ startsAt }) => startsAt));
    expect(depths!.map(({ depthM }) => depthM)).toEqual(trip.dives.map(({ depthM }) => depthM));
  });

  it('says how far it is, without ever going back', () => {
    const told: [number, number][] = [];
    mendings(TIGHT, USUAL_REQUEST, (done, total) => told.push([done, total]));
    expect(told.length).toBeGreaterThan(4);
    expect(told.at(-1)![0]).toBe(told.at(-1)![1]);
    expect(told.every(([done], i) => i === 0 || done >= told[i - 1]![0])).toBe(true);
  });

  it('leaves the room that is asked for on each dive it changes', () => {
    const [best] = mendings(TIGHT, { ...USUAL_REQUEST, leastRoomMin: 4 }).proposals;
    const [change] = best!.changes;
    expect(change!.before.room!.min).toBeLessThan(0);
    expect(change!.after!.room!.min).toBeGreaterThanOrEqual(4 - 1e-6);
  });

  it('shortens a dive that its safety stop alone takes past the limit', () => {
    const careful = {
      party: [aDiver({ gradient: { low: 0.3, high: 0.3 } })],
      water: { density: 'gauge' as const, altitudeM: 2000 },
    };
    const shallow = aDive({ depthM: 6.1, safetyStop: { depthM: 6, min: 10 } });
    const at = (bottomMin: number): Trip => aTrip([{ ...shallow, bottomMin }], careful);
    const trip = at(Math.floor(ledger(at(10)).divers[0]!.entries[0]!.noStopMin!));
    expect(ledger(trip).divers[0]!.entries[0]!.isPastLimit).toBe(false);
    const toChange = (of: Trip) => cautionsOf(ledger(of)).filter(({ severity }) => severity !== 'know');
    expect(toChange(trip).map(({ code }) => code)).toEqual(['stop-takes-up']);
    const { proposals } = mendings(trip, USUAL_REQUEST);
    expect(proposals.length).toBeGreaterThan(0);
    for (const each of proposals) expect(toChange(each.trip)).toEqual([]);
  });

  it('tells what is proved apart from what was found, once the effort is spent', () => {
    const ofBest = (mostTried: number) =>
      mendings(TIGHT, { ...USUAL_REQUEST, mostTried }).proposals.find(({ kind }) => kind === 'best')!;
    const { cost } = ofBest(USUAL_REQUEST.mostTried);
    const spent = ofBest(1);
    expect(spent.cost).toBeGreaterThanOrEqual(cost);
    expect(spent.atLeast).toBeLessThanOrEqual(cost);
    expect(spent.atLeast).toBeLessThanOrEqual(spent.cost);
  });

  const words = wordsOf(FILE_READER);
  const flying = (at: string) => ({ flight: { at } });

  it('says that the flight is too soon after what is done, whatever is changed', () => {
    const trip = aTrip(
      [aDive({ startsAt: '2027-03-06T16:00' }), aDive({ startsAt: '2027-03-07T08:00' })],
      flying('2027-03-07T02:00'),
    );
    const { proposals, none } = mendings(trip, { ...USUAL_REQUEST, doneCount: 1 });
    expect(proposals).toEqual([]);
    expect(none).toHaveLength(4);
    for (const { because } of none) {
      expect(words(because)).toBe(
        'No set of these moves does, because the flight leaves too soon after the dives that are done.',
      );
    }
  });

  it('says of a kind that has none why, where the others have one', () => {
    const trip = aTrip([aDive({ startsAt: '2027-03-06T16:00' })], flying('2027-03-07T02:00'));
    const { proposals, none } = mendings(trip, USUAL_REQUEST);
    expect(proposals.map(({ kind, cost }) => [kind, cost])).toEqual([
      ['best', 150],
      ['times', 150],
      ['depths', 150],
    ]);
    expect(none.map(({ kind, because }) => [kind, words(because)])).toEqual([
      [
        'party',
        'No set of these moves does, because the flight leaves too soon after the dives of 2027-03-06, however short they are.',
      ],
    ]);
  });

  it('names the dive that less than an hour is left before, or that passes a limit however it is made', () => {
    const late = [aDive({ startsAt: '2027-03-06T23:00' }), aDive({ startsAt: '2027-03-06T23:25' })];
    const [party] = mendings(aTrip(late), USUAL_REQUEST).none;
    expect(words(party!.because)).toContain('less than an hour is left before the dive of 2027-03-06T23:25');
    const small = aDiver({ cylinder: { waterL: 1, fillBar: 60, reserveBar: 50 } });
    const [gas] = mendings(aTrip([aDive()], { party: [small] }), USUAL_REQUEST).none;
    expect(words(gas!.because)).toContain('the dive of 2027-03-06T08:00 passes a limit even as shallow');
  });

  describe('of one dive', () => {
    const ofDive = (trip: Trip, onlyDiveId: string) => mendings(trip, { ...USUAL_REQUEST, onlyDiveId });
    /** Two dives on two days, each too long for its depth. */
    const both = aTrip([
      aDive({ id: 'first', depthM: 24, bottomMin: 30 }),
      aDive({ id: 'second', startsAt: '2027-03-07T09:00', depthM: 24, bottomMin: 30 }),
      aDive({ id: 'third', startsAt: '2027-03-08T09:00', depthM: 12, bottomMin: 30 }),
    ]);

    it('mends its own cautions and leaves those of the others', () => {
      const { toMend, proposals } = ofDive(both, 'second');
      expect(new Set(toMend.map(({ diveId }) => diveId))).toEqual(new Set(['second']));
      expect(proposals).toHaveLength(4);
      for (const { trip, changes, atLeast, cost } of proposals) {
        expect(changes.map(({ diveId }) => diveId)).toEqual(['second']);
        expect(atLeast).toBe(cost);
        const left = cautionsOf(ledger(trip)).filter(({ severity }) => severity !== 'know');
        expect(new Set(left.map(({ diveId }) => diveId))).toEqual(new Set(['first']));
      }
    });

    it('says so where any mending brings a caution on the next dive', () => {
      // The second enters within the hour already if the first starts any later, and the first may only start later.
      const tight = aTrip([
        aDive({ id: 'zero', startsAt: '2027-03-06T07:00', depthM: 12, bottomMin: 30 }),
        aDive({ id: 'first', startsAt: '2027-03-06T08:30', depthM: 12, bottomMin: 30 }),
        aDive({ id: 'second', startsAt: '2027-03-06T10:05', depthM: 12, bottomMin: 30 }),
      ]);
      const reach = { ...FULL_REACH, shallower: 0, shorter: 0, mix: false, leaveOut: false, drop: false };
      const { proposals, none } = mendings(tight, { ...USUAL_REQUEST, reach, onlyDiveId: 'first' });
      expect(proposals).toEqual([]);
      expect(words(none[0]!.because)).toBe(
        'No set of these moves does, because each brings a caution on a dive that is not to be changed.',
      );
    });

    it('keeps a flight that leaves too soon out of it, and brings none on that was in time', () => {
      const late = { ...both, flight: { at: '2027-03-08T12:00' } };
      const { proposals } = ofDive(late, 'second');
      expect(proposals[0]!.changes.map(({ diveId }) => diveId)).toEqual(['second']);
      expect(proposals[0]!.trip.flight).toEqual(late.flight);
    });

    it('has nothing to say of a dive without cautions', () => {
      expect(ofDive(both, 'third')).toMatchObject({ toMend: [], proposals: [], none: [] });
    });
  });

  it('enters each group at its own time', () => {
    const trip = aTrip(
      [
        aDive({ id: 'first' }),
        aDive({ id: 'second', startsAt: '2027-03-06T09:20', depthM: 12, bottomMin: 20 }),
      ],
      {
        party: [aDiver({ group: { name: 'Second boat', afterMin: 30 } })],
        flight: { at: '2027-03-07T04:00' },
      },
    );
    const { proposals } = mendings(trip, USUAL_REQUEST);
    for (const { trip: mended } of proposals)
      expect(cautionsOf(ledger(mended)).filter(({ severity }) => severity !== 'know')).toEqual([]);
  });

  it('leaves out who may not dive the site', () => {
    const sites = [
      { id: 'wall', name: 'Wall', depthM: 40, notes: '', notFor: { certifications: ['open water'] } },
    ];
    const trip = aTrip([aDive()], {
      sites,
      party: [aDiver({ id: 'a' }), aDiver({ id: 'b' }), aDiver({ id: 'c', certification: 'Open water' })],
    });
    const [best] = mendings(trip, USUAL_REQUEST).proposals;
    expect(best).toMatchObject({ cost: 40, trip: { dives: [{ divers: ['a', 'b'] }] } });
  });

  it('has nothing to say of a trip without cautions ahead', () => {
    expect(mendings(aTrip([aDive()]), USUAL_REQUEST)).toMatchObject({ toMend: [], proposals: [], none: [] });
  });
});
