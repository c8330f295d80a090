/**
 * Keeps the open trip: debounced, but never longer than 2 s after an edit; one write at a time, the newest
 * wins. "Saved" is said once the write has resolved and not before; a failed write is shown and tried again by itself.
 */
import type { Host, HostResult, HostTrouble, StoredTrip, TripToken } from '../../core/host';
import { writeTrip } from '../../core/document/write-trip';
import type { Trip } from '../../core/document/types';
import { say } from './notice';
import { desk, type Desk, type Keeping } from './store';

/** Long enough to take a burst of typing as one save, short enough to lose nothing worth naming. */
export const AUTOSAVE_AFTER_MS = 600;

/** However long the edits go on. */
export const LONGEST_WAIT_MS = 2000;

/** Between one try and the next where writing fails; the last pause holds from then on. */
export const RETRY_AFTER_MS = [2000, 5000, 15_000, 30_000, 60_000] as const;

/** What another try may mend: room that is made, a disk that comes back. */
const WORTH_ANOTHER_TRY: ReadonlySet<HostTrouble['kind']> = new Set(['full', 'not-writable', 'not-readable']);

export interface Autosave {
  /** Writes what is unsaved now and resolves when the newest is kept or a write has failed. */
  readonly flush: (options?: { readonly overwrite?: boolean }) => Promise<void>;
  readonly stop: () => void;
}

/** A trip nobody has changed and nobody has kept (the demo, a blank one) is not written by itself. */
export function isSomebodysWork({ keeping, history }: Desk): boolean {
  return keeping.token !== null || history.past.length > 0;
}

export function isUnsaved({ trip, keeping }: Desk): boolean {
  return trip !== keeping.saved;
}

/** The trip as it is to be kept: a gesture under way is nobody's work until it ends. */
export function workOf({ trip, history }: Desk): Trip {
  return history.mark?.trip ?? trip;
}

/** Whether there is something to write; before the last trip is there, what stands on the desk is nobody's. */
function isUnkept(state: Desk): boolean {
  return state.ready && workOf(state) !== state.keeping.saved;
}

/** What went wrong where the machine did not even answer: a fault of ours, and the trip is still on screen. */
function notAnswered(error: unknown): HostResult<never> {
  const reason = error instanceof Error ? error.message : String(error);
  return {
    ok: false,
    trouble: {
      kind: 'not-writable',
      what: `A fault of Carryover kept the trip from being saved (${reason}).`,
      where: 'this window',
      mend: 'Save a copy as a file, then load the window again.',
    },
  };
}

function keep(patch: Partial<Keeping>): void {
  desk.setState(({ keeping }) => ({ keeping: { ...keeping, ...patch } }));
}

export function startAutosave(host: Host, afterMs = AUTOSAVE_AFTER_MS): Autosave {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let writing: Promise<void> | null = null;
  /** When the oldest edit was made that no write has taken up yet. */
  let sinceMs: number | null = null;
  let failures = 0;

  const arm = (delayMs: number): void => {
    clearTimeout(timer);
    timer = setTimeout(() => void flush(), delayMs);
  };

  const failed = (trouble: HostTrouble): void => {
    keep({ writing: false, trouble });
    const { token } = desk.getState().keeping;
    if ((trouble.kind === 'changed' || trouble.kind === 'not-found') && token !== null) {
      desk.setState({ overlay: { kind: 'changed', token, removed: trouble.kind === 'not-found' } });
    }
    if (!WORTH_ANOTHER_TRY.has(trouble.kind)) return;
    // An edit made meanwhile comes sooner.
    if (sinceMs === null) arm(RETRY_AFTER_MS[Math.min(failures, RETRY_AFTER_MS.length - 1)]!);
    failures += 1;
  };

  /** Saved is what is found again: that this is the last trip is kept before a save is said to be done. */
  const remember = async (token: TripToken): Promise<void> => {
    if (token === desk.getState().settings.lastTrip) return;
    desk.setState(({ settings }) => ({ settings: { ...settings, lastTrip: token } }));
    const kept = await host.saveSettings({ lastTrip: token });
    if (!kept.ok) say({ tone: 'refused', lines: [kept.trouble] });
  };

  /** One write of what is on the desk as it begins; true when it is kept. */
  const writeOnce = async (overwrite: boolean): Promise<boolean> => {
    const { keeping } = desk.getState();
    const trip = workOf(desk.getState());
    sinceMs = null;
    keep({ writing: true });
    const expected = overwrite || keeping.token === null ? null : keeping.savedAt;
    const result: HostResult<StoredTrip> = await host
      .writeTrip(keeping.token, writeTrip(trip), trip.title, expected)
      .catch(notAnswered);
    if (result.ok && desk.getState().keeping.token === keeping.token) await remember(result.value.token);
    if (desk.getState().keeping.token !== keeping.token) {
      // Another trip was opened meanwhile; this save is of the one before and says nothing about it.
      keep({ writing: false });
      return false;
    }
    if (!result.ok) {
      failed(result.trouble);
      return false;
    }
    failures = 0;
    const { token, home, savedAt } = result.value;
    keep({ token, home, savedAt, saved: trip, writing: false, trouble: null });
    return true;
  };

  const flush = async (options: { readonly overwrite?: boolean } = {}): Promise<void> => {
    clearTimeout(timer);
    // Whoever waited before may have begun another round.
    for (let before = writing; before; before = writing) await before;
    const run = async (): Promise<void> => {
      while (isUnkept(desk.getState()) && (await writeOnce(options.overwrite ?? false)));
    };
    writing = run().finally(() => {
      writing = null;
    });
    await writing;
  };

  const stop = desk.subscribe((now, before) => {
    const isSame =
      now.trip === before.trip && now.history.mark === before.history.mark && now.ready === before.ready;
    // A drag is saved when it ends; what was just opened or saved needs no writing.
    if (isSame || now.history.mark || !isSomebodysWork(now) || !isUnkept(now)) return;
    sinceMs ??= performance.now();
    arm(Math.max(0, Math.min(afterMs, sinceMs + LONGEST_WAIT_MS - performance.now())));
  });

  return {
    flush,
    stop: () => {
      clearTimeout(timer);
      stop();
    },
  };
}
