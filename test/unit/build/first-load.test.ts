import { randomBytes } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { BUDGET_BYTES, firstLoad, firstLoadTroubles } from '../../../build/checks/first-load';

/** Nothing that gzip could make smaller. */
function heavy(bytes: number): string {
  return `export const dust = "${randomBytes(Math.ceil(bytes / 2)).toString('hex')}";\n`;
}

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'carryover-first-load-'));
  put(
    'index.html',
    '<script type="module" src="/assets/index.js"></script><link rel="stylesheet" href="/assets/index.css">',
  );
  put('assets/index.css', 'p { color: black }');
  put('assets/index.js', 'import { a } from "./a.js";\nvoid import("./later.js");\na();\n');
  put('assets/a.js', 'export * from "./b.js";\nexport const a = () => {};\n');
  put('assets/b.js', 'export const b = 1;\n');
  put('assets/later.js', heavy(2 * BUDGET_BYTES));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function put(path: string, text: string): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), text);
}

describe('firstLoad', () => {
  it('is the page, what it names and what that imports, and not what is asked for later', () => {
    expect(
      firstLoad(folder)
        .map(({ path }) => path)
        .toSorted(),
    ).toEqual(['assets/a.js', 'assets/b.js', 'assets/index.css', 'assets/index.js', 'index.html']);
    expect(firstLoadTroubles(folder)).toEqual([]);
  });

  it('has a budget', () => {
    put('assets/b.js', heavy(2 * BUDGET_BYTES));
    expect(firstLoadTroubles(folder)).toEqual([
      expect.stringMatching(/^The first load is \d+ bytes gzipped; it can have 200000\.[^]*assets\/b\.js/),
    ]);
  });

  it('has a script, and no font of a kind that nobody asks for', () => {
    put('assets/plex.woff', '');
    put('index.html', '<p>nothing</p>');
    expect(firstLoadTroubles(folder)).toEqual([
      'The page loads no script.',
      'Fonts nobody asks for are shipped: assets/plex.woff.',
    ]);
  });
});
