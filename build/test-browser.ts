/** A browser for the end-to-end tests: the one on PATH, else installed where that can be done unasked. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { chromium } from '@playwright/test';
import { findBrowser, findProgram } from './find-browser';
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
];

const INSTALL_MS = 300_000;

export type TestBrowser =
  | { readonly kind: 'here'; readonly path: string }
  | { readonly kind: 'missing'; readonly mend: string };

/** Finds a browser, or installs one: Debian's package for the root user, the test runner's own download elsewhere. */
export function obtainTestBrowser(say: (line: string) => void): TestBrowser {
  const found = findBrowser() ?? runnersOwn();
  if (found !== null) return { kind: 'here', path: found };
  if (process.getuid?.() === 0 && findProgram('apt-get') !== null) {
    say('No browser found: installing the Debian package "chromium" ...');
    runQuietly('apt-get', ['update']);
    runQuietly('apt-get', ['install', '-y', '--no-install-recommends', 'chromium']);
  } else {
    say('No browser found: fetching the one of the test runner ...');
    runQuietly(process.execPath, [at('node_modules/@playwright/test/cli.js'), 'install', 'chromium']);
  }
  const installed = findBrowser() ?? runnersOwn();
  if (installed !== null) return { kind: 'here', path: installed };
  return {
    kind: 'missing',
    mend: 'Install Chromium (Debian: apt-get install chromium; else: npx playwright install chromium), or leave these tests out: npm test -- --no-browser',
  };
}

function runnersOwn(): string | null {
  const path = chromium.executablePath();
  return existsSync(path) ? path : null;
}

function runQuietly(command: string, args: readonly string[]): void {
  spawnSync(command, args, {
    stdio: ['ignore', 'ignore', 'inherit'],
    timeout: INSTALL_MS,
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  });
}
