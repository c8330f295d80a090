import { COMMON, isColored, readArgs, TRIP_OPERAND, UNITS_ROW, type CommandTable } from './option-table';
import { FILL_GROUP, readFillOptions, type FillAsked } from './fill-options';
import { readUnits, type Units } from './units-option';
import { PLAIN_REQUEST, USUAL_RANGE, type ShareRange, type StockRequest } from '../../core/mixes/shares';
import { failures, success, type Result, type Trouble } from '../../core/result';

/** What the command was asked for. */
export interface MixesOptions {
  /** null: the demo trip. */
  readonly trip: string | null;
  readonly json: boolean;
  /** null: the tightest of the party. */
  readonly diver: string | null;
  /** More columns for the comparison, percent. */
  readonly shares: readonly number[];
  /** null: nothing is searched. */
  readonly stock: StockRequest | null;
  readonly fills: FillAsked;
  readonly units: Units;
  readonly help: boolean;
  readonly isColored: boolean;
}

export const MIXES = {
  name: 'mixes',
  takes: '[TRIP]',
  operands: [TRIP_OPERAND],
  groups: [
    {
      heading: '',
      rows: [
        { name: 'json', help: 'print JSON (carryover/mixes, version 1) instead of tables' },
        {
          name: 'diver',
          value: 'ID',
          example: 'the id of a diver, as in --diver guide',
          help: 'compare for one diver; without it the party’s tightest counts',
        },
        {
          name: 'shares',
          value: 'PERCENTS',
          example: 'percents of oxygen, as in --shares 30,36.5',
          help: 'more columns in the comparison, as in --shares 30,36.5',
        },
        {
          name: 'stock',
          value: 'K',
          example: 'a number from 1 to 4, as in --stock 2',
          completed: ['1', '2', '3', '4'],
          help: 'search the best lists of at most K mixes besides air, 1 to 4',
        },
        UNITS_ROW,
        ...COMMON,
      ],
    },
    FILL_GROUP,
    {
      heading: 'For --stock:',
      alone: { what: 'It narrows a search, but none is asked for.', mend: 'Give --stock K too.' },
      rows: [
        {
          name: 'from',
          needs: 'stock',
          value: 'DATE',
          example: 'a date, as in --from 2027-03-17',
          help: 'only dives from this date on may get another mix, as in --from 2027-03-17',
        },
        {
          name: 'pool',
          needs: 'stock',
          value: 'SHARES',
          example: 'a range, as in --pool 28-40, or board',
          completed: ['28-40', 'board'],
          help: 'what lists are made of besides what is on board: 28-40 (default), any range of whole percents from 22 to 40, or "board" for what is on board alone',
        },
        {
          name: 'fixed',
          needs: 'stock',
          value: 'PERCENTS',
          example: 'percents, as in --fixed 32',
          help: 'shares in every list, whole percents from 22 to 40, as in --fixed 32',
        },
        {
          name: 'exclude',
          needs: 'stock',
          value: 'PERCENTS',
          example: 'percents, as in --exclude 38,39,40',
          help: 'shares in no list, as in --exclude 38,39,40',
        },
        {
          name: 'max-cost',
          needs: 'stock',
          value: 'N',
          example: 'a sum, as in --max-cost 120',
          help: 'dearest list, in the trip’s money',
        },
        {
          name: 'max-fills',
          needs: 'stock',
          value: 'N',
          example: 'a number, as in --max-fills 20',
          help: 'most cylinders to fill with anything but air',
        },
      ],
    },
  ],
  exits:
    'Exit 0: worked out. Exit 2: something cannot be used; standard error says what, where and how to mend it.',
} as const satisfies CommandTable;

type Name = 'shares' | 'stock' | 'fixed' | 'exclude' | 'max-cost' | 'max-fills';

function trouble(where: string, what: string, mend: string): Trouble<'options'> {
  return { kind: 'options', what, where, mend };
}

function readNumber(name: Name, text: string, troubles: Trouble<'options'>[]): number {
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (!Number.isFinite(value)) {
    troubles.push(trouble(`--${name}`, `"${text}" is not a number.`, `Write a number, as in --${name} 3.`));
  }
  return value;
}

function readNumbers(
  name: Name,
  text: string | undefined,
  troubles: Trouble<'options'>[],
): readonly number[] {
  return text === undefined ? [] : text.split(',').map((part) => readNumber(name, part, troubles));
}

/** "28-40" or "board"; what else is typed is refused. */
function readPool(text: string | undefined, troubles: Trouble<'options'>[]): ShareRange | null {
  if (text === undefined) return USUAL_RANGE;
  if (text.trim() === 'board') return null;
  const [, from, to] = /^\s*(\d{1,3})\s*-\s*(\d{1,3})\s*$/.exec(text) ?? [];
  if (from === undefined || to === undefined) {
    troubles.push(
      trouble(
        '--pool',
        `"${text}" is no range of shares.`,
        'Write two percents, as in --pool 28-40, or "board".',
      ),
    );
    return USUAL_RANGE;
  }
  return { fromPercent: Number(from), toPercent: Number(to) };
}

/**
 * Reads the arguments of the command. Ranges are judged by the search itself.
 * @param args what follows the command @param hasColors whether the terminal shows any
 * @returns the options, or every trouble with them
 */
export function readMixesOptions(
  args: readonly string[],
  hasColors = false,
): Result<MixesOptions, 'options'> {
  const troubles: Trouble<'options'>[] = [];
  const given = readArgs(args, MIXES, troubles);
  const { operands, values, flags } = given;
  if (operands.length > 1) {
    troubles.push(
      trouble(operands[1]!, 'One trip is looked at at a time.', 'Put names with blanks in quotation marks.'),
    );
  }
  const shares = readNumbers('shares', values.shares, troubles);
  for (const share of shares) {
    if (share >= 21 && share <= 100) continue;
    troubles.push(
      trouble('--shares', `${share} % is no mix of oxygen and air.`, 'Give percents from 21 to 100.'),
    );
  }
  const units = readUnits(values.units, !flags.json, troubles);
  const limit = (name: 'max-cost' | 'max-fills') =>
    values[name] === undefined ? null : readNumber(name, values[name], troubles);
  const stock: StockRequest | null =
    values.stock === undefined
      ? null
      : {
          ...PLAIN_REQUEST,
          count: readNumber('stock', values.stock, troubles),
          range: readPool(values.pool, troubles),
          fixedPercents: readNumbers('fixed', values.fixed, troubles),
          excludedPercents: readNumbers('exclude', values.exclude, troubles),
          maxCost: limit('max-cost'),
          maxFills: limit('max-fills'),
          fromDate: values.from ?? null,
        };
  const fills = readFillOptions(values, troubles);
  const colored = isColored(given, hasColors, troubles);
  if (troubles.length > 0) return failures(troubles);
  return success({
    trip: operands[0] ?? null,
    json: flags.json,
    help: flags.help,
    isColored: colored,
    diver: values.diver ?? null,
    units,
    shares,
    stock,
    fills,
  });
}
