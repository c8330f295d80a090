import { describe, expect, it } from 'vitest';
import { productFiles, steepPlaces } from '../../../build/checks/linear';
import { sourceFiles } from '../../../build/checks/read-source';

const steep = (text: string, path = 'core/document/example.ts'): readonly string[] =>
  steepPlaces({ path, text }).map(({ where, what }) => `${where} ${what}`);

describe('steepPlaces', () => {
  it.each([
    ['two repetitions that trade letters', '/^(.*?[NS])(.*[EW])$/', 'quadratic in a text of many "S"'],
    ['a repetition begun at every place', '/\\s+$/', 'quadratic in a text of many " "'],
    ['a repetition within a repetition', '/^(a+)+$/', 'exponential in a text of many "a"'],
  ])('catches %s', (_kind, pattern, what) => {
    expect(steep(`const a = 1;\nconst pattern = ${pattern};`)).toEqual([
      `core/document/example.ts:2 ${pattern} is ${what}`,
    ]);
  });

  it('catches a pattern that is put together, as nobody can tell what it does', () => {
    for (const text of ['new RegExp(`^${unit}$`)', 'RegExp(unit)']) {
      expect(steep(`const pattern = ${text};`)).toEqual([
        'core/document/example.ts:1 puts a pattern together',
      ]);
    }
  });

  it('is content with patterns that take one step a letter', () => {
    expect(steep('const a = [/^\\d+(?:\\.\\d*)?$/, /[;,\\s]+/g, /"[^"]*"/y, /\\p{L}/u];')).toEqual([]);
  });

  it('catches lists spread into arguments where they come from outside, and only there', () => {
    for (const text of ['found.push(...more)', 'Math.max(1, ...depths.map(f))', 'new Set(...lists)']) {
      expect(steep(text)).toEqual(['core/document/example.ts:1 spreads a list of any length into arguments']);
      expect(steep(text, 'renderer/parts/example.ts')).toEqual([]);
    }
    expect(steep('const all = [...some, ...more]; greatest(all);')).toEqual([]);
  });

  it('finds nothing in the product', () => {
    const files = productFiles(sourceFiles());
    expect(files.length).toBeGreaterThan(300);
    expect(files.flatMap(steepPlaces)).toEqual([]);
  });
});
