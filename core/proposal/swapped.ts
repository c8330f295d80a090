import type { Dive, Id, Trip } from '../document/types';

/**
 * The trip with two dives in one another's place: each begins when the other did, and keeps its site, levels, mix and
 * divers. Neither may have been logged.
 * @param trip the document @param oneId @param otherId of two of its dives
 * @returns dives in order of start; whether the trip is valid then is for its check to say
 * Source: choice of this project.
 */
export function swapped(trip: Trip, oneId: Id, otherId: Id): Trip {
  const one = trip.dives.find(({ id }) => id === oneId);
  const other = trip.dives.find(({ id }) => id === otherId);
  if (one === undefined || other === undefined) return trip;
  const moved = (dive: Dive): Dive => {
    if (dive === one) return { ...dive, startsAt: other.startsAt };
    return dive === other ? { ...dive, startsAt: one.startsAt } : dive;
  };
  const dives = trip.dives.map(moved);
  return {
    ...trip,
    dives: dives.toSorted((a, b) => (a.startsAt < b.startsAt ? -1 : a.startsAt > b.startsAt ? 1 : 0)),
  };
}
