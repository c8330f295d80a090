/** The order in which the desktop starts; what each step does is in its own file. */
import { join } from 'node:path';
import { app, dialog } from 'electron';
import { commandIn, runInApp } from './command-in-app';
import { openDesktop, type Desktop } from './desktop';
import { tripFilesIn } from './opened-files';
import { registerScheme } from './scheme';
import { secureApp } from './security';

const isDeveloping = !app.isPackaged;

/** Named before the window is there: macOS sends them at any moment, and as an event. */
const early: string[] = [];
let desktop: Promise<Desktop> | undefined;

const open = (path: string): void => {
  if (desktop === undefined) early.push(path);
  else void desktop.then((running) => running.openFile(path));
};

const fail = (error: unknown): void => {
  const what = error instanceof Error ? (error.stack ?? error.message) : String(error);
  dialog.showErrorBox('Carryover has a fault', `${what}\n\nSaved trips are untouched.`);
};

const command = commandIn(process.argv, app.isPackaged);

if (command !== null) {
  // No window, so no icon that waits for one.
  if (process.platform === 'darwin') app.dock?.hide();
  const bundle = new URL('../command/carryover.js', import.meta.url);
  void runInApp(command, bundle, (status) => app.exit(status));
  // Two windows of one trip would be two truths: the second start hands its files to the first and ends.
} else if (app.requestSingleInstanceLock()) {
  process.on('uncaughtException', fail);
  process.on('unhandledRejection', fail);
  secureApp(isDeveloping);
  registerScheme();
  app.on('open-file', (event, path) => {
    event.preventDefault();
    open(path);
  });
  app.on('second-instance', (_event, argv, cwd) => {
    for (const path of tripFilesIn(argv, cwd, app.isPackaged)) open(path);
    void desktop?.then((running) => running.focus());
  });
  app.on('window-all-closed', () => app.quit());
  // Not awaited at the top: the runtime becomes ready only once this module has been read to its end.
  app
    .whenReady()
    .then(() => {
      desktop = openDesktop({ out: join(import.meta.dirname, '..'), isDeveloping });
      for (const path of [...early, ...tripFilesIn(process.argv, process.cwd(), app.isPackaged)]) open(path);
      return desktop;
    })
    .catch((error: unknown) => {
      fail(error);
      app.exit(1);
    });
} else {
  app.quit();
}
