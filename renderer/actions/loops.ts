/** Edits of who takes their breathing loop on a dive. */
import { withLoopsOf } from '../../core/document/loops';
import type { Id, OnLoop } from '../../core/document/types';
import { edit, type EditResult } from './edit';

/** Puts a diver on their loop for a dive, or back on open circuit with null; else changes how they dive it. */
export function setOnLoop(diveId: Id, by: Id, patch: Partial<Omit<OnLoop, 'by'>> | null): EditResult {
  return edit({ label: 'Loop of a dive', code: 'dive.loops' }, (trip) => ({
    ...trip,
    dives: trip.dives.map((dive) => {
      if (dive.id !== diveId) return dive;
      if (patch === null) return withLoopsOf(dive, (each) => each !== by);
      const loops = dive.loops ?? [];
      const own = { ...loops.find((each) => each.by === by), by, ...patch };
      return { ...dive, loops: [...loops.filter((each) => each.by !== by), own] };
    }),
  }));
}
