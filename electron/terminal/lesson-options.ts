import { LARGEST_SEED } from '../../core/lesson/drawing-lots';
import { LEVELS, MOST_QUESTIONS, USUAL_SHEET, type Level, type SheetRequest } from '../../core/lesson/sheet';
import { failures, success, type Result, type Trouble } from '../../core/result';
import { readPaper, type Paper } from '../../core/slate/paper';
import { COMMON, readArgs, type CommandTable } from './option-table';

/** What the command was asked for. */
export interface LessonOptions {
  readonly sheet: SheetRequest;
  readonly paper: Paper;
  readonly json: boolean;
  /** null: no PDF. */
  readonly out: string | null;
  readonly mayReplace: boolean;
  readonly help: boolean;
}

export const LESSON = {
  name: 'lesson',
  takes: '',
  operands: [],
  groups: [
    {
      heading: '',
      rows: [
        {
          name: 'seed',
          value: 'N',
          example: 'a whole number, as in --seed 7',
          help: `which sheet, from 1 to ${LARGEST_SEED}; the same one always gives the same questions. ${USUAL_SHEET.seed} without it`,
        },
        {
          name: 'level',
          value: 'N',
          example: '1, 2 or 3',
          completed: ['1', '2', '3'],
          help: `1: pressure, PO2 and MOD; 2: EAD and the richest mix too; 3: CNS and residual nitrogen of two dives too. ${USUAL_SHEET.level} without it`,
        },
        {
          name: 'questions',
          value: 'N',
          example: 'a whole number, as in --questions 10',
          help: `from 1 to ${MOST_QUESTIONS}; ${USUAL_SHEET.questions} without it`,
        },
        {
          name: 'units',
          value: 'UNITS',
          example: 'metric or imperial',
          completed: ['metric', 'imperial'],
          help: 'metric (default) or imperial',
        },
        { name: 'json', help: 'print JSON (carryover/lesson, version 1) instead of text' },
        {
          name: 'out',
          value: 'FILE',
          example: 'a file to write, as in --out sheet.pdf',
          completed: 'file',
          help: 'write the sheet as a PDF too, the answers on pages of their own',
        },
        {
          name: 'paper',
          value: 'NAME',
          example: 'a paper, as in --paper letter',
          completed: ['A4', 'letter'],
          help: 'A4 (default), letter, or a size such as 210x297mm',
          needs: 'out',
        },
        { name: 'replace', help: 'FILE may be there already', needs: 'out' },
        ...COMMON,
      ],
    },
  ],
  exits:
    'Exit 0: made. Exit 2: something cannot be used; standard error says what, where and how to mend it, and nothing is written.',
} as const satisfies CommandTable;

type Troubles = Trouble<'options'>[];

function refuse(troubles: Troubles, where: string, what: string, mend: string): void {
  troubles.push({ kind: 'options', where, what, mend });
}

/** A whole number within a range; what is usual where nothing is said. */
function readWhole(
  troubles: Troubles,
  where: string,
  text: string | undefined,
  most: number,
  usual: number,
): number {
  if (text === undefined) return usual;
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (Number.isInteger(value) && value >= 1 && value <= most) return value;
  refuse(troubles, where, `"${text}" is no whole number from 1 to ${most}.`, 'Write one that is.');
  return usual;
}

function readSystem(troubles: Troubles, text: string | undefined): SheetRequest['units'] {
  const units = text?.trim().toLowerCase() ?? USUAL_SHEET.units;
  if (units === 'metric' || units === 'imperial') return units;
  refuse(troubles, '--units', `"${text}" is not known here.`, 'Use metric or imperial.');
  return USUAL_SHEET.units;
}

/**
 * Reads the arguments of the command.
 * @param args what follows the command
 * @returns the options, or every trouble with them
 */
export function readLessonOptions(args: readonly string[]): Result<LessonOptions, 'options'> {
  const troubles: Troubles = [];
  const given = readArgs(args, LESSON, troubles);
  const { operands, values, flags } = given;
  if (operands.length > 0) {
    refuse(troubles, operands[0]!, 'A lesson is made of no trip.', 'Leave it out; --help lists all options.');
  }
  const paper = readPaper(values.paper ?? 'A4');
  if (!paper.ok) refuse(troubles, '--paper', paper.troubles[0].what, paper.troubles[0].mend);
  const sheet: SheetRequest = {
    seed: readWhole(troubles, '--seed', values.seed, LARGEST_SEED, USUAL_SHEET.seed),
    level: readWhole(troubles, '--level', values.level, LEVELS.length, USUAL_SHEET.level) as Level,
    questions: readWhole(troubles, '--questions', values.questions, MOST_QUESTIONS, USUAL_SHEET.questions),
    units: readSystem(troubles, values.units),
  };
  if (!paper.ok || troubles.length > 0) return failures(troubles);
  return success({
    sheet,
    paper: paper.value,
    json: flags.json,
    out: values.out ?? null,
    mayReplace: flags.replace,
    help: flags.help,
  });
}
