import { describe, expect, it } from 'vitest';
import { badCitationsIn, sectionsOf, type Citable } from '../../../build/checks/citations';
import { sourceFiles } from '../../../build/checks/read-source';
import { citable, tradeFiles, unsourcedIn } from '../../../build/checks/sources';

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

describe('badCitationsIn', () => {
  const there: Citable = {
    sections: sectionsOf('# Conventions\n\n## Minimum gas\n\ntext\n\n### Room\n'),
    paths: new Set(['core/gas.ts', 'core/ledger/room.ts', 'test/published/tables.test.ts']),
    names: new Set(['stagedAscent']),
  };
  const bad = (comment: string): readonly string[] =>
    badCitationsIn({ path: 'core/ledger/entry.ts', text: `${comment}\nexport const a = 1;` }, there).map(
      ({ what }) => what,
    );

  it.each([
    ['/** Source: NUMBERS of this project, a half. */', 'there is no NUMBERS'],
    ['/** Source: DESIGN of this project, "auto". */', 'there is no DESIGN'],
    ['/** Source: CONVENTIONS, "Maximum gas". */', 'CONVENTIONS has no section "Maximum gas"'],
    ['/** Source: CONVENTIONS, "Conventions". */', 'CONVENTIONS has no section "Conventions"'],
    ['/** Source: CONVENTIONS of ours. */', 'CONVENTIONS is cited without a section'],
    ['/** Source: as `theStagedAscent`. */', 'nothing is called theStagedAscent'],
    ['/** Source: the same functions as the ledger (trip/room.ts). */', 'there is no trip/room.ts'],
    ['/** Source: as in lungs.ts. */', 'there is no lungs.ts'],
    ['/**\n * Adds.\n * Source: a manual, 2016;\n *   NUMBERS of ours\n */', 'there is no NUMBERS'],
    ['// Source: NUMBERS', 'there is no NUMBERS'],
  ])('refuses %s', (comment, what) => {
    expect(bad(comment)).toEqual([what]);
  });

  it('says where', () => {
    const text = '\n\n/** Source: NUMBERS. */\nexport const a = 1;';
    expect(badCitationsIn({ path: 'core/x.ts', text }, there)).toEqual([
      { where: 'core/x.ts:3', what: 'there is no NUMBERS' },
    ]);
  });

  it.each([
    '/** Source: CONVENTIONS, "Minimum gas"; CONVENTIONS, "Room". */',
    '/** Source: as `stagedAscent`, of core/gas.ts, gas.ts and ../gas.ts; room.ts, test/published/tables.test.ts. */',
    '/** Source: A. A. Bühlmann, Tauchmedizin, 4th ed., Springer 1995. */',
    '/** NUMBERS, DESIGN and nowhere.ts stand in no source. */',
  ])('passes %s', (comment) => {
    expect(bad(comment)).toEqual([]);
  });

  it('knows what this repository has', () => {
    const repository = citable(sourceFiles());
    expect(repository.sections).toContain('Minimum gas');
    expect(repository.paths).toContain('core/tissues/compartments.ts');
    expect(repository.paths).toContain('README.md');
    expect(repository.names).toContain('stagedAscent');
  });
});
