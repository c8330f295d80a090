/**
 * `npm start`: bundles where a source has changed since it was last done, then opens the workbench: in Electron where its
 * runtime is there or can be fetched, else in an app window of an installed browser, else at an address that any browser
 * opens.
 */
import { spawn } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { isBundled } from './bundled';
import { obtainRuntime } from './electron-runtime';
import { findBrowser } from './find-browser';
import { at, OUT, ROOT } from './paths';
import { PortTaken, serve, type Served } from './serve';

/**
 * Always the same, because a browser keeps trips by address: another port would be another library.
 * Out of the range that systems give away to outgoing connections.
 */
const PORT = 27_182;

const HELP = `npm start [-- OPTIONS]
  --no-window   serve the workbench and print its address; open nothing
  --port N      serve at this port instead of ${PORT} (a browser keeps its trips by address)
  --help        this text`;

interface Options {
  readonly hasWindow: boolean;
  readonly port: number;
  /** Left over for the workbench: trip files to open. */
  readonly files: readonly string[];
}

function say(line: string): void {
  console.log(line);
}

function readOptions(
  args: readonly string[],
): Options | { readonly refusal: string } | { readonly help: true } {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { 'no-window': { type: 'boolean' }, port: { type: 'string' }, help: { type: 'boolean' } },
    });
    if (values.help === true) return { help: true };
    const port = values.port === undefined ? PORT : Number(values.port);
    if (!Number.isInteger(port) || port < 0 || port > 65_535) {
      return { refusal: `--port ${values.port}: not a port. Give a whole number from 1024 to 65535.` };
    }
    return { hasWindow: values['no-window'] !== true, port, files: positionals.map(fromCaller) };
  } catch (error) {
    const reason = error instanceof Error ? error.message.split('\n')[0] : String(error);
    return { refusal: `${reason}\n${HELP}` };
  }
}

/** npm runs scripts in the project's folder; a path is meant from where the user typed it. */
function fromCaller(path: string): string {
  return resolve(process.env['INIT_CWD'] ?? process.cwd(), path);
}

function hasDisplay(): boolean {
  if (process.platform !== 'linux') return true;
  return Boolean(process.env['DISPLAY'] ?? process.env['WAYLAND_DISPLAY']);
}

/** Chromium refuses to run its sandbox for the root user; nobody else loses it. */
function sandboxFlags(): string[] {
  return process.platform === 'linux' && process.getuid?.() === 0 ? ['--no-sandbox'] : [];
}

/** A profile of its own, at a lasting place: the trips of the browser host live in it. */
function profileFolder(): string {
  const env = process.env;
  const data =
    process.platform === 'win32'
      ? (env['LOCALAPPDATA'] ?? join(homedir(), 'AppData', 'Local'))
      : process.platform === 'darwin'
        ? join(homedir(), 'Library', 'Application Support')
        : (env['XDG_DATA_HOME'] ?? join(homedir(), '.local', 'share'));
  const folder = join(data, 'carryover-window');
  mkdirSync(folder, { recursive: true });
  return folder;
}

/** Runs a program until it ends; resolves with its exit code, or the reason why it did not start. */
async function run(command: string, args: readonly string[]): Promise<number | string> {
  const child = spawn(command, args, { stdio: ['ignore', 'ignore', 'pipe'] });
  const stop = (): void => void child.kill();
  process.once('SIGINT', stop);
  process.once('SIGTERM', stop);
  // Read and dropped: a full pipe would stop the program, and its chatter is nothing for the user.
  child.stderr.resume();
  return new Promise((done) => {
    child.once('error', (error) => done(error.message));
    child.once('exit', (code, signal) => done(signal === null ? (code ?? 0) : 0));
  });
}

async function openInBrowser(served: Served, browser: string): Promise<void> {
  say(`Opening ${served.address} in an app window of ${browser}; closing the window ends it.`);
  const ended = await run(browser, [
    `--app=${served.address}`,
    `--user-data-dir=${profileFolder()}`,
    '--no-first-run',
    '--no-default-browser-check',
    '--disable-sync',
    '--window-size=1280,800',
    ...sandboxFlags(),
  ]);
  if (ended === 0) await served.close();
  else waitAt(served, `The browser opened no window (${ended}).`);
}

function waitAt(served: Served, why: string): void {
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => void served.close());
  say(`${why} Open ${served.address} in a browser; Ctrl-C ends it.`);
}

async function serveAndOpen(options: Options, whyNoElectron: string | null): Promise<number> {
  let served: Served;
  try {
    served = await serve(`${OUT}/renderer`, options.port);
  } catch (error) {
    if (!(error instanceof PortTaken)) throw error;
    console.error(
      `Port ${options.port} is taken, by a Carryover that runs already or by another program.\n` +
        'Use that window, or end the program, or choose another port: npm start -- --port 27183',
    );
    return 1;
  }
  const browser = findBrowser();
  if (whyNoElectron !== null) say(`Not in Electron: ${whyNoElectron}.`);
  if (!options.hasWindow) waitAt(served, 'No window, as asked.');
  else if (!hasDisplay()) waitAt(served, 'No display to open a window on.');
  else if (browser === null) waitAt(served, 'No browser of the Chromium family is installed.');
  else await openInBrowser(served, browser);
  return 0;
}

async function start(args: readonly string[]): Promise<number> {
  const options = readOptions(args);
  if ('help' in options) {
    say(HELP);
    return 0;
  }
  if ('refusal' in options) {
    console.error(options.refusal);
    return 2;
  }
  try {
    if (!isBundled(ROOT, OUT)) await (await import('./bundle')).bundle();
  } catch (error) {
    console.error(
      `The workbench could not be bundled: ${error instanceof Error ? error.message : String(error)}`,
    );
    console.error('Run npm install, then npm start again.');
    return 1;
  }
  if (!options.hasWindow || !hasDisplay()) return serveAndOpen(options, null);
  const runtime = await obtainRuntime(say);
  if (runtime.kind === 'missing') return serveAndOpen(options, runtime.reason);
  const ended = await run(runtime.path, [at(), ...sandboxFlags(), ...options.files]);
  if (ended === 0) return 0;
  return serveAndOpen(options, `its runtime ended with ${ended}`);
}

process.exitCode = await start(process.argv.slice(2));
