/** An exercise sheet on paper: the questions with room to work in, and the answers on a page of their own. */
import { failure, success, type Result } from '../result';
import { formulaBlock } from '../slate/formula-block';
import type { SlateFonts } from '../slate/font';
import {
  area,
  beside,
  rule,
  setterOf,
  space,
  stack,
  straight,
  table,
  tagged,
  type Block,
  type Mark,
  type Page,
  type Setter,
  type TextStyle,
} from '../slate/layout';
import { frameOf, PT_PER_MM, type Paper } from '../slate/paper';
import type { Words } from '../words/reader';
import { said, type Said } from '../words/said';
import { answerText } from './answer-text';
import { onPages } from './on-pages';
import { KIND_TITLES, type Exercise, type NeededRows } from './exercise';
import type { Sheet } from './sheet';
import {
  EXERCISES_ONLY,
  roundingSaid,
  ruleSaid,
  SHEET_TITLE,
  sheetSaid,
  sheetWords,
  sourcesSaid,
} from './sheet-words';

/** What a sheet is laid out on. */
export interface LessonPaper {
  readonly paper: Paper;
  readonly decimal: string;
  readonly fonts: SlateFonts;
}

const MARGIN_MM = 15;
const TEXT: TextStyle = { font: 'wide', sizePt: 10.5 };
const SMALL: TextStyle = { font: 'wide', sizePt: 9 };
const KIND: TextStyle = { font: 'text', sizePt: 9 };
const NUMBER: TextStyle = { font: 'boldSlant', sizePt: 13 };
const RESULT: TextStyle = { ...TEXT, font: 'wideBold', sizePt: 11.5, align: 'right' };
const CELL: TextStyle = { font: 'text', sizePt: 9 };

/** Left of a question for its number. */
const NUMBER_PT = 22;
/** Share of the width that questions take; the rest is to work in. */
const QUESTION_SHARE = 0.52;
/** Share of the width for name and day. */
const SIGNED_SHARE = 0.38;
const GAP_PT = 14;
const RULE_PT = 9;
const RULE_LINE_PT = 0.6;

/** Squares to work in. Source: school paper has squares of 4 or 5 mm (common practice). */
const SQUARE_PT = 4 * PT_PER_MM;
const SQUARE_GREY = 0.8;
const SQUARE_LINE_PT = 0.4;
const ANSWER_LINE_PT = 70;

/** Rows of squares for a dive alone and for two, the roomiest first: the first that takes fewest pages is taken. */
const WAYS = [
  [5, 8],
  [4, 7],
  [3, 5],
  [3, 4],
  [2, 3],
] as const;

type Way = (typeof WAYS)[number];

/** The narrowest a sheet is set on, points. */
const NARROWEST_PT = 320;

interface Desk {
  readonly set: Setter;
  readonly words: Words;
  readonly widthPt: number;
}

/** A thin grey line as an area: lines are black. */
function greyLine(x: number, y: number, widthPt: number, heightPt: number): Mark {
  const [right, below] = [x + widthPt, y + heightPt];
  return area(
    [
      { x, y },
      { x: right, y },
      { x: right, y: below },
      { x, y: below },
    ],
    SQUARE_GREY,
  );
}

/** Squared paper with a line for the answer and its unit behind it. */
function workSpace({ set }: Desk, widthPt: number, rows: number, unit: string): Block {
  const heightPt = rows * SQUARE_PT;
  const columns = Math.floor(widthPt / SQUARE_PT);
  const left = widthPt - columns * SQUARE_PT;
  const unitPt = set.width('min', TEXT) + 4;
  const answerColumns = Math.ceil((ANSWER_LINE_PT + unitPt) / SQUARE_PT);
  const free = columns - answerColumns;
  return {
    heightPt,
    at: (x, y) => {
      const marks: Mark[] = [];
      for (let c = 0; c <= columns; c += 1) {
        const isAbove = c > free;
        marks.push(
          greyLine(x + left + c * SQUARE_PT, y, SQUARE_LINE_PT, heightPt - (isAbove ? 2 * SQUARE_PT : 0)),
        );
      }
      for (let r = 0; r <= rows; r += 1) {
        const isShort = r > rows - 2;
        marks.push(
          greyLine(x + left, y + r * SQUARE_PT, (isShort ? free : columns) * SQUARE_PT, SQUARE_LINE_PT),
        );
      }
      const lineX = x + left + (free + 0.5) * SQUARE_PT;
      const lineEnd = x + widthPt - unitPt;
      marks.push(straight(lineX, y + heightPt - 3, lineEnd, y + heightPt - 3, 0.7));
      marks.push(...set.line(unit, TEXT, lineEnd + 4, y + heightPt - 3));
      return marks;
    },
  };
}

/** Rows of a published table, the head of each beside its cells. */
function rowsBlock({ set, words, widthPt }: Desk, rows: NeededRows): Block {
  const headPt = Math.min(190, widthPt * 0.36);
  const gap = 3;
  const count = Math.max(...rows.map((row) => row.length - 1));
  const cellPt = Math.min(38, (widthPt - headPt) / count - gap);
  const columns = [
    { widthPt: headPt, align: 'left' as const },
    ...Array.from({ length: count }, () => ({ widthPt: cellPt, align: 'left' as const })),
  ];
  return stack(
    table(
      set,
      columns,
      rows.map((row) => row.map((cell) => words(cell))),
      gap,
      () => CELL,
    ),
    2,
  );
}

/** Between two exercises. */
function greyRule(widthPt: number): Block {
  return {
    heightPt: RULE_PT,
    at: (x, y) => [greyLine(x, y + RULE_PT / 2, widthPt, RULE_LINE_PT)],
  };
}

function question(desk: Desk, exercise: Exercise, number: number, way: Way): Block {
  const { set, words, widthPt } = desk;
  const workPt = widthPt * (1 - QUESTION_SHARE) - GAP_PT;
  const sayPt = widthPt * QUESTION_SHARE - NUMBER_PT;
  const isOfTwo = exercise.kind === 'cns' || exercise.kind === 'residual';
  const block = beside([
    { block: set.text(String(number), NUMBER, NUMBER_PT), x: 0 },
    {
      block: stack([
        set.text(words(KIND_TITLES[exercise.kind]), KIND, sayPt),
        set.text(words(exercise.asks), TEXT, sayPt),
      ]),
      x: NUMBER_PT,
    },
    {
      block: workSpace(desk, workPt, isOfTwo ? way[1] : way[0], exercise.answer.unit),
      x: widthPt - workPt,
    },
  ]);
  const inner = { ...desk, widthPt: widthPt - NUMBER_PT };
  const rows =
    exercise.rows === null
      ? []
      : [space(4), beside([{ block: rowsBlock(inner, exercise.rows), x: NUMBER_PT }])];
  return stack([block, ...rows, greyRule(widthPt)]);
}

function answer(desk: Desk, exercise: Exercise, number: number): Block {
  const { set, words, widthPt } = desk;
  const kindPt = 96;
  const resultPt = 66;
  const workingPt = widthPt - NUMBER_PT - kindPt - resultPt - 2 * GAP_PT;
  const kind = exercise.kind === 'residual' ? said`Residual nitrogen` : KIND_TITLES[exercise.kind];
  return stack([
    beside([
      { block: set.text(String(number), NUMBER, NUMBER_PT), x: 0 },
      { block: set.text(words(kind), TEXT, kindPt), x: NUMBER_PT },
      {
        block: stack([
          formulaBlock(set, exercise.working, words, TEXT, workingPt),
          ...exercise.notes.map((note) => set.text(words(note), SMALL, workingPt)),
        ]),
        x: NUMBER_PT + kindPt + GAP_PT,
      },
      { block: set.text(answerText(exercise.answer, words), RESULT, resultPt), x: widthPt - resultPt },
    ]),
    greyRule(widthPt),
  ]);
}

/** A title, what sheet it is, and what stands at the right end. */
function head(
  { set, words, widthPt }: Desk,
  title: Said,
  sheet: Sheet,
  right: Block,
  rightPt: number,
): Block {
  const name: TextStyle = { font: 'name', sizePt: 19 };
  const titlePt = set.width(words(title), name);
  return stack([
    beside([
      { block: tagged(set.text(words(title), name, widthPt), { is: 'H1' }), x: 0 },
      {
        block: stack([space(8), set.text(words(sheetSaid(sheet)), KIND, widthPt - titlePt - rightPt - 20)]),
        x: titlePt + 10,
      },
      { block: stack([space(8), right]), x: widthPt - rightPt },
    ]),
    rule(widthPt, 0.9, 8),
  ]);
}

/** Lines to write a name and a day on. */
function signed({ set }: Desk, widthPt: number): Block {
  const label = (text: string): number => set.width(text, SMALL) + 4;
  const nameEnd = widthPt * 0.62;
  return {
    heightPt: SMALL.sizePt * 1.3,
    at: (x, y) => {
      const baseline = y + SMALL.sizePt;
      return [
        ...set.line('Name', SMALL, x, baseline),
        straight(x + label('Name'), baseline + 1, x + nameEnd - 6, baseline + 1, 0.5),
        ...set.line('Date', SMALL, x + nameEnd, baseline),
        straight(x + nameEnd + label('Date'), baseline + 1, x + widthPt, baseline + 1, 0.5),
      ];
    },
  };
}

function footOf({ set, words, widthPt }: Desk, page: string): Block {
  return stack([
    rule(widthPt, 0.5, 5),
    set.text(words(EXERCISES_ONLY), SMALL, widthPt),
    set.text(page, { ...SMALL, align: 'right' }, widthPt),
  ]);
}

/** Questions on as few pages as any way of setting them takes, with as much room to work in as that leaves. */
function questionPages(desk: Desk, sheet: Sheet, availablePt: number): readonly (readonly Block[])[] | null {
  let best: readonly (readonly Block[])[] | null = null;
  for (const way of WAYS) {
    const blocks = sheet.exercises.map((exercise, at) => question(desk, exercise, at + 1, way));
    const pages = onPages(blocks, availablePt);
    if (pages !== null && (best === null || pages.length < best.length)) best = pages;
    if (best?.length === 1) break;
  }
  return best;
}

/** Pages of a lesson. */
export interface LessonPages {
  readonly title: string;
  readonly pages: readonly Page[];
}

/**
 * A sheet on paper: pages of questions, then pages of answers with their workings.
 * @param sheet from `exerciseSheet` @param on paper, decimal sign and the fonts of all print-outs
 * @returns at least two pages; trouble where the paper is too small
 */
export function lessonPages(sheet: Sheet, on: LessonPaper): Result<LessonPages, 'paper'> {
  const set = setterOf(on.fonts);
  const words = sheetWords(sheet.units, on.decimal);
  const frame = frameOf(on.paper, MARGIN_MM, 'none', false);
  const desk: Desk = { set, words, widthPt: frame.width };
  const kinds = new Set(sheet.exercises.map(({ kind }) => kind));
  const { widthPt } = desk;
  const tooSmall = failure({
    kind: 'paper',
    what: `An exercise sheet does not fit on ${on.paper.name}.`,
    where: 'paper',
    mend: 'Use A4 or letter.',
  } as const);
  if (widthPt < NARROWEST_PT) return tooSmall;
  const signPt = widthPt * SIGNED_SHARE;
  const questionHead = stack([
    head(desk, SHEET_TITLE, sheet, signed(desk, signPt), signPt),
    set.text(words(ruleSaid(sheet.units, kinds)), SMALL, widthPt),
    greyRule(widthPt),
  ]);
  const answerHead = stack([
    head(
      desk,
      said`Answers`,
      sheet,
      set.text(words(SHEET_TITLE), { ...SMALL, align: 'right' }, signPt),
      signPt,
    ),
    set.text(words(roundingSaid(kinds)), SMALL, widthPt),
    greyRule(widthPt),
  ]);
  const footPt = footOf(desk, '8 of 8').heightPt;
  const asked = questionPages(desk, sheet, frame.height - footPt - questionHead.heightPt);
  const answered = onPages(
    [
      ...sheet.exercises.map((exercise, at) => answer(desk, exercise, at + 1)),
      set.text(words(sourcesSaid(kinds)), SMALL, widthPt),
    ],
    frame.height - footPt - answerHead.heightPt,
  );
  if (asked === null || answered === null) return tooSmall;
  const bodies = [
    ...asked.map((blocks) => ({ name: words(SHEET_TITLE), body: stack([questionHead, ...blocks]) })),
    ...answered.map((blocks) => ({ name: 'Answers', body: stack([answerHead, ...blocks]) })),
  ];
  const pages = bodies.map(({ name, body }, at): Page => {
    const below = footOf(desk, `${at + 1} of ${bodies.length}`);
    return {
      name: bodies.filter((each) => each.name === name).length > 1 ? `${name}, page ${at + 1}` : name,
      widthPt: on.paper.widthMm * PT_PER_MM,
      heightPt: on.paper.heightMm * PT_PER_MM,
      marks: [...body.at(frame.x, frame.y), ...below.at(frame.x, frame.y + frame.height - below.heightPt)],
    };
  });
  return success({ title: `${words(SHEET_TITLE)}: ${words(sheetSaid(sheet))}`, pages });
}
