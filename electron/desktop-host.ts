/** What the desktop answers to each call of the window: dialogs here, trips and settings in their own files. */
import * as nodeFs from 'node:fs/promises';
import { basename, extname, isAbsolute } from 'node:path';
import { dialog, shell, type BrowserWindow, type OpenDialogOptions } from 'electron';
import { CITED_HOSTS } from '../core/cited-hosts';
import type { HostResult, HostTrouble, MenuCommand } from '../core/host';
import { peekTrip, slugOf, TRIP_EXTENSION } from '../core/library';
import { aboutDesktop } from './about';
import { attempt, type Handlers } from './answer';
import type { CloseGuard } from './close-guard';
import { writeAtomically } from './disk/atomic-write';
import { readImport } from './disk/disk';
import { DiskTrouble } from './disk/disk-trouble';
import { printPages } from './print';
import type { DesktopSettings } from './settings';
import type { TripFiles } from './trip-files';
import type { TripWatch } from './trip-watch';
import type { UnsavedEdits } from './unsaved-edits';
import type { WindowMarks } from './window-marks';

export interface DesktopParts {
  readonly window: BrowserWindow;
  readonly trips: TripFiles;
  readonly unsaved: UnsavedEdits;
  readonly watch: TripWatch;
  readonly settings: DesktopSettings;
  readonly guard: CloseGuard;
  readonly marks: WindowMarks;
  readonly onCommands: (commands: readonly MenuCommand[]) => void;
  readonly onAwaitTrips: () => Promise<void>;
}

const TRIP_FILTERS = [{ name: 'Carryover trips', extensions: [TRIP_EXTENSION, 'json'] }];

/** The handlers of every call, over one window and its parts. */
export function desktopHandlers(parts: DesktopParts): Handlers {
  const { window, trips, unsaved, watch, settings, guard } = parts;

  const askForFile = async (options: OpenDialogOptions): Promise<string | null> => {
    const { canceled, filePaths } = await dialog.showOpenDialog(window, {
      ...options,
      properties: ['openFile'],
    });
    return canceled ? null : (filePaths[0] ?? null);
  };

  /**
   * Asks where to save. Not every system's dialog adds the ending (that of Linux adds none, and the
   * documentation promises it of no system): where it was added here, the name that the dialog asked about
   * was another one, so a file that bears the whole name is asked about here.
   */
  const askForPlace = async (suggestedName: string, extension: string): Promise<string | null> => {
    let defaultPath = withExtension(suggestedName, extension);
    for (;;) {
      // One dialog after the other, until a name is chosen or nothing is to be saved.
      // oxlint-disable-next-line no-await-in-loop
      const { canceled, filePath } = await dialog.showSaveDialog(window, {
        defaultPath,
        filters: [{ name: `.${extension}`, extensions: [extension] }],
        properties: ['createDirectory', 'showOverwriteConfirmation'],
      });
      if (canceled || filePath === '') return null;
      const path = withExtension(filePath, extension);
      // oxlint-disable-next-line no-await-in-loop
      if (path === filePath || (await mayReplace(window, path))) return path;
      defaultPath = path;
    }
  };

  /** Where the last document went; null until one was saved. */
  let savedPath: string | null = null;

  return {
    listTrips: () => attempt(() => trips.list()),
    readTrip: (token) =>
      attempt(async () => {
        const trip = await trips.read(token);
        // Also the one that is read as the window starts, which nobody has chosen in a dialog since.
        const path = await trips.pathOf(token);
        if (path !== undefined) await watch.alsoFile(path);
        return trip;
      }),
    writeTrip: (token, text, title, expected) => attempt(() => trips.write(token, text, title, expected)),
    removeTrip: (token) => attempt(async () => nothing(await trips.remove(token))),
    listVersions: (token) => attempt(() => trips.versions(token)),
    readVersion: (token, version) => attempt(() => trips.version(token, version)),

    keepUnsaved: (token, noted) => attempt(async () => nothing(await unsaved.keep(token, noted))),
    readUnsaved: (token) => attempt(() => unsaved.read(token)),
    dropUnsaved: (token) => attempt(async () => nothing(await unsaved.drop(token))),

    openTrip: () =>
      attempt(async () => {
        const path = await askForFile({ title: 'Open a trip', filters: TRIP_FILTERS });
        if (path === null) return null;
        const trip = await trips.openAt(path);
        await watch.alsoFile(path);
        return trip;
      }),

    // Nothing that is no trip is handed out, whatever path a page brings.
    openDroppedAt: (path) =>
      attempt(async () => {
        if (!isAbsolute(path)) throw new DiskTrouble(noPlace());
        const trip = await trips.openAt(path);
        const peek = peekTrip(trip.text);
        if (!peek.ok) throw new DiskTrouble(noTrip(basename(path), peek.reason));
        await watch.alsoFile(path);
        return trip;
      }),

    saveTripAs: (text, suggestedName) =>
      attempt(async () => {
        const path = await askForPlace(slugOf(suggestedName), TRIP_EXTENSION);
        if (path === null) return null;
        const trip = await trips.writeAt(path, text);
        await watch.alsoFile(path);
        return trip;
      }),

    saveDocument: (bytes, suggestedName) =>
      attempt(async () => {
        const name = basename(suggestedName);
        const path = await askForPlace(name, extname(name).slice(1).toLowerCase());
        if (path === null) return null;
        await writeAtomically(nodeFs, { path, content: bytes, nowMs: Date.now() });
        savedPath = path;
        return basename(path);
      }),

    // The window names no path: shown is what this process wrote last, while it is there.
    showSaved: () =>
      attempt(async () => {
        if (savedPath === null) throw new DiskTrouble(notSaved());
        const path = savedPath;
        await nodeFs.lstat(path).catch(() => {
          throw new DiskTrouble(goneSince(basename(path)));
        });
        shell.showItemInFolder(path);
        return null;
      }),

    printPages: (paper) => attempt(async () => nothing(await printPages(window.webContents, paper))),

    openText: () =>
      attempt(async () => {
        const path = await askForFile({ title: 'Choose a text file to import' });
        if (path === null) return null;
        return { name: basename(path), text: await readImport(nodeFs, path) };
      }),

    loadSettings: () => attempt(() => settings.load()),
    saveSettings: (patch) => attempt(() => nothing(settings.save(patch))),
    openSource: (url) => openSource(window, url),
    about: async () => aboutDesktop(),

    reportTrip: async ({ token, isEdited }) => {
      parts.marks.showTrip(token === null ? undefined : await trips.pathOf(token), isEdited);
      return null;
    },
    reportWork: async (share) => nothing(parts.marks.showWork(share)),
    offerCommands: async (commands) => nothing(parts.onCommands(commands)),
    awaitTrips: async () => nothing(await parts.onAwaitTrips()),
    guardClose: async (isGuarded) => nothing(guard.setGuarded(isGuarded)),
    closeAnswered: async (failure) => nothing(await guard.answered(failure)),
  };
}

function notSaved(): HostTrouble {
  return {
    kind: 'not-found',
    what: 'No document was saved yet.',
    where: 'the last document',
    mend: 'Save one first.',
  };
}

function noPlace(): HostTrouble {
  return {
    kind: 'not-readable',
    what: 'What was dropped is no file of this computer.',
    where: 'the dropped file',
    mend: 'Save it first, then open it from there.',
  };
}

function noTrip(name: string, reason: string): HostTrouble {
  return { kind: 'not-readable', what: reason, where: name, mend: 'Drop a trip file, or a list of sites.' };
}

function goneSince(name: string): HostTrouble {
  return {
    kind: 'not-found',
    what: `“${name}” is no longer where it was saved.`,
    where: name,
    mend: 'It was moved or removed since; save it again.',
  };
}

/** True where nothing stands at a place, or the user says that it may go. */
async function mayReplace(window: BrowserWindow, path: string): Promise<boolean> {
  const isFree = await nodeFs.lstat(path).then(
    () => false,
    () => true,
  );
  if (isFree) return true;
  const { response } = await dialog.showMessageBox(window, {
    type: 'question',
    message: `There is a “${basename(path)}” already. Replace it?`,
    detail: 'What is in it now is lost.',
    buttons: ['Replace it', 'Choose another name'],
    defaultId: 1,
    cancelId: 1,
  });
  return response === 0;
}

/** Opens one of the cited sources in the user's browser: asked first, and the address as it was parsed. */
async function openSource(window: BrowserWindow, url: string): Promise<HostResult<null>> {
  const cited = URL.canParse(url) ? new URL(url) : null;
  if (cited === null || cited.protocol !== 'https:' || !CITED_HOSTS.includes(cited.host)) {
    return {
      ok: false,
      trouble: {
        kind: 'refused',
        what: 'This address is none of the sources the app cites.',
        where: url,
        mend: 'Open it in a browser of your own, if you trust it.',
      },
    };
  }
  const { response } = await dialog.showMessageBox(window, {
    type: 'question',
    message: 'Open this source in your browser?',
    detail: cited.href,
    buttons: ['Open', 'Cancel'],
    defaultId: 0,
    cancelId: 1,
  });
  if (response === 0) await shell.openExternal(cited.href);
  return { ok: true, value: null };
}

function nothing(_done: void): null {
  return null;
}

function withExtension(path: string, extension: string): string {
  return extname(path).toLowerCase() === `.${extension}` ? path : `${path}.${extension}`;
}
