import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../../../electron/terminal/commands';
import { nearest } from '../../../../electron/terminal/near-miss';
import { isColored, readArgs, type CommandTable } from '../../../../electron/terminal/option-table';

const TABLE = {
  name: 'try',
  takes: '[FILE]',
  operands: [{ name: 'FILE', help: 'a file' }],
  groups: [
    {
      heading: '',
      rows: [
        { name: 'plain', letter: 'p', help: 'takes no value' },
        { name: 'valued', letter: 'v', value: 'X', example: 'an x, as in --valued 3', help: 'takes one' },
        { name: 'more', needs: 'valued', help: 'says more of it' },
      ],
    },
  ],
  exits: 'Exit 0.',
} as const satisfies CommandTable;

function read(...args: string[]) {
  const troubles: Parameters<typeof readArgs>[2] = [];
  const given = readArgs(args, TABLE, troubles);
  return { ...given, troubles: troubles.map(({ where, what }) => `${where}: ${what}`) };
}

describe('readArgs', () => {
  it('takes values behind a blank or an equals sign, letters, and what begins with one dash', () => {
    expect(read('-p', '--valued', '-5', 'a').values).toEqual({ valued: '-5' });
    expect(read('-p', '--valued', '-5', 'a').operands).toEqual(['a']);
    expect(read('-v', '3', '-p')).toMatchObject({ values: { valued: '3' }, flags: { plain: true } });
    expect(read('--valued=a=b').values).toEqual({ valued: 'a=b' });
    expect(read('--valued', '-').values).toEqual({ valued: '-' });
  });

  it('leaves a dash alone, and all behind two', () => {
    expect(read('-', '--', '--plain', '-v', '--')).toEqual({
      operands: ['-', '--plain', '-v', '--'],
      values: {},
      flags: { plain: false, more: false },
      troubles: [],
    });
  });

  it('tells all that is wrong at once', () => {
    expect(read('--palin', '-x', '--plain=1', '--valued', '--more', '--valued', '2').troubles).toEqual([
      '--palin: There is no such option.',
      '-x: There is no such option.',
      '--plain: It takes no value.',
      '--valued: A value is missing.',
      '--valued: It is given twice.',
    ]);
    expect(read('--more').troubles).toEqual(['--more: It says more about --valued, which is not given.']);
  });

  it('refuses letters with a dash among them, and counts on behind them', () => {
    expect(read('-p-x', '--valued', '3', 'a')).toMatchObject({
      operands: ['a'],
      values: { valued: '3' },
      troubles: ['-p-x: There is no such option.'],
    });
    // As a value, and behind the end of the options, it is what it is.
    expect(read('--valued', '-a-b')).toMatchObject({ values: { valued: '-a-b' }, troubles: [] });
    expect(read('--', '-a-b')).toMatchObject({ operands: ['-a-b'], troubles: [] });
  });

  it('gives back every operand, or refuses, whatever is typed', () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.string(), fc.constantFrom('--valued', '-v', '--', '-p', '-'))),
        (args) => {
          const { operands, values, troubles } = read(...args);
          const used = operands.length + Object.keys(values).length;
          expect(used).toBeLessThanOrEqual(args.length);
          for (const operand of operands) expect(args).toContain(operand);
          const afterEnd = args.includes('--') ? args.slice(args.indexOf('--') + 1) : [];
          if (troubles.length === 0)
            expect(operands.slice(-afterEnd.length || operands.length)).toEqual(afterEnd);
        },
      ),
    );
  });
});

describe('nearest', () => {
  it.each([
    ['paln', 'plan'],
    ['lpan', 'plan'],
    ['mxies', 'mixes'],
    ['comp', 'completion'],
    ['xyzzy', null],
    ['p'.repeat(10_000), null],
  ])('takes "%s" for %s', (typed, meant) => {
    expect(nearest(typed, ['plan', 'mixes', 'completion'])).toBe(meant);
  });
});

describe('isColored', () => {
  it.each([
    [{}, false, true, true],
    [{}, false, false, false],
    [{ color: 'always' }, false, false, true],
    [{ color: 'never' }, false, true, false],
    [{ color: 'always' }, true, true, false],
  ])('%o and --no-color %s, where the terminal shows some: %s', (values, no, has, expected) => {
    expect(isColored({ values, flags: { 'no-color': no } }, has, [])).toBe(expected);
  });
});

describe('every table', () => {
  it('names each option once, gives every value an example, and needs what is there', async () => {
    const tables = await Promise.all(COMMANDS.map(async ({ load }) => (await load()).table));
    expect(tables.map(({ name }) => name)).toEqual(COMMANDS.map(({ name }) => name));
    for (const { name, groups } of tables) {
      const rows = groups.flatMap((group) => group.rows);
      const names = rows.map((row) => row.name);
      expect(new Set(names).size, name).toBe(names.length);
      expect(names).toEqual(expect.arrayContaining(['help', 'color', 'no-color']));
      for (const row of rows) {
        expect(row.help, row.name).not.toBe('');
        expect(row.value === undefined, row.name).toBe(row.example === undefined);
        if (row.needs !== undefined) expect(names).toContain(row.needs);
      }
    }
  });
});
