/**
 * Starts the built desktop in the real runtime, for the same specs that run under the double; those that
 * ask what only the double can tell are tagged `@double` and left out. The user's part in dialogs is played
 * by replacing them in the main process.
 */
import { expect, _electron as electron, type Page } from '@playwright/test';
import { findRuntime } from '../../../build/electron-runtime';
import { at } from '../../../build/paths';
import type { LaunchOptions, RunningDesktop } from './launch';
import type { Happening } from './state';
import type { MenuItem } from './system';

/** What the main process under test holds for the test. */
interface Played {
  readonly answers: unknown[];
  readonly log: Happening[];
}

/** Runs the built main in the runtime; throws where there is none. */
export async function launchRuntime(options: LaunchOptions): Promise<RunningDesktop> {
  const runtime = findRuntime();
  if (runtime.kind === 'missing') throw new Error(runtime.reason);
  const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  const app = await electron.launch({
    executablePath: runtime.path,
    args: [at(), `--user-data-dir=${options.userData}`, ...asRoot, ...(options.files ?? [])],
    cwd: at(),
  });
  const child = app.process();
  const exited = new Promise<number | null>((resolve) => child.once('exit', resolve));
  let output = '';
  for (const stream of [child.stdout, child.stderr])
    stream?.on('data', (chunk: Buffer) => (output += chunk.toString()));

  await app.evaluate(({ dialog, shell }) => {
    const played: Played = { answers: [], log: [] };
    Object.assign(globalThis, { played });
    const answer = (kind: string) =>
      (async (...args: unknown[]) => {
        played.log.push({
          kind: `dialog.${kind}`,
          detail: JSON.parse(JSON.stringify(args.at(-1))) as unknown,
        });
        if (played.answers.length === 0) throw new Error(`a dialog that no test expects: ${kind}`);
        return played.answers.shift();
      }) as never;
    dialog.showOpenDialog = answer('showOpenDialog');
    dialog.showSaveDialog = answer('showSaveDialog');
    dialog.showMessageBox = answer('showMessageBox');
    shell.openExternal = async (url) => void played.log.push({ kind: 'shell.openExternal', detail: url });
  });
  const log: Happening[] = [];
  const look = setInterval(() => {
    void app
      .evaluate(() => (globalThis as unknown as { played: Played }).played.log)
      .then((happened) => log.splice(0, log.length, ...happened))
      // Once the process has ended there is nothing more to see.
      .catch(() => clearInterval(look));
  }, 100);

  const notHere = (name: string) => async (): Promise<never> => {
    throw new Error(`"${name}" asks what only the double can do: tag the test @double`);
  };
  return {
    page: async (): Promise<Page> => {
      const page = await app.firstWindow();
      await expect.poll(() => page.evaluate(() => document.readyState)).toBe('complete');
      return page;
    },
    exited,
    output: () => output,
    log: () => log,
    answerDialog: (answer) =>
      app.evaluate((_modules, given) => {
        (globalThis as unknown as { played: Played }).played.answers.push(given);
      }, answer),
    menu: () =>
      app.evaluate(({ Menu }) => {
        const plain = (items: readonly Electron.MenuItem[]): MenuItem[] =>
          items.map(({ id, label, enabled, accelerator, submenu }) => ({
            id,
            label,
            enabled,
            ...(accelerator ? { accelerator } : {}),
            ...(submenu ? { submenu: plain(submenu.items) } : {}),
          }));
        return plain(Menu.getApplicationMenu()?.items ?? []);
      }),
    clickMenu: (id) =>
      app.evaluate(({ Menu }, wanted) => Menu.getApplicationMenu()?.getMenuItemById(wanted)?.click(), id),
    openFile: (path) =>
      app.evaluate(
        ({ app: main }, file) => void main.emit('open-file', { preventDefault: () => {} }, file),
        path,
      ),
    closeWindow: () => app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]?.close()),
    invokeAs: notHere('invokeAs'),
    hang: notHere('hang'),
    quit: async () => {
      clearInterval(look);
      await app.close();
      return child.exitCode;
    },
    kill: async () => {
      child.kill('SIGKILL');
      await exited;
    },
  };
}
