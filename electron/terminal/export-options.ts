import type { CsvStyle } from '../../core/formats/delimited';
import { csvStyleOf } from '../../core/formats/delimited';
import type { ExportFormat } from '../../core/formats/all';
import { failures, success, type Result, type Trouble } from '../../core/result';
import type { Reader } from '../../core/words/reader';
import { COMMON, readArgs, TRIP_OPERAND, type CommandTable } from './option-table';
import { readUnits, type Units } from './units-option';

export type ExportId = ExportFormat['id'] | 'uddf';

/** The word that asks for what can be written. */
const WORDS: Readonly<Record<ExportId, string>> = {
  uddf: 'uddf',
  'dives-csv': 'dives',
  'party-csv': 'party',
  'ledger-csv': 'ledger',
  'sites-csv': 'sites',
  'stock-csv': 'stock',
  'fills-csv': 'fills',
  calendar: 'calendar',
  'sites-gpx': 'gpx',
};

const NAMES: readonly string[] = Object.values(WORDS);

/** What the command was asked for. */
export interface ExportOptions {
  /** null: the demo trip. */
  readonly trip: string | null;
  readonly format: ExportId;
  /** `-`: standard output. */
  readonly out: string;
  readonly mayReplace: boolean;
  /** Of UDDF: null for the whole party. */
  readonly diver: string | null;
  readonly dives: 'all' | 'dived';
  readonly csv: CsvStyle;
  readonly units: Units;
  readonly clock: Reader['clock'];
  readonly help: boolean;
}

export const EXPORT = {
  name: 'export',
  takes: '[TRIP]',
  operands: [TRIP_OPERAND],
  groups: [
    {
      heading: '',
      rows: [
        {
          name: 'format',
          letter: 'f',
          value: 'FORMAT',
          example: `one of ${NAMES.join(', ')}`,
          completed: NAMES,
          help: 'what to write: uddf (dives of each diver), dives, party, ledger, sites, stock or fills (tables, CSV), calendar (iCalendar), or gpx (sites as waypoints)',
        },
        {
          name: 'out',
          letter: 'o',
          value: 'FILE',
          example: 'a file to write, as in --out dives.csv',
          completed: 'file',
          help: 'the file to write; without it, or with -, standard output. UDDF knows one diver a file: of several divers it is an archive, as in --out party.zip',
        },
        { name: 'replace', help: 'FILE may be there already', needs: 'out' },
        ...COMMON,
      ],
    },
    {
      heading: 'For --format uddf:',
      rows: [
        {
          name: 'diver',
          value: 'ID',
          example: 'the id of a diver, as in --diver guide',
          help: 'the dives of one diver',
        },
        { name: 'dived', help: 'only dives that were made, none that is planned' },
      ],
    },
    {
      heading: 'For tables:',
      rows: [
        {
          name: 'decimal',
          value: 'SIGN',
          example: 'point or comma',
          completed: ['point', 'comma'],
          help: 'point (default), with commas between the cells, or comma, with semicolons between them. Tables are in metres, bar and litres',
        },
      ],
    },
    {
      heading: 'For --format calendar:',
      rows: [
        {
          name: 'units',
          value: 'UNITS',
          example: 'units, as in --units imperial',
          completed: ['metric', 'imperial', 'both'],
          help: 'metric (default), imperial or both',
        },
        {
          name: 'clock',
          value: 'HOURS',
          example: '24h or 12h',
          completed: ['24h', '12h'],
          help: '24h (default) or 12h, in its texts',
        },
      ],
    },
  ],
  exits:
    'Exit 0: written. Exit 2: something cannot be used; standard error says what, where and how to mend it, and nothing is written. What could not go into the file is said on standard error too.',
} as const satisfies CommandTable;

type Troubles = Trouble<'options'>[];

function refuse(troubles: Troubles, where: string, what: string, mend: string): void {
  troubles.push({ kind: 'options', where, what, mend });
}

/** One of a few words; the first where nothing is said. */
function readWord<const Word extends string>(
  troubles: Troubles,
  where: string,
  text: string | undefined,
  words: readonly [Word, ...Word[]],
): Word {
  const found = text === undefined ? words[0] : words.find((word) => word === text.trim().toLowerCase());
  // An empty value is told as a missing one already.
  if (found === undefined && text !== '') {
    refuse(troubles, where, `"${text}" is not known here.`, `Use ${words.join(' or ')}.`);
  }
  return found ?? words[0];
}

function readFormat(troubles: Troubles, text: string | undefined, isHelp: boolean): ExportId {
  const asked = text?.trim().toLowerCase();
  const id = (Object.keys(WORDS) as readonly ExportId[]).find((each) => WORDS[each] === asked);
  if (id === undefined && text !== '' && !isHelp) {
    const what = text === undefined ? 'Nothing says what to write.' : `"${text}" is no format known here.`;
    refuse(troubles, '--format', what, `Use one of ${NAMES.join(', ')}.`);
  }
  return id ?? 'dives-csv';
}

/**
 * Reads the arguments of the command.
 * @param args what follows the command
 * @returns the options, or every trouble with them
 */
export function readExportOptions(args: readonly string[]): Result<ExportOptions, 'options'> {
  const troubles: Troubles = [];
  const { operands, values, flags } = readArgs(args, EXPORT, troubles);
  if (operands.length > 1) {
    refuse(troubles, operands[1]!, 'One trip is written at a time.', 'Name one trip file.');
  }
  const format = readFormat(troubles, values.format, flags.help);
  const isTable = format.endsWith('-csv');
  const only = (isGiven: boolean, isLookedAt: boolean, where: string, of: string): void => {
    if (isGiven && !isLookedAt && values.format !== undefined) {
      refuse(troubles, where, `Only ${of} looks at it.`, 'Leave it out.');
    }
  };
  only(values.diver !== undefined, format === 'uddf', '--diver', 'uddf');
  only(flags.dived, format === 'uddf', '--dived', 'uddf');
  only(values.decimal !== undefined, isTable, '--decimal', 'a table');
  only(values.units !== undefined, format === 'calendar', '--units', 'the calendar');
  only(values.clock !== undefined, format === 'calendar', '--clock', 'the calendar');
  const decimal = readWord(troubles, '--decimal', values.decimal, ['point', 'comma']);
  const options: ExportOptions = {
    trip: operands[0] ?? null,
    format,
    out: values.out ?? '-',
    mayReplace: flags.replace,
    diver: values.diver ?? null,
    dives: flags.dived ? 'dived' : 'all',
    csv: csvStyleOf(decimal === 'comma' ? ',' : '.'),
    units: readUnits(values.units, true, troubles),
    clock: readWord(troubles, '--clock', values.clock, ['24h', '12h']),
    help: flags.help,
  };
  return troubles.length > 0 ? failures(troubles) : success(options);
}
