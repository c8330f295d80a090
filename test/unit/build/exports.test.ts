import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { unusedCode } from '../../../build/checks/exports';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'carryover-exports-'));
  put('package.json', JSON.stringify({ name: 'small', type: 'module' }));
  put('renderer/main.tsx', "import { used } from '../core/figure';\nused();\n");
  put('core/figure.ts', 'export function used(): void {}\n');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function put(path: string, text: string): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), text);
}

describe('unusedCode', () => {
  it('finds nothing where everything is used', () => {
    expect(unusedCode(folder)).toBe('');
  });

  it('finds a function, a type and a file that nobody takes', () => {
    put(
      'core/figure.ts',
      'export function used(): void {}\nexport function idle(): void {}\nexport type Idle = 1;\n',
    );
    put('core/alone.ts', 'export const alone = 1;\n');
    const found = unusedCode(folder);
    expect(found).toMatch(/^idle +function +core\/figure\.ts:2/m);
    expect(found).toMatch(/^Idle +type +core\/figure\.ts:3/m);
    expect(found).toMatch(/^core\/alone\.ts$/m);
    expect(found).not.toMatch(/^used/m);
  });

  it('finds a file of the product that tests alone still import', () => {
    put('core/replaced.ts', 'export const replaced = 1;\n');
    put('test/unit/replaced.test.ts', "import { replaced } from '../../core/replaced';\nreplaced;\n");
    expect(unusedCode(folder)).toMatch(/^core\/replaced\.ts *$/m);
  });

  it('finds a package that is installed for nothing', () => {
    put('package.json', JSON.stringify({ name: 'small', type: 'module', dependencies: { idle: '1.0.0' } }));
    expect(unusedCode(folder)).toMatch(/^idle +package\.json/m);
  });
});
