import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import type { Entry, RoomLimit } from '../../../../core/ledger/ledger-types';
import { roomMinutes, type MinutesRoom } from '../../../../core/ledger/room';
import { isRoomUnknown, isTooLong, roomOrder, tightestOf } from '../../../../core/ledger/tightest';
import { aDive, aDiver, aTrip } from '../../../builders/trip';

const [diver] = ledger(demoTrip()).divers;
const [first, second, third, fourth] = diver!.entries as [Entry, Entry, Entry, Entry];

/** Rooms given entry by entry: minutes to the gas, or the limit that is passed without a figure. */
function rooms(...pairs: readonly (readonly [Entry, number | RoomLimit])[]): (entry: Entry) => MinutesRoom {
  const of = new Map(pairs);
  return (entry) => {
    const room = of.get(entry);
    if (room === undefined) return { min: null, minLimit: null };
    return typeof room === 'number' ? { min: room, minLimit: 'gas' } : { min: null, minLimit: room };
  };
}

describe('tightestOf', () => {
  it('gives the least first, then all that read alike to the whole minute, in order of start', () => {
    const roomOf = rooms([first, 4.9], [second, 5], [third, 4.1], [fourth, 4.5]);
    expect(tightestOf([fourth, second, first, third], roomOf)).toEqual([third, first, fourth]);
  });

  it('keeps a minute and a half apart from it', () => {
    expect(tightestOf([first, second], rooms([first, 5.4], [second, 3.9]))).toEqual([second]);
  });

  it('puts what is past a limit without a figure before any figure, all of them together', () => {
    const roomOf = rooms([first, 'no-stop'], [second, -30], [third, 'mod'], [fourth, 'po2']);
    const hot = { ...fourth, po2Bar: 1.74 };
    const of = (entry: Entry) => (entry === hot ? roomOf(fourth) : roomOf(entry));
    expect(tightestOf([second, hot, third, first], of)).toEqual([hot, first, third]);
  });

  it('is empty where no limit is in reach, or no mix may go', () => {
    expect(tightestOf([first, second], rooms())).toEqual([]);
    expect(tightestOf([], rooms())).toEqual([]);
    expect(tightestOf([{ ...first, isMade: false }], rooms())).toEqual([]);
  });

  it('passes over what is not known, and still finds the least of what is', () => {
    const roomOf = rooms([first, 'po2'], [second, 12], [third, 30]);
    expect(isRoomUnknown(first, 'po2')).toBe(true);
    expect(tightestOf([first, second, third], roomOf)).toEqual([second]);
    expect(tightestOf([first], roomOf)).toEqual([]);
  });

  it('finds the dive at 1.74 bar, or past its limit on arrival, beside one of 84 minutes of room', () => {
    const mixes = [
      { id: 'air', o2: 0.21, costPerFill: 0 },
      { id: 'rich', o2: 0.36, costPerFill: 0 },
    ];
    const easy = aDive({ startsAt: '2027-03-06T08:00', depthM: 10, bottomMin: 20 });
    const hot = aDive({ startsAt: '2027-03-07T08:00', depthM: 38, bottomMin: 5, mix: 'rich' });
    const deep = aDive({ startsAt: '2027-03-06T08:30', depthM: 40, bottomMin: 30 });
    const soon = aDive({ startsAt: '2027-03-06T09:20', depthM: 40, bottomMin: 6 });
    for (const [dives, tight] of [
      [[easy, hot], hot],
      [[deep, soon], soon],
    ] as const) {
      const trip = aTrip(dives, { mixes, party: [aDiver({ maxO2: 1 })] });
      const { entries } = ledger(trip).divers[0]!;
      const roomOf = (entry: Entry) => roomMinutes(trip, entry);
      expect(roomOf(entries[1]!).min).toBeNull();
      expect(tightestOf(entries, roomOf).map(({ dive }) => dive)).toEqual([tight]);
    }
  });
});

describe('roomOrder', () => {
  it('is the minutes, and beyond them where there are none', () => {
    expect(roomOrder(first, { min: 4.5, minLimit: 'gas' })).toBe(4.5);
    expect(roomOrder(first, { min: -3, minLimit: 'gas' })).toBe(-3);
    expect(roomOrder(first, { min: null, minLimit: 'mod' })).toBe(-Infinity);
    expect(roomOrder(first, { min: null, minLimit: null })).toBe(Infinity);
    expect(roomOrder({ isMade: false }, { min: null, minLimit: null })).toBe(Infinity);
  });

  it('calls no dive too long that rounding alone puts past a limit', () => {
    expect([isTooLong(-1e-12), isTooLong(0), isTooLong(-0.001)]).toEqual([false, false, true]);
  });
});

describe('isRoomUnknown', () => {
  it('is where a dive before left the clocks without a figure, and not on the dive above 1.6 bar itself', () => {
    expect(isRoomUnknown({ isMade: true, po2Bar: 1.6 }, 'po2')).toBe(true);
    expect(isRoomUnknown({ isMade: true, po2Bar: 1.61 }, 'po2')).toBe(false);
    expect(isRoomUnknown({ isMade: true, po2Bar: 1.2 }, 'no-stop')).toBe(false);
    expect(isRoomUnknown({ isMade: false, po2Bar: null }, 'po2')).toBe(false);
  });
});
