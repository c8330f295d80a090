/**
 * The desktop's side of the bridge without a window, over a folder: what main answers, by the same door. Bundled with
 * the double of the runtime, so that it can be loaded outside of it.
 */
import type { BrowserWindow } from 'electron';
import { answerCalls } from '../../electron/answer';
import { desktopHandlers } from '../../electron/desktop-host';
import { desktopSettings } from '../../electron/settings';
import { tripFiles } from '../../electron/trip-files';
import { watchTripFiles } from '../../electron/trip-watch';
import { unsavedEdits } from '../../electron/unsaved-edits';
import { callFrom, dialogAnswers, ipcMain } from '../doubles/electron-mini';

export { DiskTrouble } from '../../electron/disk/disk-trouble';
export { schemeAnswer } from '../../electron/scheme';
export { callFrom, desktopSettings, dialogAnswers };

/** Answers all calls over a folder until it is closed. */
export async function startDesktop(folder: string): Promise<{ readonly close: () => void }> {
  const settings = desktopSettings(folder);
  const trips = tripFiles({ folder, recent: settings.recent });
  const watch = await watchTripFiles(trips, () => {});
  const webContents = {
    print: (_: unknown, done: (isDone: boolean, why: string) => void) => done(false, 'cancelled'),
  };
  answerCalls(
    ipcMain as never,
    desktopHandlers({
      window: { webContents } as unknown as BrowserWindow,
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
  return { close: () => watch.close() };
}
