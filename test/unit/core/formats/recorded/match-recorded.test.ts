import { describe, expect, it } from 'vitest';
import { diverNamed, matchRecorded, withRecorded } from '../../../../../core/formats/recorded/match-recorded';
import type { RecordedDive } from '../../../../../core/formats/recorded/recorded-dive';
import { checkTrip } from '../../../../../core/document/check-trip';
import { highTrip } from '../../../../../core/document/high-trip';
import { ledger } from '../../../../../core/ledger/ledger';
import { aDive, aDiver, aTrip } from '../../../../builders/trip';

function recorded(startsAt: string, change: Partial<RecordedDive> = {}): RecordedDive {
  return {
    diver: '',
    site: '',
    startsAt,
    zone: '',
    samples: [
      [0, 0],
      [1, 19],
      [30, 19],
      [32, 0],
    ],
    depthM: 19,
    bottomMin: 30,
    o2: null,
    endBar: null,
    where: 'dive 1',
    remarks: [],
    ...change,
  };
}

const LATE = aDiver({ id: 'late', name: 'Guest  2', group: { name: 'B', afterMin: 20 } });
const TRIP = aTrip(
  [
    aDive({ id: 'a', startsAt: '2027-03-06T08:00' }),
    aDive({ id: 'b', startsAt: '2027-03-06T11:00', divers: ['guest-1'] }),
    aDive({ id: 'c', startsAt: '2027-03-06T14:00' }),
  ],
  { party: [aDiver(), LATE] },
);
const [FIRST] = TRIP.party;

describe('matching', () => {
  it('takes the closest in time first, each dive once', () => {
    const file = [recorded('2027-03-06T08:20'), recorded('2027-03-06T09:00'), recorded('2027-03-06T14:05')];
    expect(matchRecorded(TRIP, FIRST!, file, 0)).toEqual(['a', 'b', 'c']);
  });

  it('leaves out what lies three hours off, and who was not on the dive', () => {
    expect(matchRecorded(TRIP, FIRST!, [recorded('2027-03-06T04:59')], 0)).toEqual([null]);
    expect(matchRecorded(TRIP, LATE, [recorded('2027-03-06T11:00')], 0)).toEqual(['a']);
  });

  it('counts from when the group of the diver enters, and with the clock put right', () => {
    const file = [recorded('2027-03-06T07:20')];
    expect(matchRecorded(TRIP, LATE, file, 60)).toEqual(['a']);
    const taken = withRecorded(TRIP.dives[0]!, 'late', file[0]!, 60, null, ['guest-1', 'late']);
    expect(taken.asDived).toMatchObject([
      { by: 'late', startsAt: '2027-03-06T08:20', depthM: 19, bottomMin: 30 },
    ]);
  });

  it('knows a diver by name whatever the case and blanks', () => {
    expect(diverNamed(TRIP.party, 'guest 2')).toBe('late');
    expect(diverNamed(TRIP.party, 'Guest 3')).toBeNull();
    expect(diverNamed(TRIP.party, '')).toBeNull();
  });
});

describe('what is taken', () => {
  it('fills in start, depth, time, pressure and oxygen, and keeps what was read before', () => {
    const before = { ...TRIP.dives[0]!, asDived: [{ by: 'guest-1', depthM: 25, endBar: 70 }] };
    const taken = withRecorded(before, 'guest-1', recorded('2027-03-06T08:04', { o2: 0.31 }), 0, 0.21, [
      'guest-1',
      'late',
    ]);
    expect(taken.asDived![0]).toMatchObject({
      startsAt: '2027-03-06T08:04',
      depthM: 19,
      endBar: 70,
      o2: 0.31,
    });
    const trip = { ...TRIP, dives: [taken, ...TRIP.dives.slice(1)] };
    expect(checkTrip(trip)).toEqual([]);
    const [entry] = ledger(trip).divers[0]!.entries;
    expect(entry).toMatchObject({ depthM: 19, bottomMin: 30, o2: 0.31, isAsDived: true });
  });

  it('does not call analysed what is only the label again', () => {
    const taken = withRecorded(
      TRIP.dives[0]!,
      'guest-1',
      recorded('2027-03-06T08:00', { o2: 0.21 }),
      0,
      0.21,
      ['guest-1'],
    );
    expect(taken.asDived![0]!.o2).toBeUndefined();
  });

  it('takes depth and time of a dive that is planned on a loop, and of pressure and oxygen nothing', () => {
    const high = highTrip();
    const [dive] = high.dives;
    const ids = high.party.map(({ id }) => id);
    const file = recorded(dive!.startsAt, { o2: 0.31, endBar: 90 });
    const taken = withRecorded(dive!, 'guest3', file, 0, null, ids);
    const own = taken.asDived!.find(({ by }) => by === 'guest3')!;
    expect(own).toMatchObject({ depthM: 19, bottomMin: 30, samples: file.samples });
    expect([own.endBar, own.o2]).toEqual([undefined, undefined]);
    expect(checkTrip({ ...high, dives: [taken, ...high.dives.slice(1)] })).toEqual([]);
    const other = withRecorded(dive!, 'guest2', file, 0, null, ids).asDived!.find(
      ({ by }) => by === 'guest2',
    )!;
    expect([other.endBar, other.o2]).toEqual([90, 0.31]);
  });

  it('takes back that the diver missed the dive', () => {
    const missed = { ...TRIP.dives[0]!, notDived: [{ by: 'guest-1' }] };
    const taken = withRecorded(missed, 'guest-1', recorded('2027-03-06T08:00'), 0, null, ['guest-1', 'late']);
    expect(taken.notDived).toBeUndefined();
  });
});
