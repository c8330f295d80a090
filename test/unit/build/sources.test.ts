import { describe, expect, it } from 'vitest';
import { tradeFiles, unsourcedIn } from '../../../build/checks/sources';

const names = (text: string): readonly string[] =>
  unsourcedIn({ path: 'core/example.ts', text }).map(({ name }) => name);

describe('unsourcedIn', () => {
  it('catches an exported table with figures and no source', () => {
    expect(names('/** Limits. */\nexport const LIMITS = [1.4, 1.6];')).toEqual(['LIMITS']);
  });

  it('catches an exported function with figures and no source', () => {
    expect(names('export function f(x: number): number { return x * 0.0627; }')).toEqual(['f']);
  });

  it('is content with a source in the docstring, within, or at the head of the file', () => {
    expect(names('/** Limits. Source: a manual, table 3. */\nexport const LIMITS = [1.4];')).toEqual([]);
    expect(names('export const LIMITS = {\n  // Source: a manual, table 3\n  working: 1.4 };')).toEqual([]);
    expect(
      names('/** All of this: common practice. */\nimport a from "./a";\nexport const L = 1.4;'),
    ).toEqual([]);
  });

  it('does not lend the source of one table to the next', () => {
    const text =
      'const other = 1;\n/** Source: a manual. */\nexport const A = 1.4;\n// Another.\nexport const B = 1.6;';
    expect(names(text)).toEqual(['B']);
  });

  it('lends it to what follows line by line', () => {
    expect(names('/** Source: a manual. */\nexport const A = 1.4;\nexport const B = 1.6;')).toEqual([]);
    expect(names('/** Source: a manual. */\nexport const A = 1.4;\n\nexport const B = 1.6;')).toEqual(['B']);
  });

  it('takes a square for arithmetic, and an exponent with a fraction for a finding', () => {
    expect(names('export const square = (x: number) => x ** 3;')).toEqual([]);
    expect(names('export const f = (x: number) => x ** 2.285;')).toEqual(['f']);
  });

  it('leaves counting, types and what is not exported alone', () => {
    expect(names('export const half = (x: number) => x / 2;')).toEqual([]);
    expect(names('export type Place = 3 | 4;')).toEqual([]);
    expect(names('const hidden = 1.4;')).toEqual([]);
  });
});

describe('tradeFiles', () => {
  it('takes the files of core, without those that compute nothing of the trade', () => {
    const paths = ['core/gas.ts', 'core/slate/layout.ts', 'renderer/main.tsx'];
    expect(tradeFiles(paths.map((path) => ({ path, text: '' }))).map(({ path }) => path)).toEqual([
      'core/gas.ts',
    ]);
  });
});
