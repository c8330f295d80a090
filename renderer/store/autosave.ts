/**
 * Keeps the open trip: debounced, one write at a time, the newest wins. "Saved" is said once the write has
 * resolved and not before; a failed write is shown and tried again with the next change or by hand.
 */
import type { Host } from '../../core/host';
import { writeTrip } from '../../core/document/write-trip';
import { say } from './notice';
import { desk, type Desk, type Keeping } from './store';

/** Long enough to take a burst of typing as one save, short enough to lose nothing worth naming. */
export const AUTOSAVE_AFTER_MS = 600;

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

function keep(patch: Partial<Keeping>): void {
  desk.setState(({ keeping }) => ({ keeping: { ...keeping, ...patch } }));
}

export function startAutosave(host: Host, afterMs = AUTOSAVE_AFTER_MS): Autosave {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let writing: Promise<void> | null = null;

  /** One write of what is on the desk as it begins; true when it is kept. */
  const writeOnce = async (overwrite: boolean): Promise<boolean> => {
    const { trip, keeping } = desk.getState();
    keep({ writing: true });
    const expected = overwrite || keeping.token === null ? null : keeping.savedAt;
    const result = await host.writeTrip(keeping.token, writeTrip(trip), trip.title, expected);
    if (desk.getState().keeping.token !== keeping.token) {
      // Another trip was opened meanwhile; this save is of the one before and says nothing about it.
      keep({ writing: false });
      return false;
    }
    if (!result.ok) {
      keep({ writing: false, trouble: result.trouble });
      const { token } = keeping;
      if (result.trouble.kind === 'changed' && token !== null) {
        desk.setState({ overlay: { kind: 'changed', token, removed: false } });
      }
      return false;
    }
    const { token, home, savedAt } = result.value;
    keep({ token, home, savedAt, saved: trip, writing: false, trouble: null });
    if (token !== desk.getState().settings.lastTrip) {
      desk.setState(({ settings }) => ({ settings: { ...settings, lastTrip: token } }));
      const kept = await host.saveSettings({ lastTrip: token });
      if (!kept.ok) say({ tone: 'refused', lines: [kept.trouble] });
    }
    return true;
  };

  const flush = async (options: { readonly overwrite?: boolean } = {}): Promise<void> => {
    clearTimeout(timer);
    // Whoever waited before may have begun another round.
    for (let before = writing; before; before = writing) await before;
    const run = async (): Promise<void> => {
      while (isUnsaved(desk.getState()) && (await writeOnce(options.overwrite ?? false)));
    };
    writing = run().finally(() => {
      writing = null;
    });
    await writing;
  };

  const stop = desk.subscribe((now, before) => {
    if (now.trip === before.trip && now.history.mark === before.history.mark) return;
    // A drag is saved when it ends; what was just opened or saved needs no writing.
    if (!now.ready || now.history.mark || !isSomebodysWork(now) || !isUnsaved(now)) return;
    clearTimeout(timer);
    timer = setTimeout(() => void flush(), afterMs);
  });

  return {
    flush,
    stop: () => {
      clearTimeout(timer);
      stop();
    },
  };
}
