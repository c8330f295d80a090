import { mkdirSync, mkdtempSync, renameSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { forgetBundled, isBundled, noteBundled } from '../../../build/bundled';

let root: string;
let out: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'carryover-bundled-'));
  out = join(root, 'out');
  mkdirSync(join(root, 'core/ledger'), { recursive: true });
  writeFileSync(join(root, 'core/ledger/ledger.ts'), '');
  writeFileSync(join(root, 'core/gas.ts'), '');
  writeFileSync(join(root, 'package.json'), '{}');
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

/** Bundled a little after the last change, as the clock of a file system is coarse. */
function bundled(): void {
  noteBundled(out, Date.now() + 50);
}

async function later(): Promise<void> {
  await new Promise((resolve) => setTimeout(resolve, 80));
}

describe('bundles', () => {
  it('are there once they were made, until they are made anew', () => {
    expect(isBundled(root, out)).toBe(false);
    bundled();
    expect(isBundled(root, out)).toBe(true);
    forgetBundled(out);
    expect(isBundled(root, out)).toBe(false);
  });

  it.each<readonly [string, () => void]>([
    ['a source is written', () => writeFileSync(join(root, 'core/ledger/ledger.ts'), '1')],
    ['a source is added', () => writeFileSync(join(root, 'core/ledger/room.ts'), '')],
    ['a source is taken away', () => rmSync(join(root, 'core/gas.ts'))],
    ['a source gets another name', () => renameSync(join(root, 'core/gas.ts'), join(root, 'core/air.ts'))],
    ['a package is named', () => writeFileSync(join(root, 'package.json'), '{"name":""}')],
    [
      'a source comes out of an archive, as old as it is there',
      () => {
        writeFileSync(join(root, 'new.ts'), '2');
        utimesSync(join(root, 'new.ts'), 1_000_000_000, 1_000_000_000);
        renameSync(join(root, 'new.ts'), join(root, 'core/gas.ts'));
      },
    ],
  ])('are of other sources where %s', async (_, change) => {
    bundled();
    await later();
    change();
    expect(isBundled(root, out)).toBe(false);
  });

  it('are not of what was changed while they were made', async () => {
    const fromMs = Date.now() + 50;
    await later();
    writeFileSync(join(root, 'core/gas.ts'), '3');
    noteBundled(out, fromMs);
    expect(isBundled(root, out)).toBe(false);
  });
});
