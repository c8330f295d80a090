import { edit, type EditResult } from './edit';

/** Gives the trip the id that other programs know it by, where it has none yet. */
export function giveTripId(): EditResult {
  return edit({ label: 'Id for the calendar', code: 'trip.id' }, (trip) =>
    trip.id === undefined ? { ...trip, id: crypto.randomUUID() } : trip,
  );
}
