import { describe, expect, it } from 'vitest';
import { ledger } from '../../../../../core/ledger/ledger';
import type { MinutesRoom } from '../../../../../core/ledger/room';
import {
  partyFigures,
  roomGrid,
  selectDivesOn,
  selectRoomGrid,
  tightestEntry,
} from '../../../../../renderer/places/party/party-figures';
import {
  selectLedger,
  selectRoomMin,
  selectRooms,
  selectTight,
} from '../../../../../renderer/store/selectors';
import { freshDesk } from '../../../../../renderer/store/store';
import { aDive, aDiver, aTrip } from '../../../../builders/trip';

const careful = aDiver({ id: 'careful', name: 'Guest 2', gradient: { low: 0.4, high: 0.6 } });
const first = aDive({ id: 'first', depthM: 30, bottomMin: 8, mix: 'lean' });
const second = aDive({ id: 'second', startsAt: '2027-03-06T12:00', divers: ['guest-1'] });
const late = aDive({ id: 'late', startsAt: '2027-03-07T12:00', depthM: 15 });
const trip = aTrip([first, second, late], { party: [aDiver(), careful] });
const state = freshDesk(trip);
const roomOf = selectRooms(state);

describe('tightestEntry', () => {
  it('is the entry with the least room, and none where no limit is in reach', () => {
    const { entries } = selectLedger(state).divers[0]!;
    const rooms = entries.map((entry) => selectRoomMin(state)(entry)!);
    expect(tightestEntry(entries, roomOf)).toBe(entries[rooms.indexOf(Math.min(...rooms))]);
    expect(tightestEntry(entries, () => ({ min: null, minLimit: null }))).toBe(null);
    expect(tightestEntry([], roomOf)).toBe(null);
  });

  it('puts a limit passed without a figure before any figure', () => {
    const [one, other] = selectLedger(state).divers[0]!.entries;
    const past = (entry: unknown): MinutesRoom =>
      entry === other ? { min: null, minLimit: 'no-stop' } : { min: -30, minLimit: 'gas' };
    expect(tightestEntry([one!, other!], past)).toBe(other);
  });
});

describe('partyFigures', () => {
  it('marks one diver as the tightest, and whoever flies last', () => {
    const figures = partyFigures(selectLedger(state), roomOf);
    expect(figures.map(({ dives }) => dives)).toEqual([3, 2]);
    expect(figures.map(({ isTightestOfParty }) => isTightestOfParty)).toEqual([false, true]);
    expect(figures.map(({ isLastToFly }) => isLastToFly)).toEqual([false, false]);
    const staggered = ledger({ ...trip, dives: [first, second] });
    expect(partyFigures(staggered, roomOf).map(({ isLastToFly }) => isLastToFly)).toEqual([true, false]);
  });

  it('marks all who are as tight, and counts the further dives that are', () => {
    const twins = [
      aDiver({ surfaceRateLpm: 30 }),
      aDiver({ id: 'twin', name: 'Guest 3', surfaceRateLpm: 30 }),
    ];
    // Limited by gas alone, which does not hang on the dive before: the rooms are the same.
    const shallow = (id: string, startsAt: string) => aDive({ id, startsAt, depthM: 12, bottomMin: 30 });
    const three = [
      shallow('a', '2027-03-06T08:00'),
      shallow('b', '2027-03-07T08:00'),
      shallow('c', '2027-03-08T08:00'),
    ];
    const alike = freshDesk(aTrip(three, { party: twins }));
    const figures = partyFigures(selectLedger(alike), selectRooms(alike));
    expect(figures.map(({ isTightestOfParty }) => isTightestOfParty)).toEqual([true, true]);
    expect(figures.map(({ tightest, alike: more }) => [tightest!.dive.id, more])).toEqual([
      ['a', 2],
      ['a', 2],
    ]);
    expect(selectTight(alike).map(({ dive, diver }) => `${dive.id} ${diver.id}`)).toEqual([
      'a guest-1',
      'a twin',
      'b guest-1',
      'b twin',
      'c guest-1',
      'c twin',
    ]);
  });

  it('has no last to fly among divers who do not dive', () => {
    const idle = partyFigures(ledger({ ...trip, dives: [] }), roomOf);
    expect(idle).toMatchObject([
      { dives: 0, tightest: null, flyAfterMin: null, isLastToFly: false },
      { dives: 0, tightest: null, flyAfterMin: null, isLastToFly: false },
    ]);
  });
});

describe('roomGrid', () => {
  it('has a cell for every diver on every dive, empty where they are not on it', () => {
    const grid = roomGrid(selectLedger(state), trip.dives, roomOf);
    expect(grid.map(({ cells }) => cells.map(({ entry }) => entry?.dive.id ?? null))).toEqual([
      ['first', 'second', 'late'],
      ['first', null, 'late'],
    ]);
  });

  it('marks the tightest of each dive', () => {
    const grid = roomGrid(selectLedger(state), trip.dives, roomOf);
    expect(grid.map(({ cells }) => cells.map(({ isTightest }) => isTightest))).toEqual([
      [false, true, false],
      [true, false, true],
    ]);
    expect(grid[1]!.cells[0]!.roomMin!).toBeLessThan(grid[0]!.cells[0]!.roomMin!);
  });

  it('marks everybody who is as tight, and says by what limit one is past', () => {
    const party = [
      aDiver(),
      aDiver({ id: 'twin', name: 'Guest 3' }),
      aDiver({ id: 'easy', gradient: { low: 0.9, high: 0.95 } }),
    ];
    const rich = aDive({ id: 'rich', depthM: 45, bottomMin: 8, mix: 'rich' });
    const mixes = [...trip.mixes, { id: 'rich', o2: 0.36, costPerFill: 0 }];
    const three = freshDesk(aTrip([late, { ...rich, startsAt: '2027-03-08T12:00' }], { party, mixes }));
    const grid = selectRoomGrid(three, null);
    expect(grid.map(({ cells }) => cells[0]!.isTightest)).toEqual([true, true, false]);
    // What comes after such a dive is not known, and so is nobody's tightest.
    const after = freshDesk(aTrip([rich, { ...late, startsAt: '2027-03-08T12:00' }], { party, mixes }));
    expect(selectRoomGrid(after, null).map(({ cells }) => cells.map(({ isTightest }) => isTightest))).toEqual(
      party.map(() => [true, false]),
    );
    expect(grid.map(({ cells }) => [cells[1]!.isPast, cells[1]!.limit])).toEqual(
      party.map(() => [true, 'po2']),
    );
  });

  it('shows a day alone, and the whole trip where the day has no dive left', () => {
    expect(selectDivesOn(state, '2027-03-06').map(({ id }) => id)).toEqual(['first', 'second']);
    expect(selectDivesOn(state, '2027-03-09')).toBe(trip.dives);
    expect(selectRoomGrid(state, '2027-03-07')[0]!.cells).toHaveLength(1);
    expect(selectRoomGrid(state, '2027-03-07')).toBe(selectRoomGrid(state, '2027-03-07'));
  });
});
