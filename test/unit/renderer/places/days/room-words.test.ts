import { describe, expect, it } from 'vitest';
import type { Entry, RoomLimit } from '../../../../../core/ledger/ledger-types';
import { roomWords } from '../../../../../renderer/places/days/room-words';
import { demoTrip } from '../../../../../core/document/demo-trip';
import {
  selectLedger,
  selectRoomKey,
  selectRoomLimit,
  selectStanding,
  selectTight,
} from '../../../../../renderer/store/selectors';
import { freshDesk } from '../../../../../renderer/store/store';

const trip = demoTrip();

function firstEntry(change: Partial<(typeof trip.dives)[number]>): {
  entry: Entry;
  key: number;
  limit: RoomLimit | null;
} {
  const [dive, ...rest] = trip.dives;
  const state = freshDesk({ ...trip, dives: [{ ...dive!, ...change }, ...rest] });
  const entry = selectLedger(state).divers[0]!.entries[0]!;
  return { entry, key: selectRoomKey(state)(entry), limit: selectRoomLimit(state)(entry) };
}

describe('roomWords', () => {
  it('gives minutes, rounded to the careful side', () => {
    const { entry, key, limit } = firstEntry({});
    expect(roomWords(entry, key, limit)).toBe(`${Math.floor(key)} min`);
    expect(roomWords(entry, -0.2, limit)).toBe('−1 min');
  });

  it('names a limit passed without a figure, and does not take it for none', () => {
    // 32 % at 45 m is a PO2 of 1.76 bar, above which no oxygen limit is published.
    const rich = trip.mixes.find(({ o2 }) => o2 === 0.32)!;
    const { entry, key, limit } = firstEntry({ depthM: 45, bottomMin: 8, mix: rich.id });
    expect(entry.po2Bar).toBeGreaterThan(1.6);
    expect(roomWords(entry, key, limit)).toBe('past the PO2 limit');
  });

  it('does not say of a dive after such a one that it is past a limit itself, nor that it is as tight', () => {
    const rich = trip.mixes.find(({ o2 }) => o2 === 0.32)!;
    const [dive, ...rest] = trip.dives;
    const past = { ...dive!, depthM: 45, bottomMin: 8, mix: rich.id };
    const state = freshDesk({ ...trip, dives: [past, ...rest] });
    const [, after] = selectLedger(state).divers[0]!.entries;
    const words = roomWords(after!, selectRoomKey(state)(after!), selectRoomLimit(state)(after!));
    expect(words).toBe('CNS not known');
    expect(selectStanding(state).past).toEqual([past.id]);
    expect(selectTight(state)).toEqual([]);
  });

  it('says where no mix may go', () => {
    const { entry, key, limit } = firstEntry({ depthM: 70, bottomMin: 8, mix: 'auto' });
    expect(entry.isMade).toBe(false);
    expect(roomWords(entry, key, limit)).toBe('no mix');
  });
});
