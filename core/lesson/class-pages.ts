/** The workings of a class on paper: the mixes side by side, lying on one page or two. */
import {
  CLASS_DIVER,
  CLASS_MIN,
  classGases,
  classColumnSaid,
  classTrip,
  type ClassLook,
} from '../mixes/class-dive';
import { failure, success, type Result } from '../result';
import { formulaBlock } from '../slate/formula-block';
import {
  beside,
  rule,
  setterOf,
  stack,
  tagged,
  type Block,
  type Page,
  type Setter,
  type TextStyle,
} from '../slate/layout';
import { frameOf, PT_PER_MM } from '../slate/paper';
import type { System } from '../words/quantity';
import type { Words } from '../words/reader';
import { figure, said } from '../words/said';
import { SAFETY_LINE } from '../words/safety-line';
import { classFormulas, type ClassFormula } from './class-formulas';
import type { PutIn } from './class-parts';
import { onPages } from './on-pages';
import type { LessonPages, LessonPaper } from './pages';
import { sheetWords } from './sheet-words';

/** What a class looks at, and who reads it. */
export interface ClassSheet extends ClassLook {
  readonly units: System;
}

const MARGIN_MM = 14;
const TEXT: TextStyle = { font: 'wide', sizePt: 10 };
const SMALL: TextStyle = { font: 'text', sizePt: 9 };
const TITLE: TextStyle = { font: 'wideBold', sizePt: 10.5 };
const RESULT: TextStyle = { font: 'wideBold', sizePt: 11 };
const NAME: TextStyle = { font: 'name', sizePt: 19 };

/** The narrowest a column of a mix can be, points: the numbers of the no-stop limit stand in it. */
const NARROWEST_PT = 120;
const TITLE_PT = 170;
const GAP_PT = 8;
const RULE_PT = 9;

interface Desk {
  readonly set: Setter;
  /** In metres and bar, as they are put in. */
  readonly words: Words;
  /** Of what comes out: in feet and psi too, for who reads those. */
  readonly results: Words;
  readonly widthPt: number;
  readonly columnPt: number;
  /** Columns of open circuit. */
  readonly openCount: number;
}

function cell({ set, words, results }: Desk, { put, result }: PutIn, widthPt: number): Block {
  if (put === null) return set.text(words(result), SMALL, widthPt);
  return stack(
    [formulaBlock(set, put, words, TEXT, widthPt), set.text(results(said`= ${result}`), RESULT, widthPt)],
    2,
  );
}

function rowOf(desk: Desk, { title, formula, onLoop, where, mixes, loop }: ClassFormula): Block {
  const { set, words, widthPt, columnPt, openCount } = desk;
  const columnX = (at: number): number => TITLE_PT + GAP_PT + at * (columnPt + GAP_PT);
  const isShared = mixes.length < openCount;
  const sharedPt = openCount * (columnPt + GAP_PT) - GAP_PT;
  return stack([
    beside([
      {
        block: stack(
          [
            tagged(set.text(words(title), TITLE, TITLE_PT), { is: 'H2' }),
            formulaBlock(set, formula, words, TEXT, TITLE_PT),
            ...(onLoop === null ? [] : [formulaBlock(set, ['loop:', ...onLoop], words, TEXT, TITLE_PT)]),
            set.text(words(where), SMALL, TITLE_PT),
          ],
          2,
        ),
        x: 0,
      },
      ...mixes.map((mix, at) => ({
        block: cell(desk, mix, isShared ? sharedPt : columnPt),
        x: columnX(at),
      })),
      ...(loop === null ? [] : [{ block: cell(desk, loop, columnPt), x: columnX(openCount) }]),
    ]),
    rule(widthPt, 0.3, RULE_PT),
  ]);
}

/** Of which dive all is, over the columns of the mixes. */
function headOf(desk: Desk, look: ClassLook): Block {
  const { set, words, widthPt, columnPt } = desk;
  const { depthM } = look;
  const { pressure } = classFormulas(look);
  const { gradient, po2 } = CLASS_DIVER;
  return stack([
    tagged(set.text(words(said`Workings at ${figure('depthSet', depthM)}`), NAME, widthPt), { is: 'H1' }),
    set.text(
      words(
        said`Of a first dive of ${CLASS_MIN} min, limits at ${Math.round(gradient.low * 100)} / ${Math.round(gradient.high * 100)} of the M-value, PO2 limit ${figure('po2Limit', po2.working)}, in metres and bar; to be learned from, not dived.`,
      ),
      SMALL,
      widthPt,
    ),
    formulaBlock(set, [...pressure.formula, '=', ...pressure.put], words, TEXT, widthPt),
    rule(widthPt, 0.8, 8),
    beside(
      classGases(classTrip(look)).map((gas, at) => ({
        block: set.text(words(classColumnSaid(gas)), TITLE, columnPt),
        x: TITLE_PT + GAP_PT + at * (columnPt + GAP_PT),
      })),
    ),
    rule(widthPt, 0.3, RULE_PT),
  ]);
}

function footOf({ set, words, widthPt }: Desk, page: string): Block {
  return stack([
    rule(widthPt, 0.5, 5),
    set.text(words(said`${SAFETY_LINE}`), SMALL, widthPt),
    set.text(page, { ...SMALL, align: 'right' }, widthPt),
  ]);
}

/**
 * The workings of a class on paper, which lies on its side.
 * @param look depth in metres and the mixes @param on paper, decimal sign and the fonts of all print-outs
 * @returns a page or two; trouble where the paper is too small
 */
export function classPages(look: ClassSheet, on: LessonPaper): Result<LessonPages, 'paper'> {
  const { widthMm, heightMm, name } = on.paper;
  const paper = { name, widthMm: Math.max(widthMm, heightMm), heightMm: Math.min(widthMm, heightMm) };
  const set = setterOf(on.fonts);
  const words = sheetWords('metric', on.decimal);
  const results = sheetWords(look.units === 'metric' ? 'metric' : 'both', on.decimal);
  const frame = frameOf(paper, MARGIN_MM, 'none', false);
  const openCount = look.percents.length;
  const count = openCount + (look.loop === null ? 0 : 1);
  const columnPt = (frame.width - TITLE_PT - GAP_PT * count) / count;
  const desk: Desk = { set, words, results, widthPt: frame.width, columnPt, openCount };
  const tooSmall = failure({
    kind: 'paper',
    what: `The workings do not fit on ${name}.`,
    where: 'paper',
    mend: 'Use A4 or letter.',
  } as const);
  if (columnPt < NARROWEST_PT) return tooSmall;
  const head = headOf(desk, look);
  const footPt = footOf(desk, '8 of 8').heightPt;
  const { rows } = classFormulas(look);
  const flowed = onPages(
    rows.map((row) => rowOf(desk, row)),
    frame.height - footPt - head.heightPt,
  );
  if (flowed === null) return tooSmall;
  const title = words(said`Workings at ${figure('depthSet', look.depthM)}`);
  const pages = flowed.map((blocks, at): Page => {
    const below = footOf(desk, `${at + 1} of ${flowed.length}`);
    return {
      name: flowed.length === 1 ? title : `${title}, page ${at + 1}`,
      widthPt: paper.widthMm * PT_PER_MM,
      heightPt: paper.heightMm * PT_PER_MM,
      marks: [
        ...stack([head, ...blocks]).at(frame.x, frame.y),
        ...below.at(frame.x, frame.y + frame.height - below.heightPt),
      ],
    };
  });
  return success({ title, pages });
}
