/**
 * The options of a command, in one table: it is what the arguments are read by, what the help prints and what a
 * shell completes. What a value means is judged by the command.
 */
import { parseArgs } from 'node:util';
import { greatest } from '../../core/numeric';
import type { Trouble } from '../../core/result';
import { nearest } from './near-miss';
import { TABLE_COLUMNS, wrapped } from './text-table';

/** What a shell may put in the place of a value. */
type Completed = 'file' | readonly string[];

export interface OptionRow {
  /** Without its dashes. */
  readonly name: string;
  /** The letter that means the same, without its dash. */
  readonly letter?: string;
  /** What its value is called, "OUT.pdf"; left out: it takes none. */
  readonly value?: string;
  /** What is to be given where the value is missing: "a file to write, as in --slate week.pdf". */
  readonly example?: string;
  readonly completed?: Completed;
  readonly help: string;
  /** Another option without which this one would be passed over in silence. */
  readonly needs?: string;
}

/** Options under a heading; those without one come first. */
export interface OptionGroup {
  readonly heading: string;
  readonly rows: readonly OptionRow[];
  /** What stands below them. */
  readonly note?: string;
  /** What is told of an option of the group that is given without what it needs, in two sentences. */
  readonly alone?: { readonly what: string; readonly mend: string };
}

/** A command by what it takes. */
export interface CommandTable {
  readonly name: string;
  /** What it takes besides options, "[TRIP]", and the lines that say so. */
  readonly takes: string;
  readonly operands: readonly { readonly name: string; readonly help: string }[];
  readonly groups: readonly OptionGroup[];
  /** What the exit codes say. */
  readonly exits: string;
}

type RowOf<Groups extends readonly OptionGroup[]> = Groups[number]['rows'][number];
type ValueNames<Rows extends OptionRow> = Extract<Rows, { readonly value: string }>['name'];
type FlagNames<Rows extends OptionRow> = Exclude<Rows, { readonly value: string }>['name'];

/** The arguments taken apart by a table. */
export interface Given<Groups extends readonly OptionGroup[]> {
  readonly operands: readonly string[];
  readonly values: { readonly [Name in ValueNames<RowOf<Groups>>]?: string };
  readonly flags: { readonly [Name in FlagNames<RowOf<Groups>>]: boolean };
}

/** Options that every command has. */
export const COMMON = [
  { name: 'help', letter: 'h', help: 'print this' },
  {
    name: 'color',
    value: 'WHEN',
    example: 'auto, always or never',
    completed: ['auto', 'always', 'never'],
    help: 'auto (default), always or never; auto shows none in a pipe or where NO_COLOR is set',
  },
  { name: 'no-color', help: 'as --color never' },
] as const satisfies readonly OptionRow[];

export const UNITS_ROW = {
  name: 'units',
  value: 'UNITS',
  example: 'units, as in --units imperial',
  completed: ['metric', 'imperial', 'both'],
  help: 'metric (default), imperial or both',
} as const satisfies OptionRow;

export const STRICT_ROW = {
  name: 'strict',
  help: 'exit 1 where a limit is passed; without it cautions change no exit code',
} as const satisfies OptionRow;

export const STRICT_EXIT = 'Exit 1: planned, but with --strict a limit is passed.';

export const TRIP_OPERAND = {
  name: 'TRIP',
  help: 'a trip file, or - for standard input; without one the demo trip is used',
} as const;

function rowsOf({ groups }: Pick<CommandTable, 'groups'>): readonly OptionRow[] {
  return groups.flatMap(({ rows }) => rows);
}

function trouble(where: string, what: string, mend: string): Trouble<'options'> {
  return { kind: 'options', where, what, mend };
}

function unknown(name: string, rows: readonly OptionRow[]): Trouble<'options'> {
  const names = rows.map((row) => `--${row.name}`);
  const near = nearest(name, names);
  return trouble(
    name,
    'There is no such option.',
    near === null ? `Use ${names.join(', ')}.` : `Did you mean ${near}? --help lists all.`,
  );
}

/** Options without the one that they depend on; where all of a group depend on it, the group says why. */
function lonely(groups: readonly OptionGroup[], isGiven: (name: string) => boolean): Trouble<'options'>[] {
  return groups.flatMap(({ rows, alone }) =>
    rows
      .filter(({ name, needs }) => needs !== undefined && isGiven(name) && !isGiven(needs))
      .map(({ name, needs }) =>
        trouble(
          `--${name}`,
          alone?.what ?? `It says more about --${needs}, which is not given.`,
          alone?.mend ?? `Give --${needs} too, or leave it out.`,
        ),
      ),
  );
}

/**
 * Letters with a dash among them, "-p-x": the parser would take the dash for the end of the options, and every argument
 * behind it for the one before.
 */
const DASHED_LETTERS = /^-[^-].*-/s;
/** In its place: a letter that no option has. */
const NO_LETTER = '-\u0000';

/**
 * The arguments of a command by its table.
 * @param args what follows the command @param table whose rows are asked; `--` ends the options, `-` is none
 * @param troubles takes what is wrong with them, all at once: what is not in the table, given twice, without its
 *   value, with one that it does not take, or without the option it depends on
 */
export function readArgs<const Groups extends readonly OptionGroup[]>(
  args: readonly string[],
  table: Pick<CommandTable, 'groups'> & { readonly groups: Groups },
  troubles: Trouble<'options'>[],
): Given<Groups> {
  const rows = rowsOf(table);
  const operands: string[] = [];
  const values = new Map<string, string>();
  const flags = new Set<string>();
  // To the parser of the runtime no option takes a value: which does is in the table.
  const told = args.map((arg) => (DASHED_LETTERS.test(arg) ? NO_LETTER : arg));
  const { tokens } = parseArgs({ args: told, strict: false, allowPositionals: true, tokens: true });
  let takenAt = -1;
  for (const token of tokens) {
    if (token.kind === 'option-terminator') continue;
    if (token.kind === 'positional') {
      if (token.index !== takenAt) operands.push(args[token.index]!);
    } else if (token.index !== takenAt) {
      const { rawName, index } = token;
      const row = rows.find(({ name, letter }) => rawName === `--${name}` || rawName === `-${letter}`);
      if (row === undefined) troubles.push(unknown(rawName === NO_LETTER ? args[index]! : rawName, rows));
      else if (row.value === undefined) {
        flags.add(row.name);
        if (token.inlineValue === true) {
          troubles.push(trouble(rawName, 'It takes no value.', `Write ${rawName} alone.`));
        }
      } else {
        const next = args[index + 1];
        const isNext = token.value === undefined && next !== undefined && !next.startsWith('--');
        const value = token.value ?? (isNext ? next : undefined);
        if (isNext) takenAt = index + 1;
        if (values.has(row.name)) troubles.push(trouble(rawName, 'It is given twice.', 'Give it once.'));
        else if (value === undefined || value === '') {
          troubles.push(trouble(rawName, 'A value is missing.', `Give ${row.example ?? row.value}.`));
        }
        // Without a value it was asked for all the same: what depends on it is not at fault.
        if (!values.has(row.name)) values.set(row.name, value ?? '');
      }
    }
  }
  for (const each of lonely(table.groups, (name) => flags.has(name) || values.has(name))) troubles.push(each);
  return {
    operands,
    values: Object.fromEntries(values),
    flags: Object.fromEntries(
      rows.filter(({ value }) => value === undefined).map(({ name }) => [name, flags.has(name)]),
    ),
  } as unknown as Given<Groups>;
}

/** Whether colours are shown, by what was asked and else by what the terminal can. */
export function isColored(
  {
    values,
    flags,
  }: { readonly values: { readonly color?: string }; readonly flags: { 'no-color': boolean } },
  hasColors: boolean,
  troubles: Trouble<'options'>[],
): boolean {
  const asked = flags['no-color'] ? 'never' : (values.color ?? 'auto');
  // A missing value has been told already.
  if (!['auto', 'always', 'never', ''].includes(asked)) {
    troubles.push(trouble('--color', `"${asked}" is not known here.`, 'Use auto, always or never.'));
  }
  return asked === 'always' || (asked === 'auto' && hasColors);
}

/** How far the texts of a help stand in, and in a narrow terminal; a longer name has a line of its own. */
const MOST_INDENT = 22;
const NARROW = 60;
const NARROW_INDENT = 6;

function flagText({ name, letter, value }: OptionRow): string {
  return `${letter === undefined ? '' : `-${letter}, `}--${name}${value === undefined ? '' : ` ${value}`}`;
}

/** Lines of names and what they mean, in two columns. */
export function definitions(
  lines: readonly { readonly name: string; readonly help: string }[],
  columns: number,
): string {
  const most = columns < NARROW ? NARROW_INDENT : MOST_INDENT;
  const indent = Math.min(most, greatest(lines.map(({ name }) => name.length)) + 4);
  return lines
    .map(({ name, help }) => {
      const blanks = ' '.repeat(indent);
      const text = wrapped(help, 0, columns - indent).replaceAll('\n', `\n${blanks}`);
      const head = `  ${name}`;
      return head.length + 2 > indent ? `${head}\n${blanks}${text}` : `${head.padEnd(indent)}${text}`;
    })
    .join('\n');
}

/**
 * The help of a command, from its table.
 * @param called how the command is called, "carryover plan" @param columns of the terminal; 100 are used at most
 */
export function helpText(table: CommandTable, called: string, columns: number): string {
  const width = Math.min(columns, TABLE_COLUMNS);
  const parts = [`${called} ${table.takes} [options]`];
  table.groups.forEach(({ heading, rows, note }, at) => {
    const lines = rows.map((row) => ({ name: flagText(row), help: row.help }));
    const all = at === 0 ? [...table.operands, ...lines] : lines;
    parts.push(`${heading === '' ? '' : `${heading}\n`}${definitions(all, width)}`);
    if (note !== undefined) parts.push(wrapped(note, 0, width));
  });
  return `${[...parts, wrapped(table.exits, 0, width)].join('\n\n')}\n`;
}
