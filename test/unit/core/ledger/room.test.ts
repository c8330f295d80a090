import { describe, expect, it } from 'vitest';
import { wallMin, wallText } from '../../../../core/words/calendar';
import { ledger } from '../../../../core/ledger/ledger';
import type { Entry, Room } from '../../../../core/ledger/ledger-types';
import { intervalsNeeded, roomMinutes, roomOf } from '../../../../core/ledger/room';
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

  it('never sends a diver deeper to keep it, though more is given off there', () => {
    const careful = [aDiver({ gradient: { low: 0.2, high: 0.36 } })];
    const legs = [
      { depthM: 25, min: 32 },
      { depthM: 4, min: 5 },
    ];
    const past = aDive({ startsAt: '2027-03-06T08:15', depthM: 25, bottomMin: 37, legs });
    const soon = (depthM: number) =>
      lastOf(
        aTrip([past, aDive({ startsAt: '2027-03-06T09:19', depthM, bottomMin: 1, safetyStop: null })], {
          party: careful,
        }),
      );
    const { entry, room } = soon(3);
    expect(entry.isPastLimit).toBe(true);
    expect(soon(6).entry.isPastLimit).toBe(false);
    expect(room).toMatchObject({ m: null, mLimit: 'no-stop' });
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
    const big = [{ ...party[0]!, cylinder: { waterL: 60, fillBar: 350, reserveBar: 50 } }];
    const trip = aTrip([first!, whole], { party: big, mixes: [half] });
    const { entry, room } = lastOf(trip);
    expect(room).toMatchObject({ earlierMin: null, earlierLimit: 'cns' });
    const byLimit = new Map(intervalsNeeded(trip, entry).map(({ limit, min }) => [limit, min]));
    expect(byLimit.get('cns')).toBe(Infinity);
    expect(byLimit.get('cns-day')).toBe(Infinity);
  });

  it('is the surfacing of the dive before where that runs into this one', () => {
    const before = aDive({ startsAt: '2027-05-01T12:00', depthM: 40, bottomMin: 30 });
    const trip = aTrip([before, aDive({ startsAt: '2027-05-01T12:40', depthM: 2, bottomMin: 2 })]);
    const { entry, room } = lastOf(trip);
    expect(entry.intervalMin).toBeLessThan(0);
    expect(room).toMatchObject({ earlierMin: entry.intervalMin, earlierLimit: 'interval' });
  });

  it('is none where what oxygen-rich gas left below rest has risen to it again: the dive is to be had soon or never', () => {
    const rich = { id: 'seventy', o2: 0.7, costPerFill: 0 };
    const air = { id: 'air', o2: 0.21, costPerFill: 0 };
    const breathing = [aDiver({ maxO2: 1, cylinder: { waterL: 60, fillBar: 350, reserveBar: 50 } })];
    const washOut = aDive({ startsAt: '2027-05-01T08:00', depthM: 2, bottomMin: 240, mix: 'seventy' });
    const after = (min: number, bottomMin: number) => {
      const startsAt = wallText(wallMin('2027-05-01T12:00') + min);
      const dives = [washOut, aDive({ startsAt, depthM: 18, bottomMin })];
      return lastOf(aTrip(dives, { party: breathing, mixes: [rich, air] }));
    };
    const fromRest = lastOf(
      aTrip([aDive({ depthM: 18, bottomMin: 30 })], { party: breathing, mixes: [air] }),
    );
    const soonMin = after(5, 30).entry.noStopMin!;
    expect(soonMin).toBeGreaterThan(fromRest.entry.noStopMin! + 2);
    const bottomMin = (soonMin + fromRest.entry.noStopMin!) / 2;
    expect(after(5, bottomMin).room).toMatchObject({ earlierMin: null, earlierLimit: null });
    const late = after(600, bottomMin);
    expect(late.entry.isPastLimit).toBe(true);
    expect(late.room).toMatchObject({ earlierMin: null, earlierLimit: 'no-stop' });
  });
});

describe('room where a limit is passed', () => {
  const half = { id: 'half', o2: 0.5, costPerFill: 0 };
  const gas = { waterL: 60, fillBar: 350, reserveBar: 50 };
  const slow = aDiver({
    maxO2: 0.5,
    po2: { working: 1.6, contingency: 1.6 },
    surfaceRateLpm: 8,
    cylinder: gas,
  });
  const ofHalf = (change: Partial<Dive>) => aDive({ mix: 'half', ...change });
  const oxygenTrip = (...dives: readonly Dive[]) => aTrip(dives, { party: [slow], mixes: [half] });

  it('of a clock is what keeps that clock, stops and all: a straight line left it at more than the whole', () => {
    // Three hours near 1.4 bar: past the CNS clock, and the no-stop limit far longer at 1.4 bar of nitrogen.
    const dive = ofHalf({ depthM: 18, bottomMin: 180 });
    const { entry, room } = lastOf(oxygenTrip(dive));
    expect(entry.cns.after).toBeGreaterThan(1);
    expect(room.minLimit).toBe(entry.noStopMin! < entry.bottomMin + room.min! + 1 ? 'no-stop' : 'cns');
    const at = (byMin: number) => lastOf(oxygenTrip({ ...dive, bottomMin: 180 + byMin })).entry;
    expect(at(room.min! - 1e-4).cns.after).toBeLessThanOrEqual(1);
    expect(at(room.min! - 1e-4).isPastLimit).toBe(false);
    expect(
      Math.max(at(room.min! + 1e-4).cns.after!, at(room.min! + 1e-4).isPastLimit ? 2 : 0),
    ).toBeGreaterThan(1);
  });

  it('of the 24 h clock is exact too', () => {
    const morning = ofHalf({ startsAt: '2027-05-01T06:00', depthM: 17, bottomMin: 110 });
    const dive = ofHalf({ startsAt: '2027-05-01T16:00', depthM: 17, bottomMin: 100 });
    const { entry, room } = lastOf(oxygenTrip(morning, dive));
    expect(entry.cns.day).toBeGreaterThan(1);
    expect(room.minLimit).toBe('cns-day');
    const at = (byMin: number) =>
      lastOf(oxygenTrip(morning, { ...dive, bottomMin: 100 + byMin })).entry.cns.day!;
    expect(at(room.min! - 1e-4)).toBeLessThanOrEqual(1);
    expect(at(room.min! + 1e-4)).toBeGreaterThan(1);
  });

  it('has no minutes where the clock is over before the dive, however short', () => {
    const starts = ['T06:00', 'T09:00', 'T12:00'].map((at) =>
      ofHalf({ startsAt: `2027-05-01${at}`, depthM: 17, bottomMin: 110 }),
    );
    const { entry, room } = lastOf(
      oxygenTrip(...starts, ofHalf({ startsAt: '2027-05-01T15:00', depthM: 17, bottomMin: 44 })),
    );
    expect(entry.cns.day).toBeGreaterThan(1);
    expect(room).toMatchObject({ min: null, minLimit: 'cns-day', m: null, mLimit: 'cns-day' });
  });

  it('has no minutes and no earlier start deeper than the MOD or the diver may go, but the metres', () => {
    const mixes = [{ id: 'rich', o2: 0.36, costPerFill: 0 }];
    const deep = lastOf(
      aTrip(
        [
          aDive({ depthM: 10, bottomMin: 10 }),
          aDive({ startsAt: '2027-03-06T12:00', depthM: 30, bottomMin: 5, mix: 'rich' }),
        ],
        {
          party: [aDiver({ maxO2: 1 })],
          mixes: [...mixes, { id: 'air', o2: 0.21, costPerFill: 0 }],
        },
      ),
    );
    expect(deep.entry.po2Bar).toBeCloseTo(0.36 * 4.01, 1);
    expect(deep.room).toMatchObject({
      min: null,
      minLimit: 'mod',
      mLimit: 'mod',
      earlierMin: null,
      earlierLimit: 'mod',
    });
    expect(deep.room.m).toBeCloseTo(deep.entry.modM! - 30, 9);
    const own = lastOf(aTrip([aDive({ depthM: 30, bottomMin: 5 })], { party: [aDiver({ maxDepthM: 25 })] }));
    expect(own.room).toMatchObject({ min: null, minLimit: 'diver-depth', m: -5, mLimit: 'diver-depth' });
  });

  it('has no metres where a level would have to lie above the water', () => {
    const legs = [
      { depthM: 30, min: 5 },
      { depthM: 8, min: 20 },
    ];
    const at = (maxDepthM: number) =>
      lastOf(aTrip([aDive({ depthM: 30, bottomMin: 25, legs })], { party: [aDiver({ maxDepthM })] })).room;
    expect(at(23)).toMatchObject({ m: -7, mLimit: 'diver-depth' });
    expect(at(22)).toMatchObject({ m: null, mLimit: 'diver-depth' });
  });

  it('names the limit that a dive is past itself, where a dive before left its clocks unknown', () => {
    const mixes = [
      { id: 'hot', o2: 0.6, costPerFill: 0 },
      { id: 'air', o2: 0.21, costPerFill: 0 },
    ];
    const hot = aDive({ startsAt: '2027-03-06T08:00', depthM: 20, bottomMin: 5, mix: 'hot' });
    const then = (change: Partial<Dive>) => {
      const dive = aDive({ startsAt: '2027-03-06T12:00', ...change });
      const trip = aTrip([hot, dive], { party: [aDiver({ maxO2: 1 })], mixes });
      return roomMinutes(trip, lastOf(trip).entry);
    };
    expect(then({ depthM: 20, bottomMin: 5 })).toEqual({ min: null, minLimit: 'po2' });
    expect(then({ depthM: 20, bottomMin: 90 })).toEqual({ min: null, minLimit: 'no-stop' });
    expect(then({ depthM: 45, bottomMin: 5 })).toEqual({ min: null, minLimit: 'diver-depth' });
    expect(then({ depthM: 3, bottomMin: 400 })).toEqual({ min: null, minLimit: 'gas' });
  });
});
