import { failures, success, type Result, type Trouble } from '../../core/result';
import { readUnits, type Units } from './units-option';
import type { SlateOptions } from '../../core/slate/options';

/** What the command was asked for. */
export interface PlanOptions {
  /** null: the demo trip. */
  readonly trip: string | null;
  readonly json: boolean;
  /** null: the whole party. */
  readonly diver: string | null;
  /** A dive, or a figure of one, whose workings are printed in the place of the plan; null: the plan. */
  readonly explain: string | null;
  /** Where the slates go; null: none are made. */
  readonly slate: string | null;
  /** How slates are made, in words; the slates judge them. */
  readonly slateOptions: SlateOptions;
  /** Of the table, and of the slates. */
  readonly units: Units;
  readonly help: boolean;
}

export const USAGE = `npm run --silent plan -- [TRIP] [options]

  TRIP             a trip file; without one the demo trip is planned
  --json           print the ledger as JSON instead of a table
  --diver ID       one diver of the party, by id
  --units UNITS    metric (default), imperial or both: of the table, and of the slates
  --explain DIVE[.FIGURE]  print how the figures of a dive come about instead, or one of them: --explain 13,
                   --explain 13.noStopMin; with --json as carryover/workings, always in metres and bar
  --slate OUT.pdf  also write slates to this file
  --help           print this

How slates are made:
  --kind KIND      card (default), briefing, trip, tags or depth: day card, briefing sheet, trip sheet, cylinder tags,
                   depth card of each mix
  --paper NAME     A6 (default for cards), A4 (for the others), A5, letter, half-letter, 4x6in, or a size such as 105x148mm
  --days DATES     next, all, or days such as 2027-03-15,2027-03-16; the next diving day by default, of the trip sheet all
  --clock CLOCK    times of day on slates: 24h (default) or 12h
  --holes SIDE     punched side: none (default), left, right or top
  --margin MM      free margin; of cards 5 by default, of the others 10
  --sheet NAME     a larger paper for several pages with cut marks
  --label SIZE     with --kind tags: size of one tag, such as 70x37mm (default on A4) or 4x2in (on letter)
  --two-sided      every second page is the back of the one before
  --card FORM      with --kind card: full (default, two dives a face), short (the day on one face) or dive (one a page)
  --single-faces   with --kind card: each face on a page of its own; else front and back lie side by side, to fold

Tags fill label stock to its edges and give metres and feet both: with --kind tags, --holes, --margin and
--two-sided reach the page of the analysis log alone, and --units changes nothing.

Exit 0: planned, whatever the cautions say. Exit 2: something cannot be used; standard error says what,
where and how to mend it, and nothing is written.
`;

/** Options with a value, and what that is. */
const VALUED = {
  diver: 'the id of a diver, as in --diver guide',
  explain: 'a dive, as in --explain 13 or --explain 13.noStopMin',
  slate: 'a file to write, as in --slate week.pdf',
  kind: 'a kind of slate, as in --kind briefing',
  paper: 'a paper, as in --paper A5',
  days: 'dates, as in --days 2027-03-15,2027-03-16',
  units: 'units, as in --units imperial',
  clock: 'a clock, as in --clock 12h',
  card: 'a form of card, as in --card short',
  holes: 'a side, as in --holes top',
  margin: 'millimetres, as in --margin 6',
  sheet: 'a paper, as in --sheet A4',
  label: 'a size, as in --label 99x57mm',
} as const;

const PLAIN = ['json', 'help', 'two-sided', 'single-faces'] as const;

type Valued = keyof typeof VALUED;
type Plain = (typeof PLAIN)[number];

const FLAGS = [...PLAIN, ...Object.keys(VALUED)].map((name) => `--${name}`);

/** Options that without --slate would be passed over in silence. */
const OF_SLATES = ['kind', 'paper', 'days', 'clock', 'card', 'holes', 'margin', 'sheet', 'label'] as const;

function trouble(where: string, what: string, mend: string): Trouble<'options'> {
  return { kind: 'options', what, where, mend };
}

/** A list someone can choose from, and a guess where the beginning agrees. */
function unknownFlag(name: string): Trouble<'options'> {
  const near = FLAGS.find((flag) => flag.slice(0, 4) === name.slice(0, 4));
  return trouble(
    name,
    'There is no such option.',
    near === undefined ? `Use ${FLAGS.join(', ')}.` : `Did you mean ${near}? --help lists all.`,
  );
}

function readDays(text: string, troubles: Trouble<'options'>[]): readonly string[] | 'all' | 'next' {
  if (text === 'all' || text === 'next') return text;
  const days = text.split(',').map((day) => day.trim());
  for (const day of days) {
    if (/^\d{4}-\d\d-\d\d$/.test(day)) continue;
    troubles.push(
      trouble(
        '--days',
        `"${day}" is not a date.`,
        'Write dates as 2027-03-15, several with commas between, or all or next.',
      ),
    );
  }
  return days;
}

/** The arguments taken apart, before they are judged together. */
interface Taken {
  readonly files: string[];
  readonly plain: Set<Plain>;
  readonly given: Partial<Record<Valued, string>>;
}

function take(args: readonly string[], troubles: Trouble<'options'>[]): Taken {
  const taken: Taken = { files: [], plain: new Set(), given: {} };
  for (let index = 0; index < args.length; index += 1) {
    const arg = args[index]!;
    if (!arg.startsWith('-')) {
      taken.files.push(arg);
      continue;
    }
    const equals = arg.indexOf('=');
    const name = equals < 0 ? arg : arg.slice(0, equals);
    const inline = equals < 0 ? undefined : arg.slice(equals + 1);
    const plain = PLAIN.find((each) => name === `--${each}` && inline === undefined);
    const key = name.slice(2) as Valued;
    if (plain !== undefined) taken.plain.add(plain);
    else if (!name.startsWith('--') || !Object.hasOwn(VALUED, key)) troubles.push(unknownFlag(name));
    else {
      const next = args[index + 1];
      const value = inline ?? (next?.startsWith('--') === true ? undefined : next);
      if (inline === undefined && value !== undefined) index += 1;
      if (taken.given[key] !== undefined) troubles.push(trouble(name, 'It is given twice.', 'Give it once.'));
      else if (value === undefined || value === '') {
        troubles.push(trouble(name, 'A value is missing.', `Give ${VALUED[key]}.`));
      }
      // Without a value it was asked for all the same: what depends on it is not at fault.
      taken.given[key] ??= value ?? '';
    }
  }
  return taken;
}

/**
 * Reads the arguments of the command.
 * @param args what follows the command
 * @returns the options, or every trouble with them
 */
export function readPlanOptions(args: readonly string[]): Result<PlanOptions, 'options'> {
  const troubles: Trouble<'options'>[] = [];
  const { files, plain, given } = take(args, troubles);
  if (files.length > 1) {
    troubles.push(
      trouble(
        files[1]!,
        'One trip is planned at a time.',
        'Give one trip file; put names with blanks in quotation marks.',
      ),
    );
  }
  const { slate = null } = given;
  if (slate !== null && slate !== '' && !slate.toLowerCase().endsWith('.pdf')) {
    troubles.push(
      trouble(
        '--slate',
        `"${slate}" does not end in .pdf.`,
        'Name a PDF file, so that nothing else is written over.',
      ),
    );
  }
  const asked = [...OF_SLATES, 'two-sided', 'single-faces'] as const;
  for (const name of slate === null ? asked : []) {
    if (plain.has(name as Plain) || given[name as Valued] !== undefined) {
      troubles.push(
        trouble(
          `--${name}`,
          'It says how slates are made, but none are asked for.',
          'Give --slate OUT.pdf too.',
        ),
      );
    }
  }
  const days = given.days === undefined || given.days === '' ? null : readDays(given.days, troubles);
  const units = readUnits(given.units, !plain.has('json') || slate !== null, troubles);
  if (troubles.length > 0) return failures(troubles);
  const { diver = null, explain = null } = given;
  return success({
    trip: files[0] ?? null,
    json: plain.has('json'),
    help: plain.has('help'),
    diver,
    explain,
    slate,
    units,
    slateOptions: {
      units,
      ...Object.fromEntries(OF_SLATES.map((name) => [name, given[name] ?? null])),
      days,
      divers: diver === null ? null : [diver],
      twoSided: plain.has('two-sided'),
      singleFaces: plain.has('single-faces'),
    },
  });
}
