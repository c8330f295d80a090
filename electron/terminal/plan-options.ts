import {
  COMMON,
  isColored,
  readArgs,
  STRICT_EXIT,
  STRICT_ROW,
  TRIP_OPERAND,
  UNITS_ROW,
  type CommandTable,
} from './option-table';
import { failures, success, type Result, type Trouble } from '../../core/result';
import { readUnits, type Units } from './units-option';
import type { SlateOptions } from '../../core/slate/options';
import { SLATE_KINDS } from '../../core/slate/request';
import { RUNS_RANGE, SEED_RANGE, USUAL_RUNS, USUAL_SEED } from '../../core/sturdiness/sturdiness';

/** What the command was asked for. */
export interface PlanOptions {
  /** null: the demo trip. */
  readonly trip: string | null;
  readonly json: boolean;
  /** null: the whole party. */
  readonly diver: string | null;
  /** A dive, or a figure of one, whose workings are printed in the place of the plan; null: the plan. */
  readonly explain: string | null;
  /** How often the plan is drawn, and by what, where it is asked how sturdy it is in the place of the plan; null: the plan. */
  readonly sturdy: { readonly runs: number; readonly seed: number } | null;
  /** Where the slates go; null: none are made. */
  readonly slate: string | null;
  /** How slates are made, in words; the slates judge them. */
  readonly slateOptions: SlateOptions;
  /** Of the table, and of the slates. */
  readonly units: Units;
  readonly help: boolean;
  /** Whether a caution to stop is to be heard in the exit code. */
  readonly strict: boolean;
  readonly isColored: boolean;
}

/** Papers by their names; a size in millimetres or inches is one too. */
const PAPERS = ['A6', 'A5', 'A4', 'letter', 'half-letter', '4x6in'];

export const PLAN = {
  name: 'plan',
  takes: '[TRIP]',
  operands: [TRIP_OPERAND],
  groups: [
    {
      heading: '',
      rows: [
        { name: 'json', help: 'print the ledger as JSON instead of a table' },
        {
          name: 'diver',
          value: 'ID',
          example: 'the id of a diver, as in --diver guide',
          help: 'one diver of the party, by id',
        },
        { ...UNITS_ROW, help: 'metric (default), imperial or both: of the table, and of the slates' },
        {
          name: 'explain',
          value: 'DIVE[.FIGURE]',
          example: 'a dive, as in --explain 13 or --explain 13.noStopMin',
          help: 'print how the figures of a dive come about instead, or one of them: --explain 13, --explain 13.noStopMin; with --json as carryover/workings, always in metres and bar',
        },
        {
          name: 'sturdy',
          help: 'print how sturdy the plan is instead: how often the dives ahead pass a limit when depth, time, start, gas rate and analysis scatter about it; with --json as carryover/sturdiness',
        },
        {
          name: 'runs',
          needs: 'sturdy',
          value: 'N',
          example: 'how many runs, as in --runs 10000',
          help: `how often the plan is drawn: ${RUNS_RANGE.min} to ${RUNS_RANGE.max}, ${USUAL_RUNS} by default`,
        },
        {
          name: 'seed',
          needs: 'sturdy',
          value: 'S',
          example: 'a whole number, as in --seed 7',
          help: `what is drawn by: the same number draws the same; 0 to ${SEED_RANGE.max}, ${USUAL_SEED} by default`,
        },
        {
          name: 'slate',
          value: 'OUT.pdf',
          example: 'a file to write, as in --slate week.pdf',
          completed: 'file',
          help: 'also write slates to this file',
        },
        STRICT_ROW,
        ...COMMON,
      ],
    },
    {
      heading: 'How slates are made:',
      alone: {
        what: 'It says how slates are made, but none are asked for.',
        mend: 'Give --slate OUT.pdf too.',
      },
      rows: [
        {
          name: 'kind',
          needs: 'slate',
          value: 'KIND',
          example: 'a kind of slate, as in --kind briefing',
          completed: SLATE_KINDS,
          help: 'card (default), briefing, guest, trip, tags or depth: day card, briefing sheet, a sheet for each guest, trip sheet, cylinder tags, depth card of each mix',
        },
        {
          name: 'paper',
          needs: 'slate',
          value: 'NAME',
          example: 'a paper, as in --paper A5',
          completed: PAPERS,
          help: 'A6 (default for cards), A4 (for the others), A5, letter, half-letter, 4x6in, or a size such as 105x148mm',
        },
        {
          name: 'days',
          needs: 'slate',
          value: 'DATES',
          example: 'dates, as in --days 2027-03-15,2027-03-16',
          completed: ['next', 'all'],
          help: 'next, all, or days such as 2027-03-15,2027-03-16; the next diving day by default, of the trip sheet all',
        },
        {
          name: 'clock',
          needs: 'slate',
          value: 'CLOCK',
          example: 'a clock, as in --clock 12h',
          completed: ['24h', '12h'],
          help: 'times of day on slates: 24h (default) or 12h',
        },
        {
          name: 'holes',
          needs: 'slate',
          value: 'SIDE',
          example: 'a side, as in --holes top',
          completed: ['none', 'left', 'right', 'top'],
          help: 'punched side: none (default), left, right or top',
        },
        {
          name: 'margin',
          needs: 'slate',
          value: 'MM',
          example: 'millimetres, as in --margin 6',
          help: 'free margin; of cards and on paper up to A5 5 by default, else 10',
        },
        {
          name: 'sheet',
          needs: 'slate',
          value: 'NAME',
          example: 'a paper, as in --sheet A4',
          completed: PAPERS,
          help: 'a larger paper for several pages with cut marks',
        },
        {
          name: 'label',
          needs: 'slate',
          value: 'SIZE',
          example: 'a size, as in --label 99x57mm',
          help: 'with --kind tags: size of one tag, such as 70x37mm or 4x2in; 95x54mm by default',
        },
        {
          name: 'since',
          needs: 'slate',
          value: 'TRIP',
          example: 'a trip file, as in --since yesterday.json',
          completed: 'file',
          help: 'with --kind briefing: an earlier file of the trip; the sheet says what changed since',
        },
        { name: 'two-sided', needs: 'slate', help: 'every second page is the back of the one before' },
        {
          name: 'card',
          needs: 'slate',
          value: 'FORM',
          example: 'a form of card, as in --card short',
          completed: ['full', 'short', 'dive'],
          help: 'with --kind card: full (default, two dives a face), short (the day on one face) or dive (one a page)',
        },
        {
          name: 'single-faces',
          needs: 'slate',
          help: 'with --kind card: each face on a page of its own; else front and back lie side by side, to fold',
        },
      ],
      note: 'Tags fill label stock to its edges: with --kind tags, --holes, --margin and --two-sided reach the pages of the analysis log alone.',
    },
  ],
  exits: `Exit 0: planned, whatever the cautions say. ${STRICT_EXIT} Exit 2: something cannot be used; standard error says what, where and how to mend it, and nothing is written.`,
} as const satisfies CommandTable;

/** What is handed to the slates as it was typed. */
const OF_SLATES = ['kind', 'paper', 'clock', 'card', 'holes', 'margin', 'sheet', 'label', 'since'] as const;

function trouble(where: string, what: string, mend: string): Trouble<'options'> {
  return { kind: 'options', what, where, mend };
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

/** A whole number between two others; told as a trouble where it is none. */
function readWhole(
  name: string,
  text: string | undefined,
  usual: number,
  { min, max }: { readonly min: number; readonly max: number },
  troubles: Trouble<'options'>[],
): number {
  // A missing value has been told already.
  if (text === undefined || text === '') return usual;
  const value = /^\d+$/.test(text.trim()) ? Number(text) : NaN;
  if (value >= min && value <= max) return value;
  troubles.push(
    trouble(`--${name}`, `"${text}" is no whole number from ${min} to ${max}.`, `Write it as ${usual}.`),
  );
  return usual;
}

/**
 * Reads the arguments of the command.
 * @param args what follows the command @param hasColors whether the terminal shows any
 * @returns the options, or every trouble with them
 */
export function readPlanOptions(args: readonly string[], hasColors = false): Result<PlanOptions, 'options'> {
  const troubles: Trouble<'options'>[] = [];
  const given = readArgs(args, PLAN, troubles);
  const { operands, values, flags } = given;
  if (operands.length > 1) {
    troubles.push(
      trouble(
        operands[1]!,
        'One trip is planned at a time.',
        'Give one trip file; put names with blanks in quotation marks.',
      ),
    );
  }
  const { slate = null, diver = null, explain = null } = values;
  if (slate !== null && slate !== '' && !slate.toLowerCase().endsWith('.pdf')) {
    troubles.push(
      trouble(
        '--slate',
        `"${slate}" does not end in .pdf.`,
        'Name a PDF file, so that nothing else is written over.',
      ),
    );
  }
  const sturdy = flags.sturdy
    ? {
        runs: readWhole('runs', values.runs, USUAL_RUNS, RUNS_RANGE, troubles),
        seed: readWhole('seed', values.seed, USUAL_SEED, SEED_RANGE, troubles),
      }
    : null;
  if (sturdy !== null && explain !== null) {
    troubles.push(
      trouble(
        '--sturdy',
        'Workings are asked for as well.',
        'Ask for one of --explain and --sturdy at a time.',
      ),
    );
  }
  const days = values.days === undefined || values.days === '' ? null : readDays(values.days, troubles);
  const units = readUnits(values.units, !flags.json || slate !== null, troubles);
  const colored = isColored(given, hasColors, troubles);
  if (troubles.length > 0) return failures(troubles);
  return success({
    trip: operands[0] ?? null,
    json: flags.json,
    help: flags.help,
    strict: flags.strict,
    isColored: colored,
    diver,
    explain,
    sturdy,
    slate,
    units,
    slateOptions: {
      units,
      ...Object.fromEntries(OF_SLATES.map((name) => [name, values[name] ?? null])),
      days,
      divers: diver === null ? null : [diver],
      twoSided: flags['two-sided'],
      singleFaces: flags['single-faces'],
    },
  });
}
