import { failure, success, type Result } from '../result';
import type { Words } from '../words/reader';
import { said } from '../words/said';

/** Points in a millimetre. Source: ISO 32000-1:2008, 8.3.2.3 (72 points an inch, 25.4 mm an inch). */
export const PT_PER_MM = 72 / 25.4;

const MM_PER_IN = 25.4;

/** A sheet, upright or lying as its sides say. */
export interface Paper {
  readonly name: string;
  readonly widthMm: number;
  readonly heightMm: number;
}

/**
 * Papers by name.
 * Source: ISO 216:2007 (A4, A5, A6); ANSI/ASME Y14.1 (letter, 8.5 x 11 in); half letter and 4 x 6 in are
 * common practice.
 */
export const PAPERS: readonly Paper[] = [
  { name: 'A6', widthMm: 105, heightMm: 148 },
  { name: 'A5', widthMm: 148, heightMm: 210 },
  { name: 'A4', widthMm: 210, heightMm: 297 },
  { name: 'letter', widthMm: 8.5 * MM_PER_IN, heightMm: 11 * MM_PER_IN },
  { name: 'half-letter', widthMm: 5.5 * MM_PER_IN, heightMm: 8.5 * MM_PER_IN },
  { name: '4x6in', widthMm: 4 * MM_PER_IN, heightMm: 6 * MM_PER_IN },
];

/** A free size stays within what a printer takes and a hand can hold. */
export const SMALLEST_MM = 20;
export const LARGEST_MM = 600;

/**
 * A paper by its name or by its size.
 * @param text "A6", "letter", or a free size "105x148mm", "4.5x7in"; case and spaces do not matter
 * @returns the paper, or what is wrong with the text
 */
export function readPaper(text: string): Result<Paper, 'paper'> {
  const plain = text.trim().toLowerCase().replaceAll(/\s+/g, '').replace('halfletter', 'half-letter');
  const named = PAPERS.find((paper) => paper.name.toLowerCase() === plain);
  if (named) return success(named);
  const size = /^(\d+(?:\.\d+)?)[x×](\d+(?:\.\d+)?)(mm|in)$/.exec(plain);
  if (!size) {
    return failure({
      kind: 'paper',
      what: `"${text}" is no paper that is known here.`,
      where: 'paper',
      mend: `Use ${PAPERS.map((paper) => paper.name).join(', ')}, or a size such as 105x148mm or 4.5x7in.`,
    });
  }
  const unitMm = size[3] === 'in' ? MM_PER_IN : 1;
  const widthMm = Number(size[1]) * unitMm;
  const heightMm = Number(size[2]) * unitMm;
  if ([widthMm, heightMm].some((mm) => mm < SMALLEST_MM || mm > LARGEST_MM)) {
    return failure({
      kind: 'paper',
      what: `A paper of ${text} cannot be printed.`,
      where: 'paper',
      mend: `Each side lies between ${SMALLEST_MM} and ${LARGEST_MM} mm.`,
    });
  }
  return success({ name: plain, widthMm, heightMm });
}

export type HoleSide = 'none' | 'left' | 'right' | 'top';

/** Where a page may be written on, in points from its upper left corner. */
export interface Frame {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Left free for a ring or a cord beside the margin. Source: ISO 838:1974, holes 12 mm from the edge. */
const HOLE_STRIP_MM = 12;

/**
 * The part of a page that is written on.
 * @param marginMm free on every side, 0 or more @param holes the side that is punched
 * @param isBack the back of a sheet printed on both sides, where left and right change places
 * @returns points
 */
export function frameOf(paper: Paper, marginMm: number, holes: HoleSide, isBack: boolean): Frame {
  const side = isBack && holes === 'left' ? 'right' : isBack && holes === 'right' ? 'left' : holes;
  const strip = side === 'none' ? 0 : HOLE_STRIP_MM;
  const left = marginMm + (side === 'left' ? strip : 0);
  const right = marginMm + (side === 'right' ? strip : 0);
  const top = marginMm + (side === 'top' ? strip : 0);
  return {
    x: left * PT_PER_MM,
    y: top * PT_PER_MM,
    width: (paper.widthMm - left - right) * PT_PER_MM,
    height: (paper.heightMm - top - marginMm) * PT_PER_MM,
  };
}

/** Where a page comes to lie on a larger sheet, in points. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

/** How pages are laid on a larger sheet and cut apart. */
export interface Imposition {
  readonly sheet: Paper;
  readonly columns: number;
  readonly rows: number;
  /** Upper left corner of the block of pages on the sheet, points. */
  readonly origin: Place;
}

/** A cut mark runs from this near to this far from the pages, so that it is not on them. */
export const CUT_GAP_PT = 2;
export const CUT_MARK_PT = 12;

/**
 * As many pages as fit on a sheet, side by side without a gap, so that one cut parts two of them; the sheet
 * lies or stands, whichever takes more.
 * @returns what is wrong where not even one fits
 */
export function imposition(page: Paper, sheet: Paper, words: Words): Result<Imposition, 'sheet'> {
  const turned = { name: sheet.name, widthMm: sheet.heightMm, heightMm: sheet.widthMm };
  const ways = [sheet, turned].map((way) => ({
    sheet: way,
    // Letter halves and A-sizes fit to the last hundredth of a millimetre.
    columns: Math.floor(way.widthMm / page.widthMm + 1e-6),
    rows: Math.floor(way.heightMm / page.heightMm + 1e-6),
  }));
  const best = ways[0]!.columns * ways[0]!.rows >= ways[1]!.columns * ways[1]!.rows ? ways[0]! : ways[1]!;
  if (best.columns * best.rows === 0) {
    return failure({
      kind: 'sheet',
      what: words(said`A page of ${page.name} does not fit on a sheet of ${sheet.name}.`),
      where: 'sheet',
      mend: words(said`Choose a larger sheet, or print each page on its own paper.`),
    });
  }
  return success({
    ...best,
    origin: {
      x: ((best.sheet.widthMm - best.columns * page.widthMm) / 2) * PT_PER_MM,
      y: ((best.sheet.heightMm - best.rows * page.heightMm) / 2) * PT_PER_MM,
    },
  });
}

/**
 * The place of one page on its sheet: along the rows, and on the back of a sheet from the other side, so
 * that front and back of a page meet when the sheet is turned over its long edge.
 * @param index 0 for the first page of the sheet
 */
export function placeOf(index: number, page: Paper, how: Imposition, isBack: boolean): Place {
  const row = Math.floor(index / how.columns);
  const along = index % how.columns;
  const column = isBack ? how.columns - 1 - along : along;
  return {
    x: how.origin.x + column * page.widthMm * PT_PER_MM,
    y: how.origin.y + row * page.heightMm * PT_PER_MM,
  };
}
