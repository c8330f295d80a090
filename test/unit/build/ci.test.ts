import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { at } from '../../../build/paths';

const script = at('.ci/run');

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'carryover-ci-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Runs the script with an npm that writes down how it is called and does as told. */
function ci(npm: string): { status: number | null; stdout: string; calls: readonly string[] } {
  const calls = join(folder, 'calls');
  writeFileSync(calls, '');
  writeFileSync(join(folder, 'npm'), `#!/bin/sh\necho "$PWD: $@" >> ${calls}\n${npm}\n`, { mode: 0o755 });
  const { status, stdout } = spawnSync(script, [], {
    encoding: 'utf8',
    env: { PATH: folder },
  });
  return { status, stdout, calls: readFileSync(calls, 'utf8').trim().split('\n') };
}

describe('.ci/run', () => {
  it('is a clean install and the test command of the README, and ends with its last line', () => {
    const readme = readFileSync(at('README.md'), 'utf8');
    expect(readme).toContain('npm install && npm test ');
    const { status, stdout, calls } = ci('[ "$1" != test ] || echo "12 passed, 0 failed"');
    expect(calls).toEqual([`${at()}: ci`, `${at()}: test`]);
    expect(status).toBe(0);
    expect(stdout.trimEnd().split('\n').at(-1)).toBe('12 passed, 0 failed');
  });

  it('installs nothing itself', () => {
    const commands = readFileSync(script, 'utf8')
      .split('\n')
      .filter((line) => line !== '' && !line.startsWith('#'));
    expect(commands).toEqual(['set -eu', 'cd "${0%/*}/.."', 'export CI=1', 'npm ci', 'exec npm test']);
  });

  it('fails where a test fails, or where the packages cannot be installed', () => {
    const failing = ci('[ "$1" != test ] || { echo "11 passed, 1 failed"; exit 3; }');
    expect(failing.status).toBe(3);
    expect(failing.stdout.trimEnd()).toBe('11 passed, 1 failed');
    const notInstalled = ci('exit 7');
    expect(notInstalled.status).toBe(7);
    expect(notInstalled.calls).toHaveLength(1);
  });
});
