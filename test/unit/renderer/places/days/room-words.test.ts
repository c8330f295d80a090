import { describe, expect, it } from 'vitest';
import type { Entry } from '../../../../../core/trip/ledger-types';
import { roomWords } from '../../../../../renderer/places/days/room-words';
import { demoTrip } from '../../../../../core/trip/demo-trip';
import { selectLedger, selectRoomKey } from '../../../../../renderer/store/selectors';
import { freshDesk } from '../../../../../renderer/store/store';

const trip = demoTrip();

function firstEntry(change: Partial<(typeof trip.dives)[number]>): { entry: Entry; key: number } {
  const [dive, ...rest] = trip.dives;
  const state = freshDesk({ ...trip, dives: [{ ...dive!, ...change }, ...rest] });
  const entry = selectLedger(state).divers[0]!.entries[0]!;
  return { entry, key: selectRoomKey(state)(entry) };
}

describe('roomWords', () => {
  it('gives minutes, rounded to the careful side', () => {
    const { entry, key } = firstEntry({});
    expect(roomWords(entry, key)).toBe(`${Math.floor(key)} min`);
    expect(roomWords(entry, -0.2)).toBe('−1 min');
  });

  it('does not take a limit passed without a figure for no limit', () => {
    // 32 % at 45 m is a PO2 of 1.76 bar, above which no oxygen limit is published.
    const rich = trip.mixes.find(({ o2 }) => o2 === 0.32)!;
    const { entry, key } = firstEntry({ depthM: 45, bottomMin: 8, mix: rich.id });
    expect(entry.po2Bar).toBeGreaterThan(1.6);
    expect(roomWords(entry, key)).toBe('past a limit');
  });

  it('says where no mix may go', () => {
    const { entry, key } = firstEntry({ depthM: 70, bottomMin: 8, mix: 'auto' });
    expect(entry.isMade).toBe(false);
    expect(roomWords(entry, key)).toBe('no mix');
  });
});
