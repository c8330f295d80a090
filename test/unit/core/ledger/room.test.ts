import { describe, expect, it } from 'vitest';
import { wallMin, wallText } from '../../../../core/words/calendar';
import { ledger } from '../../../../core/ledger/ledger';
import type { Entry, Room } from '../../../../core/ledger/ledger-types';
import { earlierByCnsDay, roomOf } from '../../../../core/ledger/room';
import type { Dive, Trip } from '../../../../core/document/types';
import { aDive, aDiver, aTrip } from '../../../builders/trip';

/** The last dive of the only diver, with its room. */
function lastOf(trip: Trip): { readonly entry: Entry; readonly room: Room } {
  const [own] = ledger(trip).divers;
  const entry = own!.entries.at(-1)!;
  return { entry, room: roomOf(trip, entry) };
}

/** The trip with its last dive begun so many minutes sooner, to the minute. */
function sooner(trip: Trip, byMin: number): Trip {
  const last = trip.dives.at(-1)!;
  const startsAt = wallText(wallMin(last.startsAt) - byMin).slice(0, 16);
  return { ...trip, dives: [...trip.dives.slice(0, -1), { ...last, startsAt }] };
}

describe('room of a dive past its limit', () => {
  const party = [
    aDiver({ cylinder: { waterL: 12, fillBar: 200, reserveBar: 50 }, gradient: { low: 0.3, high: 0.7 } }),
  ];

  it('is what it is too long by, and not the gas for stops that a shorter dive would not need', () => {
    const trip = aTrip([aDive({ depthM: 30, bottomMin: 40 })], { party });
    const { entry, room } = lastOf(trip);
    expect(entry.stops!.length).toBeGreaterThan(0);
    expect(room.min).toBeGreaterThan(-40);
    const shorter = (byMin: number) =>
      lastOf(aTrip([aDive({ depthM: 30, bottomMin: 40 + byMin })], { party })).room.min!;
    expect(shorter(room.min! - 0.01)).toBeGreaterThan(0);
    expect(shorter(room.min! + 0.01)).toBeLessThan(0);
  });

  it('has no metres, but the limit, where no depth would do', () => {
    const { room } = lastOf(aTrip([aDive({ depthM: 9, bottomMin: 300 })], { party }));
    expect(room).toMatchObject({ m: null, mLimit: 'gas' });
    expect(lastOf(aTrip([aDive({ depthM: 5, bottomMin: 20 })], { party })).room.mLimit).not.toBeNull();
  });
});

describe('room of a dive of several levels', () => {
  const morning = aDive({ startsAt: '2027-03-06T09:00', depthM: 30, bottomMin: 14 });
  const levelled = (...legs: readonly (readonly [m: number, min: number])[]): Dive =>
    aDive({
      startsAt: '2027-03-06T14:00',
      depthM: Math.max(...legs.map(([m]) => m)),
      bottomMin: legs.reduce((sum, [, min]) => sum + min, 0),
      legs: legs.map(([depthM, min]) => ({ depthM, min })),
    });

  it('has no minutes once an earlier level is past the limit, and metres to go up by where there are any', () => {
    const { entry, room } = lastOf(aTrip([morning, levelled([30, 20], [9, 20], [4, 15])]));
    expect(entry.levelsPastLimitM).toEqual([30]);
    // The last level alone has all the time there is.
    expect(entry.noStopMin === null || entry.noStopMin > entry.bottomMin).toBe(true);
    expect(room).toMatchObject({ min: null, minLimit: 'no-stop', m: null, mLimit: 'no-stop' });
    // Without the shallow last level there are metres to go up by.
    const deep = lastOf(aTrip([morning, levelled([30, 20], [15, 5])]));
    expect(deep.entry.levelsPastLimitM).toEqual([30]);
    expect(deep.room.m).toBeLessThan(0);
  });

  it('ends an earlier start where an earlier level meets its limit', () => {
    const trip = aTrip([morning, levelled([30, 12], [9, 15], [6, 10])]);
    const { room } = lastOf(trip);
    expect(room.earlierLimit).toBe('no-stop');
    expect(lastOf(sooner(trip, Math.floor(room.earlierMin!))).entry.isPastLimit).toBe(false);
    expect(lastOf(sooner(trip, Math.ceil(room.earlierMin! + 0.01))).entry.levelsPastLimitM).toEqual([30]);
  });
});

describe('room in an earlier start', () => {
  // The 24 h clock of 50 % at 17 m fills in three such dives; the single-exposure clock runs down in between.
  const long = (startsAt: string) => aDive({ startsAt, depthM: 17, bottomMin: 80, mix: 'half' });
  const half = { id: 'half', o2: 0.5, costPerFill: 0 };
  const party = [
    aDiver({ maxO2: 0.5, surfaceRateLpm: 8, cylinder: { waterL: 24, fillBar: 300, reserveBar: 50 } }),
  ];
  const tripOf = (...starts: readonly string[]) => aTrip(starts.map(long), { party, mixes: [half] });

  it('ends where the 24 h clock would be full', () => {
    const trip = tripOf('2027-05-01T12:00', '2027-05-01T18:00', '2027-05-02T17:00');
    const { entry, room } = lastOf(trip);
    expect(entry.cns.day).toBeLessThan(1);
    expect(room.earlierLimit).toBe('cns-day');
    expect(lastOf(sooner(trip, Math.floor(room.earlierMin!))).entry.cns.day).toBeLessThanOrEqual(1);
    expect(lastOf(sooner(trip, Math.ceil(room.earlierMin! + 0.02))).entry.cns.day).toBeGreaterThan(1);
  });

  it('is negative where the dive is too soon for it already', () => {
    const trip = tripOf('2027-05-01T12:00', '2027-05-01T18:00', '2027-05-02T08:00');
    const { entry, room } = lastOf(trip);
    expect(entry.cns.day).toBeGreaterThan(1);
    expect(room.earlierLimit).toBe('cns-day');
    expect(room.earlierMin).toBeLessThan(0);
    expect(lastOf(sooner(trip, Math.floor(room.earlierMin!))).entry.cns.day).toBeLessThanOrEqual(1);
  });

  it('has no figure where the dive alone fills it', () => {
    const [first] = tripOf('2027-05-01T12:00').dives;
    const whole = { ...first!, startsAt: '2027-05-01T20:00', bottomMin: 400 };
    const big = [{ ...party[0]!, cylinder: { waterL: 24, fillBar: 300, reserveBar: 50 } }];
    const { room } = lastOf(aTrip([first!, whole], { party: big, mixes: [half] }));
    expect(room.earlierMin).toBeNull();
    expect(room.earlierLimit).not.toBeNull();
    const [own] = ledger(aTrip([first!, whole], { party: big, mixes: [half] })).divers;
    const byDay = earlierByCnsDay(own!.entries[1]!);
    expect(byDay).toEqual({ amount: -Infinity, limit: 'cns-day' });
  });
});
