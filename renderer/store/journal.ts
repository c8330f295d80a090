/**
 * Notes down every edit with the host until a save has taken it up, so that a kill costs a keystroke and not
 * what autosave still waits with. Read again by `actions/unsaved` when the trip is next opened.
 */
import type { Host, TripToken } from '../../core/host';
import { writeTrip } from '../../core/document/write-trip';
import type { Trip } from '../../core/document/types';
import { isSomebodysWork, workOf } from './autosave';
import { desk, type Desk } from './store';

/** After the frame that shows the edit, and before the next key. */
export const NOTED_AFTER_MS = 50;

export interface Journal {
  /** Notes down what is not saved now: the window goes, and nothing later may run. */
  readonly noteLast: () => void;
  readonly stop: () => void;
}

/** What is to be noted: work that no save has. A new trip that could not be kept is one, though nobody edited it. */
function unsavedWork(state: Desk): Trip | null {
  const isWork = isSomebodysWork(state) || state.keeping.trouble !== null;
  const work = workOf(state);
  return state.ready && isWork && work !== state.keeping.saved ? work : null;
}

export function startJournal(host: Host, afterMs = NOTED_AFTER_MS): Journal {
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** The trip under which a note stands, and what it says; undefined where none does. */
  let noted:
    | { readonly token: TripToken | null; readonly trip: Trip; readonly savedAt: string | null }
    | undefined;

  const note = (isLast: boolean): void => {
    clearTimeout(timer);
    timer = undefined;
    const state = desk.getState();
    const { token, savedAt } = state.keeping;
    const trip = unsavedWork(state);
    const before = noted;
    if (trip !== null) {
      const isNoted = before?.token === token && before.trip === trip && before.savedAt === savedAt;
      if (isNoted && !isLast) return;
      noted = { token, trip, savedAt };
      // Where it cannot be noted, saving fails as well, and that is told.
      void host.keepUnsaved(token, { text: writeTrip(trip), savedAt }, isLast);
    }
    // It was saved, has another token since, or another trip has taken its place.
    if (before !== undefined && (trip === null || before.token !== token)) {
      if (trip === null) noted = undefined;
      void host.dropUnsaved(before.token);
    }
  };

  const stop = desk.subscribe((now, before) => {
    const isSame =
      now.trip === before.trip && now.history === before.history && now.keeping === before.keeping;
    if (isSame && now.ready === before.ready) return;
    // What was saved is let go of at once: a kill would have it restored over a save that has it already.
    if (noted !== undefined && unsavedWork(now) === null) note(false);
    else if (unsavedWork(now) !== null) timer ??= setTimeout(() => note(false), afterMs);
  });

  return {
    noteLast: () => note(true),
    stop: () => {
      clearTimeout(timer);
      stop();
    },
  };
}
