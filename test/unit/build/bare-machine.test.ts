import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findBrowser, findProgram } from '../../../build/find-browser';
import { at } from '../../../build/paths';

/** Each starts a test run of its own, beside others. */
const SLOW_MS = 180_000;

let folder = '';
let bin = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'carryover-bare-'));
  bin = join(folder, 'bin');
  mkdirSync(bin);
  symlinkSync(process.execPath, join(bin, 'node'));
  const npm = findProgram('npm');
  if (npm !== null) symlinkSync(realpathSync(npm), join(bin, 'npm'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Ended {
  readonly status: number | null;
  readonly stdout: string;
}

/** Runs Node where PATH holds node and npm alone, and nothing else is known of this run. */
function bare(args: readonly string[], env: NodeJS.ProcessEnv = {}): Ended {
  const { status, stdout, stderr } = spawnSync(process.execPath, args, {
    cwd: at(),
    encoding: 'utf8',
    env: { PATH: bin, HOME: folder, NO_COLOR: '1', ...env },
  });
  return { status, stdout: stdout + stderr };
}

describe('on a machine with nothing but Node', () => {
  it(
    'PDFs are written, checked and read',
    () => {
      const tests = 'test/unit/core/slate/pdf.test.ts';
      const { status, stdout } = bare([at('node_modules/vitest/vitest.mjs'), 'run', tests]);
      expect(stdout).toMatch(/^ +Tests +\d+ passed \(\d+\)$/m);
      expect(stdout).toMatch(/^ Test Files +1 passed \(1\)$/m);
      expect(status).toBe(0);
    },
    SLOW_MS,
  );

  // Elsewhere a browser may stand at its usual place, whatever PATH says.
  it.runIf(process.platform === 'linux')(
    'npm test runs the rest without a browser, says why it has none, and fails',
    () => {
      expect(findBrowser({ PATH: bin })).toBeNull();
      const { status, stdout } = bare(
        ['--import', 'tsx', at('build/test.ts'), '--only', 'programs,playwright'],
        // Where nobody answers: the runner's own cannot be fetched either.
        {
          PLAYWRIGHT_BROWSERS_PATH: join(folder, 'browsers'),
          PLAYWRIGHT_DOWNLOAD_HOST: 'http://127.0.0.1:1',
        },
      );
      const lines = stdout.trimEnd().split('\n');
      expect(lines.at(-1)).toBe('1 passed, 1 failed');
      expect(lines).toContainEqual(expect.stringMatching(/^programs +1 passed, 0 failed +[\d.]+ s$/));
      expect(lines).toContainEqual(
        expect.stringMatching(
          /^playwright +not run: no browser, because none is installed, and fetching the one of the test runner failed \(Error: .+\)$/,
        ),
      );
      expect(stdout).toContain('Install Chromium');
      expect(status).toBe(1);
    },
    SLOW_MS,
  );
});
