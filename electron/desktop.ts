/** The running desktop: one window, its parts wired to each other. Made once the app is ready. */
import { join } from 'node:path';
import { app, BrowserWindow, dialog, ipcMain, Menu, nativeTheme, screen, session } from 'electron';
import type { HostTrouble, MenuCommand, StoredTrip } from '../core/host';
import { showAbout } from './about';
import { answerCalls, attempt } from './answer';
import { noteChannel, type NoteName, type Notes } from './channels';
import { guardClose } from './close-guard';
import { desktopHandlers } from './desktop-host';
import { menuTemplate } from './menu';
import { serveScheme, START_URL } from './scheme';
import { secureSession } from './security';
import { desktopSettings, type DesktopSettings } from './settings';
import { tripFiles } from './trip-files';
import { knownToSystem } from './recent-files';
import { watchTripFiles } from './trip-watch';
import { unsavedEdits } from './unsaved-edits';
import { boundsToOpen, type Area } from './window-bounds';
import { loadPage, watchHealth } from './window-health';
import { windowMarks } from './window-marks';
import { windowOptions } from './window-options';

export interface Desktop {
  /** Opens a file named from outside: shown when the window is ready for it. */
  openFile(path: string): Promise<void>;
  /** Brings the window to the front. */
  focus(): void;
}

export interface DesktopOptions {
  /** The folder of the bundles: renderer/ and preload/ in it. */
  readonly out: string;
  readonly isDeveloping: boolean;
}

/** Opens the window and everything behind it. */
export async function openDesktop(options: DesktopOptions): Promise<Desktop> {
  const userData = app.getPath('userData');
  secureSession(session.defaultSession);
  serveScheme(join(options.out, 'renderer'));

  let commands: readonly MenuCommand[] = [];
  const settings = desktopSettings(userData, () => showMenu());
  const trips = tripFiles({
    folder: userData,
    recent: knownToSystem(settings.recent, app, process.platform),
  });
  const window = makeWindow(options, settings);
  const tell = <Name extends NoteName>(name: Name, note: Notes[Name]): void => {
    if (!window.isDestroyed()) window.webContents.send(noteChannel(name), note);
  };
  const watch = await watchTripFiles(trips, (change) => tell('tripChanged', change));
  const guard = guardClose(window, () => tell('beforeClose', null));

  const waitingTrips: StoredTrip[] = [];
  let isAwaitingTrips = false;

  const openFile = async (path: string): Promise<void> => {
    const opened = await attempt(() => trips.openAt(path));
    if (!opened.ok) return showTrouble(window, 'This file could not be opened.', opened.trouble);
    await watch.alsoFile(path);
    if (isAwaitingTrips) tell('openTrip', opened.value);
    else waitingTrips.push(opened.value);
  };

  const showMenu = (): void => {
    const template = menuTemplate({
      commands,
      recentFiles: settings.recent.list(),
      platform: process.platform,
      isDeveloping: options.isDeveloping,
      run: (id) => tell('command', id),
      openRecent: (path) => void openFile(path),
      showAbout: () => void showAbout(window),
    });
    Menu.setApplicationMenu(Menu.buildFromTemplate(template));
  };

  answerCalls(
    ipcMain,
    desktopHandlers({
      window,
      trips,
      unsaved: unsavedEdits(userData),
      watch,
      settings,
      guard,
      marks: windowMarks(window, process.platform),
      onCommands: (offered) => {
        commands = offered;
        showMenu();
      },
      onAwaitTrips: async () => {
        isAwaitingTrips = true;
        for (const trip of waitingTrips.splice(0)) tell('openTrip', trip);
      },
    }),
  );
  const onPageLost = (): void => {
    guard.forget();
    isAwaitingTrips = false;
  };
  watchHealth(window, onPageLost);
  window.webContents.on('did-start-navigation', ({ isMainFrame, isSameDocument }) => {
    if (isMainFrame && !isSameDocument) onPageLost();
  });
  // The guard has asked already; a page that still objects would keep the window open without a word.
  window.webContents.on('will-prevent-unload', (event) => event.preventDefault());
  window.on('closed', () => watch.close());
  showMenu();
  await loadPage(window, START_URL);
  if (settings.damaged !== null && !window.isDestroyed())
    void showTrouble(window, settings.damaged.what, settings.damaged);

  return {
    openFile,
    focus: () => {
      if (window.isDestroyed()) return;
      if (window.isMinimized()) window.restore();
      window.show();
      window.focus();
    },
  };
}

function makeWindow(options: DesktopOptions, settings: DesktopSettings): BrowserWindow {
  const { look } = settings.load();
  const bounds = boundsToOpen(settings.windowBounds(), workAreas());
  const window = new BrowserWindow(
    windowOptions({
      bounds,
      preload: join(options.out, 'preload', 'preload.cjs'),
      isDeveloping: options.isDeveloping,
      isDark: look === 'cabin' || (look === 'system' && nativeTheme.shouldUseDarkColors),
    }),
  );
  if (bounds.isMaximized) window.maximize();
  window.once('ready-to-show', () => window.show());
  window.on('close', () => {
    const isMaximized = window.isMaximized();
    try {
      settings.saveWindowBounds({ ...window.getNormalBounds(), isMaximized });
    } catch {
      // Where the window stood is not worth a word while it closes.
    }
  });
  return window;
}

/** The work areas of today's screens, the primary one first. */
function workAreas(): [Area, ...Area[]] {
  const primary = screen.getPrimaryDisplay();
  const others = screen.getAllDisplays().filter(({ id }) => id !== primary.id);
  return [primary.workArea, ...others.map(({ workArea }) => workArea)];
}

async function showTrouble(window: BrowserWindow, message: string, trouble: HostTrouble): Promise<void> {
  const what = trouble.what === message ? '' : `${trouble.what}\n`;
  const detail = `${what}${trouble.where}\n\n${trouble.mend}`;
  await dialog.showMessageBox(window, { type: 'warning', message, detail, buttons: ['Close'] });
}
