import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ipcMain, type BrowserWindow } from 'electron';
import type { Bridge } from '../../core/host';
import { answerCalls } from '../../electron/answer';
import { noteChannel } from '../../electron/channels';
import { desktopHandlers } from '../../electron/desktop-host';
import { desktopSettings } from '../../electron/settings';
import { tripFiles } from '../../electron/trip-files';
import { unsavedEdits } from '../../electron/unsaved-edits';
import { watchTripFiles } from '../../electron/trip-watch';

import { bridgeHost } from '../../renderer/host/bridge-host';
import { dialogAnswers, exposed, sendNote } from '../doubles/electron-mini';
import { saveOutside } from '../support/save-outside';
import { holdsTheContract } from './host-suite';
import type { Machine } from './machine';

// Lays its bridge as it is loaded.
await import('../../electron/preload');

/** As the runtime calls back. */
const PRINT_OUTCOMES = {
  printed: [true, ''],
  closed: [false, 'Print job canceled'],
  failed: [false, 'Print job failed'],
} as const;

/** The desktop over folders of its own: every call crosses the real preload script and the real door. */
async function machine(): Promise<Machine> {
  const folder = await mkdtemp(join(tmpdir(), 'carryover-desktop-'));
  const elsewhere = await mkdtemp(join(tmpdir(), 'carryover-elsewhere-'));
  let now = Date.now();
  const settings = desktopSettings(folder);
  const trips = tripFiles({ folder, recent: settings.recent, nowMs: () => now });
  const watch = await watchTripFiles(trips, (change) => sendNote(noteChannel('tripChanged'), change));
  let printOutcome: readonly [boolean, string] = [true, ''];
  const print = (_options: object, done: (isPrinted: boolean, reason: string) => void): void =>
    done(...printOutcome);
  answerCalls(
    ipcMain,
    desktopHandlers({
      window: { webContents: { print } } as unknown as BrowserWindow,
      trips,
      unsaved: unsavedEdits(folder),
      watch,
      settings,
      guard: { setGuarded: () => {}, answered: async () => {}, forget: () => {} },
      marks: { showTrip: () => {}, showWork: () => {} },
      onCommands: () => {},
      onAwaitTrips: async () => {},
    }),
  );
  return {
    host: bridgeHost(exposed.get('carryover') as Bridge),
    setNow: (iso) => {
      now = Date.parse(iso);
    },
    willOpen: (file) =>
      void dialogAnswers.push(async () => {
        if (file === null) return { canceled: true, filePaths: [] };
        const path = join(elsewhere, file.name);
        await writeFile(path, file.text);
        return { canceled: false, filePaths: [path] };
      }),
    willPrint: (outcome) => {
      printOutcome = PRINT_OUTCOMES[outcome];
    },
    willSave: (name) => {
      const path = join(elsewhere, name);
      dialogAnswers.push(() => ({ canceled: false, filePath: path }));
      return async () => (name.endsWith('.pdf') ? readFile(path) : readFile(path, 'utf8'));
    },
    changeOutside: async (token, text) => {
      const names = await readdir(trips.libraryFolder);
      const path = names
        .map((name) => join(trips.libraryFolder, name))
        .find((each) => trips.placeAt(each).token === token);
      if (path === undefined) throw new Error(`no file for ${token}`);
      now += 1000;
      await saveOutside(path, text, new Date(now));
    },
    close: async () => {
      watch.close();
      await rm(folder, { recursive: true });
      await rm(elsewhere, { recursive: true });
    },
  };
}

holdsTheContract('the desktop', machine);
