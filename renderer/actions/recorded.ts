/** Recorded profiles into the trip: all that are taken at once are one step of undo. */
import { withRecorded } from '../../core/formats/recorded/match-recorded';
import type { RecordedDive } from '../../core/formats/recorded/recorded-dive';
import type { Id } from '../../core/document/types';
import { selectEntriesByDive } from '../store/selectors';
import { desk } from '../store/store';
import { edit, type EditResult } from './edit';

/** A recorded dive, and the dive of the trip that it is. */
export interface Taken {
  readonly diveId: Id;
  readonly recorded: RecordedDive;
}

/** Takes a diver's recorded dives for what they made of those of the trip. */
export function takeRecorded(diverId: Id, taken: readonly Taken[], shiftMin: number): EditResult {
  const entries = selectEntriesByDive(desk.getState());
  const label = taken.length === 1 ? 'Recorded profile' : `${taken.length} recorded profiles`;
  return edit({ label, code: 'day.recorded' }, (trip) => {
    const party = trip.party.map(({ id }) => id);
    const dives = trip.dives.map((dive) => {
      const found = taken.find(({ diveId }) => diveId === dive.id);
      if (!found) return dive;
      const entry = entries.get(dive.id)?.find(({ diver }) => diver.id === diverId);
      return withRecorded(dive, diverId, found.recorded, shiftMin, entry?.o2 ?? null, party);
    });
    return { ...trip, dives };
  });
}
