/**
 * The Electron runtime: the package installs without it (since version 42 it has no install step) and
 * fetches it when first run. Here that fetching is tried with a bound, so that no start hangs on it.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { at } from './paths';

export type Runtime =
  | { readonly kind: 'here'; readonly path: string }
  | { readonly kind: 'missing'; readonly reason: string };

/** Where releases are fetched from unless a mirror is set, by the variables that Electron's own fetcher reads. */
const RELEASES = 'https://github.com/electron/electron/releases/download/';
const PROBE_MS = 5_000;
const FETCH_MS = 300_000;

/** Looks whether the runtime of the pinned version is installed; fetches nothing. */
export function findRuntime(folder: string = at('node_modules/electron')): Runtime {
  const override = process.env['ELECTRON_OVERRIDE_DIST_PATH'];
  const dist = override ?? join(folder, 'dist');
  try {
    const executable =
      override === undefined ? readFileSync(join(folder, 'path.txt'), 'utf8') : platformExecutable();
    const path = join(dist, executable);
    if (existsSync(path)) return { kind: 'here', path };
  } catch {
    // No path.txt: never fetched.
  }
  return { kind: 'missing', reason: 'the Electron runtime is not installed' };
}

/** The runtime, fetched where it is missing and its releases can be reached. */
export async function obtainRuntime(say: (line: string) => void): Promise<Runtime> {
  const found = findRuntime();
  if (found.kind === 'here') return found;
  const unreachable = await whyUnreachable();
  if (unreachable !== null) return { kind: 'missing', reason: unreachable };
  say('Fetching the Electron runtime (about 110 MB, once) ...');
  const { status, error } = spawnSync(process.execPath, [at('node_modules/electron/install.js')], {
    stdio: ['ignore', 'ignore', 'pipe'],
    timeout: FETCH_MS,
  });
  if (status === 0) return findRuntime();
  const hasTimedOut = (error as NodeJS.ErrnoException | undefined)?.code === 'ETIMEDOUT';
  return {
    kind: 'missing',
    reason: hasTimedOut
      ? `fetching the Electron runtime took longer than ${FETCH_MS / 1000} s`
      : 'the Electron runtime could not be fetched',
  };
}

async function whyUnreachable(): Promise<string | null> {
  const env = process.env;
  // Through a proxy the probe would not go the way of the fetch; then only the fetch itself can tell.
  if (env['ELECTRON_GET_USE_PROXY'] !== undefined) return null;
  const releases = env['ELECTRON_MIRROR'] ?? env['npm_config_electron_mirror'] ?? RELEASES;
  try {
    await fetch(releases, { method: 'HEAD', redirect: 'manual', signal: AbortSignal.timeout(PROBE_MS) });
    return null;
  } catch {
    return 'the Electron runtime is not installed, and its releases are out of reach';
  }
}

function platformExecutable(): string {
  switch (process.platform) {
    case 'darwin':
      return 'Electron.app/Contents/MacOS/Electron';
    case 'win32':
      return 'electron.exe';
    default:
      return 'electron';
  }
}
