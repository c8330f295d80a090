/** Recorded profiles into the trip: all that are taken at once are one step of undo. */
import { startedMin, withRecorded } from '../../core/formats/recorded/match-recorded';
import type { RecordedDive } from '../../core/formats/recorded/recorded-dive';
import type { Dive, Id } from '../../core/document/types';
import { wallText } from '../../core/words/calendar';
import { selectEntriesByDive } from '../store/selectors';
import { desk } from '../store/store';
import { inOrder } from './dives';
import { edit, type EditResult } from './edit';
import { freeId } from './ids';

/** What a recorded dive is of the trip: one of its dives, or one at a site that nobody had planned. */
export type RecordedAs = { readonly diveId: Id } | { readonly siteId: Id };

/** A recorded dive, and what it is. */
export interface Taken {
  readonly as: RecordedAs;
  readonly recorded: RecordedDive;
}

/** Takes a diver's recorded dives for what they made of those of the trip. */
export function takeRecorded(diverId: Id, taken: readonly Taken[], shiftMin: number): EditResult {
  const entries = selectEntriesByDive(desk.getState());
  const label = taken.length === 1 ? 'Recorded profile' : `${taken.length} recorded profiles`;
  return edit({ label, code: 'day.recorded' }, (trip) => {
    const party = trip.party.map(({ id }) => id);
    const dives = trip.dives.map((dive) => {
      const found = taken.find(({ as }) => 'diveId' in as && as.diveId === dive.id);
      if (!found) return dive;
      const entry = entries.get(dive.id)?.find(({ diver }) => diver.id === diverId);
      return withRecorded(dive, diverId, found.recorded, shiftMin, entry?.o2 ?? null, party);
    });
    const added: Dive[] = [];
    for (const { as, recorded } of taken) {
      if ('diveId' in as) continue;
      const { depthM, bottomMin } = recorded;
      const dive: Dive = {
        id: freeId('d', [...dives, ...added]),
        siteId: as.siteId,
        startsAt: wallText(startedMin(recorded, shiftMin)),
        depthM,
        bottomMin,
        mix: 'auto',
        added: true,
        // The record tells of one diver alone.
        divers: [diverId],
      };
      added.push(withRecorded(dive, diverId, recorded, shiftMin, null, party));
    }
    return { ...trip, dives: inOrder([...dives, ...added]) };
  });
}
