/** A browser for the end-to-end tests: the one on PATH, else installed where that can be done unasked. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { chromium } from '@playwright/test';
import { findProgram, findTestBrowser } from './find-browser';
import { at } from './paths';

/** For a machine without graphics, accounts or a way out: the browser must not look for any. */
export const QUIET_FLAGS: readonly string[] = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  // Without a window letters are as wide as in one, not rounded to whole pixels.
  '--font-render-hinting=none',
];

const INSTALL_MS = 300_000;

export type TestBrowser =
  | { readonly kind: 'here'; readonly path: string }
  /** The reason follows the word "because". */
  | { readonly kind: 'missing'; readonly reason: string; readonly mend: string };

/** Finds a browser, or installs one: Debian's package for the root user, the test runner's own download elsewhere. */
export function obtainTestBrowser(say: (line: string) => void): TestBrowser {
  const found = findTestBrowser() ?? runnersOwn();
  if (found !== null) return whole(found);
  const reason = install(say);
  const installed = findTestBrowser() ?? runnersOwn();
  if (installed !== null) return whole(installed);
  return missing(`none is installed, and ${reason ?? 'installing one left none to be found'}`);
}

/** Why nothing could be installed; null where all went well. */
function install(say: (line: string) => void): string | null {
  if (process.getuid?.() === 0 && findProgram('apt-get') !== null) {
    say('No browser found: installing one of the system\u2019s packages ...');
    const whyNot = (name: string): string | null =>
      whyFailed('apt-get', ['install', '-y', '--no-install-recommends', name]);
    return (
      whyFailed('apt-get', ['update']) ??
      (whyNot('chromium-headless-shell') === null ? null : whyNot('chromium'))
    );
  }
  say('No browser found: fetching the one of the test runner ...');
  const runner = at('node_modules/@playwright/test/cli.js');
  return whyFailed(process.execPath, [runner, 'install', 'chromium'], 'fetching the one of the test runner');
}

/** A browser may be there and lack a library of the system: better said once than by each test. */
function whole(path: string): TestBrowser {
  const reason = process.platform === 'linux' ? whyFailed(path, ['--version'], path) : null;
  return reason === null ? { kind: 'here', path } : missing(`one is there and does not start: ${reason}`);
}

function missing(reason: string): TestBrowser {
  return {
    kind: 'missing',
    reason,
    mend: 'Install Chromium (Debian: apt-get install chromium; else: npx playwright install --with-deps chromium), or leave these tests out: npm test -- --no-browser',
  };
}

function runnersOwn(): string | null {
  const path = chromium.executablePath();
  return existsSync(path) ? path : null;
}

function whyFailed(
  command: string,
  args: readonly string[],
  name: string = [command, ...args].join(' '),
): string | null {
  const { status, stderr, error } = spawnSync(command, args, {
    stdio: ['ignore', 'ignore', 'pipe'],
    encoding: 'utf8',
    timeout: INSTALL_MS,
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  });
  if (status === 0) return null;
  if ((error as NodeJS.ErrnoException | undefined)?.code === 'ETIMEDOUT')
    return `${name} took longer than ${INSTALL_MS / 1000} s`;
  const lines = (error?.message ?? stderr).split('\n').map((line) => line.trim());
  // The first that calls itself an error; stacks and advice come after it.
  const told = lines.find((line) => /^(E|Error): /.test(line)) ?? lines.findLast((line) => line !== '');
  return `${name} failed${told === undefined ? '' : ` (${told})`}`;
}
