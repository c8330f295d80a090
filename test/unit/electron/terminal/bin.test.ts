/** What `carryover` runs as it is installed: its bundle, or the sources where they are newer or there is no bundle. */
import { spawnSync } from 'node:child_process';
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const ROOT = new URL('../../../../', import.meta.url).pathname;
const BUNDLE = 'out/command/carryover.js';
const SOURCES = 'electron/terminal/carryover.ts';

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'carryover-bin-'));
  write('package.json', '{ "type": "module" }');
  write('core/deep/in/it.ts', 'export const depthM = 18;');
  write('electron/disk/disk.ts', '');
  // A type, so that it is the sources as they are written that run.
  write(
    SOURCES,
    "import { depthM } from '../../core/deep/in/it';\nconst m: number = depthM;\nconsole.log(`sources, ${m} m`);",
  );
  copyFileSync(join(ROOT, 'electron/terminal/bin.mjs'), join(root, 'electron/terminal/bin.mjs'));
  symlinkSync(join(ROOT, 'node_modules'), join(root, 'node_modules'));
});
afterEach(() => rmSync(root, { recursive: true }));

function write(path: string, text: string): void {
  mkdirSync(join(root, dirname(path)), { recursive: true });
  writeFileSync(join(root, path), text);
}

function changed(path: string, secondsAgo: number): void {
  const at = new Date(Date.now() - secondsAgo * 1000);
  utimesSync(join(root, path), at, at);
}

function run(): string {
  const { stdout, stderr } = spawnSync(process.execPath, [join(root, 'electron/terminal/bin.mjs')], {
    encoding: 'utf8',
  });
  return stdout + stderr;
}

describe('carryover as it is installed', () => {
  it('runs the sources where nothing was bundled', () => {
    expect(run()).toBe('sources, 18 m\n');
  });

  it('runs the bundle where it is newer than every source', () => {
    write(BUNDLE, "console.log('bundle');");
    changed(BUNDLE, -60);
    expect(run()).toBe('bundle\n');
  });

  it.each([['core/deep/in/it.ts'], ['electron/disk/disk.ts'], [SOURCES], ['package.json']])(
    'runs the sources where %s was changed after the bundle was made',
    (path) => {
      write(BUNDLE, "console.log('bundle');");
      changed(BUNDLE, -60);
      changed(path, -120);
      expect(run()).toBe('sources, 18 m\n');
    },
  );
});
