import { expect, it } from 'vitest';
import { demoTrip } from '../../../../../../core/document/demo-trip';
import type { Trip } from '../../../../../../core/document/types';
import { selectMarked } from '../../../../../../renderer/places/days/strip/marked';
import { freshDesk } from '../../../../../../renderer/store/store';

const withDive = (trip: Trip, id: string, change: Partial<Trip['dives'][number]>): Trip => ({
  ...trip,
  dives: trip.dives.map((dive) => (dive.id === id ? { ...dive, ...change } : dive)),
});

it('is the same object while it marks the same dives, and another once it marks others', () => {
  const trip = demoTrip();
  const before = selectMarked(freshDesk(trip));
  const { id, bottomMin } = trip.dives[0]!;
  expect(before.care.map(([of]) => of)).not.toContain(id);
  expect(selectMarked(freshDesk(withDive(trip, id, { bottomMin: bottomMin - 1 })))).toBe(before);
  const past = selectMarked(freshDesk(withDive(trip, id, { bottomMin: 200 })));
  expect(past).not.toBe(before);
  expect(new Map(past.care).get(id)).toBe('stop');
});

it('marks the cautions of the chosen diver alone, and those of everybody', () => {
  const trip = demoTrip();
  const [first] = trip.party;
  const { id } = trip.dives[0]!;
  const deep = { ...trip, party: trip.party.with(0, { ...first!, maxDepthM: 5 }) };
  const careFor = (diverId: string | null) => {
    const state = { ...freshDesk(deep), selection: { diveIds: [], diverId } };
    return new Map(selectMarked(state).care).get(id);
  };
  expect(careFor(null)).toBe('stop');
  expect(careFor(first!.id)).toBe('stop');
  expect(careFor(trip.party[1]!.id)).toBeUndefined();
});
