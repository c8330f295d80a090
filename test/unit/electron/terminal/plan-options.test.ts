import { describe, expect, it } from 'vitest';
import { helpText, type OptionGroup } from '../../../../electron/terminal/option-table';
import { PLAN, readPlanOptions } from '../../../../electron/terminal/plan-options';

function troublesOf(...args: string[]): [string, string][] {
  const read = readPlanOptions(args);
  return read.ok ? [] : read.troubles.map(({ where, what }) => [where, what]);
}

describe('readPlanOptions', () => {
  it('plans the demo trip as a table for the whole party when nothing is said', () => {
    const read = readPlanOptions([]);
    expect(read.ok && read.value).toMatchObject({
      trip: null,
      json: false,
      diver: null,
      slate: null,
      help: false,
    });
  });

  it('takes values behind a blank or an equals sign, in any order', () => {
    const read = readPlanOptions([
      '--paper=A5',
      '--slate',
      'out.pdf',
      'trip.json',
      '--diver',
      'guide',
      '--json',
    ]);
    expect(read.ok && read.value).toMatchObject({
      trip: 'trip.json',
      json: true,
      diver: 'guide',
      slate: 'out.pdf',
      slateOptions: { paper: 'A5', kind: null, divers: ['guide'], days: null },
    });
  });

  it('takes several days', () => {
    const read = readPlanOptions(['--slate', 'out.pdf', '--days', '2027-03-15, 2027-03-16', '--two-sided']);
    expect(read.ok && read.value.slateOptions).toMatchObject({
      days: ['2027-03-15', '2027-03-16'],
      twoSided: true,
      singleFaces: false,
    });
  });

  it.each<[string, string[], string, RegExp]>([
    ['an unknown option', ['--verbose'], '--verbose', /no such option/],
    ['a single dash', ['-x'], '-x', /no such option/],
    ['a value of a plain option', ['--json=yes'], '--json', /takes no value/],
    ['a colour that is none', ['--color', 'red'], '--color', /"red" is not known/],
    ['a missing value', ['--diver'], '--diver', /value is missing/],
    ['an option in the place of a value', ['--diver', '--json'], '--diver', /value is missing/],
    ['an empty value', ['--diver='], '--diver', /value is missing/],
    ['an option given twice', ['--diver', 'a', '--diver', 'b'], '--diver', /given twice/],
    ['two trips', ['a.json', 'b.json'], 'b.json', /One trip/],
    ['slates that are no PDF', ['--slate', 'trip.json'], '--slate', /does not end in .pdf/],
    ['a paper without slates', ['--paper', 'A5'], '--paper', /none are asked for/],
    ['days that are none', ['--slate', 'o.pdf', '--days', 'monday'], '--days', /"monday" is not a date/],
  ])('refuses %s', (_, args, where, what) => {
    const troubles = troublesOf(...args);
    expect(troubles.map(([at]) => at)).toEqual([where]);
    expect(troubles[0]![1]).toMatch(what);
  });

  it('guesses what a misspelt option meant', () => {
    const read = readPlanOptions(['--papper', 'A5']);
    expect(read.ok ? '' : read.troubles[0].mend).toMatch(/Did you mean --paper\?/);
  });

  it('tells mistakes together', () => {
    expect(troublesOf('--verbose', '--diver', '--slate', 'x').map(([where]) => where)).toEqual([
      '--verbose',
      '--diver',
      '--slate',
    ]);
  });

  it('takes units for the table alone, and for the slates as well', () => {
    const units = (...args: string[]) => {
      const read = readPlanOptions(args);
      return read.ok ? [read.value.units, read.value.slateOptions.units] : read.troubles;
    };
    expect(units()).toEqual(['metric', 'metric']);
    expect(units('--units', 'imperial')).toEqual(['imperial', 'imperial']);
    expect(units('--units', ' Both', '--slate', 'o.pdf')).toEqual(['both', 'both']);
    expect(units('--units', 'both', '--json', '--slate', 'o.pdf')).toEqual(['both', 'both']);
  });

  it('refuses units that are none, and units for JSON', () => {
    expect(troublesOf('--units', 'feet')).toEqual([['--units', '"feet" is not known here.']]);
    expect(troublesOf('--units', 'imperial', '--json').map(([where]) => where)).toEqual(['--units']);
    expect(troublesOf('--units').map(([where, what]) => [where, what])).toEqual([
      ['--units', 'A value is missing.'],
    ]);
  });

  it('explains every option it takes, at any width of the terminal', () => {
    const rows = PLAN.groups.flatMap((group: OptionGroup) => group.rows);
    for (const columns of [40, 80, 100, 200]) {
      const help = helpText(PLAN, 'carryover plan', columns);
      const lines = help.split('\n');
      expect(lines[0]).toBe('carryover plan [TRIP] [options]');
      expect(lines.filter((line) => line.length > Math.min(columns, 100))).toEqual([]);
      for (const { name, help: text } of rows) {
        expect(help).toContain(`--${name}`);
        expect(help.replaceAll(/\s+/g, ' ')).toContain(text);
      }
    }
  });
});
