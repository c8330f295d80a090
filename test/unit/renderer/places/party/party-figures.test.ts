import { describe, expect, it } from 'vitest';
import { ledger } from '../../../../../core/trip/ledger';
import {
  partyFigures,
  roomGrid,
  selectDivesOn,
  selectRoomGrid,
  tightestOf,
} from '../../../../../renderer/places/party/party-figures';
import { selectLedger, selectRoomKey, selectRoomMin } from '../../../../../renderer/store/selectors';
import { freshDesk } from '../../../../../renderer/store/store';
import { aDive, aDiver, aTrip } from '../../../../builders/trip';

const careful = aDiver({ id: 'careful', name: 'Guest 2', gradient: { low: 0.4, high: 0.6 } });
const first = aDive({ id: 'first', depthM: 30, bottomMin: 8, mix: 'lean' });
const second = aDive({ id: 'second', startsAt: '2027-03-06T12:00', divers: ['guest-1'] });
const late = aDive({ id: 'late', startsAt: '2027-03-07T12:00', depthM: 15 });
const trip = aTrip([first, second, late], { party: [aDiver(), careful] });
const state = freshDesk(trip);
const key = selectRoomKey(state);

describe('tightestOf', () => {
  it('is the entry with the least room, and none where no limit is in reach', () => {
    const { entries } = selectLedger(state).divers[0]!;
    const rooms = entries.map((entry) => selectRoomMin(state)(entry)!);
    expect(tightestOf(entries, key)).toBe(entries[rooms.indexOf(Math.min(...rooms))]);
    expect(tightestOf(entries, () => Number.POSITIVE_INFINITY)).toBe(null);
    expect(tightestOf([], key)).toBe(null);
  });

  it('puts a limit passed without a figure before any figure', () => {
    const [one, other] = selectLedger(state).divers[0]!.entries;
    const past = (entry: unknown): number => (entry === other ? Number.NEGATIVE_INFINITY : -30);
    expect(tightestOf([one!, other!], past)).toBe(other);
  });
});

describe('partyFigures', () => {
  it('marks one diver as the tightest, and whoever flies last', () => {
    const figures = partyFigures(selectLedger(state), key);
    expect(figures.map(({ dives }) => dives)).toEqual([3, 2]);
    expect(figures.map(({ isTightestOfParty }) => isTightestOfParty)).toEqual([false, true]);
    expect(figures.map(({ isLastToFly }) => isLastToFly)).toEqual([false, false]);
    const staggered = ledger({ ...trip, dives: [first, second] });
    expect(partyFigures(staggered, key).map(({ isLastToFly }) => isLastToFly)).toEqual([true, false]);
  });

  it('has no last to fly among divers who do not dive', () => {
    const idle = partyFigures(ledger({ ...trip, dives: [] }), key);
    expect(idle).toMatchObject([
      { dives: 0, tightest: null, flyAfterMin: null, isLastToFly: false },
      { dives: 0, tightest: null, flyAfterMin: null, isLastToFly: false },
    ]);
  });
});

describe('roomGrid', () => {
  it('has a cell for every diver on every dive, empty where they are not on it', () => {
    const grid = roomGrid(selectLedger(state), trip.dives, key, selectRoomMin(state));
    expect(grid.map(({ cells }) => cells.map(({ entry }) => entry?.dive.id ?? null))).toEqual([
      ['first', 'second', 'late'],
      ['first', null, 'late'],
    ]);
  });

  it('marks the tightest of each dive once', () => {
    const grid = roomGrid(selectLedger(state), trip.dives, key, selectRoomMin(state));
    expect(grid.map(({ cells }) => cells.map(({ isTightest }) => isTightest))).toEqual([
      [false, true, false],
      [true, false, true],
    ]);
    expect(grid[1]!.cells[0]!.roomMin!).toBeLessThan(grid[0]!.cells[0]!.roomMin!);
  });

  it('shows a day alone, and the whole trip where the day has no dive left', () => {
    expect(selectDivesOn(state, '2027-03-06').map(({ id }) => id)).toEqual(['first', 'second']);
    expect(selectDivesOn(state, '2027-03-09')).toBe(trip.dives);
    expect(selectRoomGrid(state, '2027-03-07')[0]!.cells).toHaveLength(1);
    expect(selectRoomGrid(state, '2027-03-07')).toBe(selectRoomGrid(state, '2027-03-07'));
  });
});
