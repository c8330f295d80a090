import { parsedArgs } from './parsed-args';
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
  readonly units: Units;
  readonly help: boolean;
}

export const USAGE = `npm run --silent mixes -- [TRIP] [options]

  TRIP              a trip file; without one the demo trip is used
  --json            print JSON (carryover/mixes, version 1) instead of tables
  --diver ID        compare for one diver; without it the party's tightest counts
  --shares PERCENTS more columns in the comparison, as in --shares 30,36.5
  --stock K         search the best lists of at most K mixes besides air, 1 to 4
  --units UNITS     metric (default), imperial or both
  --help            print this

For --stock:
  --from DATE       only dives from this date on may get another mix, as in --from 2027-03-17
  --pool SHARES     what lists are made of besides what is on board: 28-40 (default), any range of whole percents
                    from 22 to 40, or "board" for what is on board alone
  --fixed PERCENTS  shares in every list, whole percents from 22 to 40, as in --fixed 32
  --exclude PERCENTS  shares in no list, as in --exclude 38,39,40
  --max-cost N      dearest list, in the trip's money
  --max-fills N     most cylinders to fill with anything but air

Exit 0: worked out. Exit 2: something cannot be used; standard error says what, where and how to mend it.
`;

const OPTIONS = {
  json: { type: 'boolean' },
  help: { type: 'boolean' },
  units: { type: 'string' },
  diver: { type: 'string' },
  shares: { type: 'string' },
  stock: { type: 'string' },
  from: { type: 'string' },
  pool: { type: 'string' },
  fixed: { type: 'string' },
  exclude: { type: 'string' },
  'max-cost': { type: 'string' },
  'max-fills': { type: 'string' },
} as const;

type Name = keyof typeof OPTIONS;

/** Options that without --stock would be passed over in silence. */
const OF_STOCK = [
  'from',
  'pool',
  'fixed',
  'exclude',
  'max-cost',
  'max-fills',
] as const satisfies readonly Name[];

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
 * @param args what follows the command
 * @returns the options, or every trouble with them
 */
export function readMixesOptions(args: readonly string[]): Result<MixesOptions, 'options'> {
  const parsed = parsedArgs(args, OPTIONS);
  if (!parsed.ok) return parsed;
  const { values, positionals } = parsed.value;
  const troubles: Trouble<'options'>[] = [];
  if (positionals.length > 1) {
    troubles.push(
      trouble(
        positionals[1]!,
        'One trip is looked at at a time.',
        'Put names with blanks in quotation marks.',
      ),
    );
  }
  const shares = readNumbers('shares', values.shares, troubles);
  for (const share of shares) {
    if (share >= 21 && share <= 100) continue;
    troubles.push(
      trouble('--shares', `${share} % is no mix of oxygen and air.`, 'Give percents from 21 to 100.'),
    );
  }
  if (values.stock === undefined) {
    for (const name of OF_STOCK) {
      if (values[name] === undefined) continue;
      troubles.push(
        trouble(`--${name}`, 'It narrows a search, but none is asked for.', 'Give --stock K too.'),
      );
    }
  }
  const units = readUnits(values.units, values.json !== true, troubles);
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
  if (troubles.length > 0) return failures(troubles);
  return success({
    trip: positionals[0] ?? null,
    json: values.json ?? false,
    help: values.help ?? false,
    diver: values.diver ?? null,
    units,
    shares,
    stock,
  });
}
