import { NO_BREAK } from '../line-breaks';
import { linesOf, shortened } from './broken-lines';
import { SLANTED, STRESSED, type FaceName } from './faces';
import { printable, textWidthPt, type SlateFonts } from './font';
import { runsOf, type Run } from './markup';

/** What stands on a page, in points from its upper left corner, y downwards. Black and greys only. */
export type Mark =
  | {
      readonly kind: 'text';
      /** Left end of the baseline. */
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly text: string;
      readonly font: FaceName;
      readonly sizePt: number;
      /** What it is in the structure of the document; left out: plain words. */
      readonly tag?: Tag;
    }
  | {
      readonly kind: 'line';
      readonly points: readonly Point[];
      readonly widthPt: number;
      /** Lengths of dash and gap; none: unbroken. */
      readonly dashPt?: readonly [number, number];
    }
  | { readonly kind: 'area'; readonly points: readonly Point[]; readonly grey: number };

/** A cell of a table. */
export interface CellTag {
  readonly is: 'TH' | 'TD';
  readonly row: number;
  readonly column: number;
}

/** A formula set in more than one line, and how it is read out. */
export interface FormulaTag {
  readonly is: 'Formula';
  readonly alt: string;
}

/** A heading, a cell, or a formula. */
export type Tag = { readonly is: 'H1' | 'H2' } | CellTag | FormulaTag;

export type TextMark = Extract<Mark, { kind: 'text' }>;

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** One sheet as it leaves the printer. */
export interface Page {
  readonly name: string;
  readonly widthPt: number;
  readonly heightPt: number;
  readonly marks: readonly Mark[];
}

/** Something of known height that can be put anywhere. */
export interface Block {
  readonly heightPt: number;
  readonly at: (x: number, y: number) => readonly Mark[];
}

/** Lines of type. */
export interface TextBlock extends Block {
  readonly at: (x: number, y: number) => readonly TextMark[];
}

export interface TextStyle {
  readonly font: FaceName;
  readonly sizePt: number;
  /** The face of what is stressed; the bold one where left out. */
  readonly stress?: FaceName;
  /** Distance from baseline to baseline; the usual one where left out. */
  readonly leadingPt?: number;
  readonly align?: 'left' | 'right' | 'center';
  /** Lines at most; what does not fit ends in an ellipsis. */
  readonly maxLines?: number;
}

/**
 * The middle of figures and capitals above the baseline, as a share of the type size: a line is set so that it lies in
 * the middle of its height. Source: half the height of capitals of IBM Plex Sans (0.698) and Source Serif 4 (0.67).
 */
const MIDDLE = 0.36;

/** Baseline distance as a share of the type size: letters with accents above and tails below stay apart. */
const LEADING = 1.2;

/** Positions are kept to a hundredth of a point, so that every machine writes the same digits. */
export function rounded(pt: number): number {
  return Math.round(pt * 100) / 100;
}

/** Sets type: all that turns words into boxes goes through one of these. */
export interface Setter {
  readonly fonts: SlateFonts;
  /** Letters that had to be given up so far, each once. */
  readonly missing: ReadonlySet<string>;
  /** Width of a text in a style, points. */
  readonly width: (text: string, style: TextStyle) => number;
  /** One line as it is, its left end and baseline given. */
  readonly line: (text: string, style: TextStyle, x: number, baseline: number) => readonly TextMark[];
  /** A text broken into lines no wider than `widthPt`. */
  readonly text: (text: string, style: TextStyle, widthPt: number) => TextBlock;
}

/** The face of a part of a text set in another. */
function faceOf({ isSlanted, isStressed }: Run, font: FaceName, stress?: FaceName): FaceName {
  const stressed = isStressed ? (stress ?? STRESSED[font]) : font;
  return isSlanted ? SLANTED[stressed] : stressed;
}

/** A part of a line as it is drawn. */
interface SetRun {
  readonly text: string;
  readonly font: FaceName;
  readonly width: number;
  readonly isBlank: boolean;
}

/** A line in its faces, at one point. */
interface SetText {
  readonly runs: readonly SetRun[];
  readonly width: number;
}

/** The map kept under a key, begun where there is none. */
function mapIn<Key, Inner>(maps: Map<Key, Inner>, key: Key): Inner {
  let inner = maps.get(key);
  if (inner === undefined) {
    inner = new Map() as Inner;
    maps.set(key, inner);
  }
  return inner;
}

/**
 * A setter for a set of fonts.
 * @returns measures by the fonts' own advance widths; a text is never set wider than it was measured
 * Source: font.ts.
 */
export function setterOf(fonts: SlateFonts): Setter {
  const missing = new Set<string>();
  // Widths at one point: the same words come at every size, and on every page.
  const knownIn = new Map<FaceName, Map<FaceName | undefined, Map<string, SetText>>>();
  const setIn = (text: string, { font, stress }: TextStyle): SetText => {
    const known = mapIn(mapIn(knownIn, font), stress);
    let set = known.get(text);
    if (set === undefined) {
      const runs = runsOf(text).map((run): SetRun => {
        const print = printable(run.text, faceOf(run, font, stress), fonts);
        for (const letter of print.missing) missing.add(letter);
        const width = textWidthPt(print.text, fonts[print.face], 1);
        return { text: print.text, font: print.face, width, isBlank: print.text.trim() === '' };
      });
      set = { runs, width: runs.reduce((sum, run) => sum + run.width, 0) };
      known.set(text, set);
    }
    return set;
  };
  const setter: Setter = {
    fonts,
    missing,
    width: (text, style) => setIn(text, style).width * style.sizePt,
    line: (line, style, left, baseline) => {
      const marks: TextMark[] = [];
      const { sizePt } = style;
      let x = left;
      for (const { text, font, width, isBlank } of setIn(line, style).runs) {
        const at = x;
        x += width * sizePt;
        if (isBlank) continue;
        const y = rounded(baseline);
        marks.push({ kind: 'text', x: rounded(at), y, width: width * sizePt, text, font, sizePt });
      }
      return marks;
    },
    text: (text, style, width) => textBlock(setter, text, style, width),
  };
  return setter;
}

/** The lines of a text. Most are one, and need not be taken apart. */
function brokenText(set: Setter, text: string, style: TextStyle, availablePt: number): readonly string[] {
  // A column as wide as its widest word takes that word, whatever its sum of letters loses to binary digits.
  const widthPt = availablePt + 1e-6;
  const whole = text.replaceAll(NO_BREAK, ' ');
  if (set.width(whole, style) <= widthPt && !/^ | $| {2}/.test(whole)) return whole === '' ? [] : [whole];
  const fits = (part: string): boolean => set.width(part, style) <= widthPt;
  const lines = linesOf(text, fits);
  const { maxLines } = style;
  if (maxLines === undefined || lines.length <= maxLines) return lines;
  // The last line is cut in the middle of a word rather than left half empty.
  return [...lines.slice(0, maxLines - 1), shortened(lines.slice(maxLines - 1).join(' '), fits)];
}

/** A text broken into lines, those past the most that are wanted cut off. */
function textBlock(set: Setter, text: string, style: TextStyle, widthPt: number): TextBlock {
  const lines = brokenText(set, text, style, widthPt);
  const lineHeight = style.leadingPt ?? style.sizePt * LEADING;
  return {
    heightPt: lines.length * lineHeight,
    at: (x, y) =>
      lines.flatMap((line, i) => {
        const free = style.align === undefined ? 0 : widthPt - set.width(line, style);
        const shift = style.align === 'right' ? free : style.align === 'center' ? free / 2 : 0;
        return set.line(line, style, x + shift, y + (i + 0.5) * lineHeight + style.sizePt * MIDDLE);
      }),
  };
}

/** The same block, its words being a heading or a cell to whoever has the document read out. */
export function tagged(block: Block, tag: Tag): Block {
  return {
    heightPt: block.heightPt,
    at: (x, y) => block.at(x, y).map((mark) => (mark.kind === 'text' ? { ...mark, tag } : mark)),
  };
}

/** Blocks one under the other. */
export function stack(blocks: readonly Block[], gapPt = 0): Block {
  const kept = blocks.filter((block) => block.heightPt > 0);
  const heightPt =
    kept.reduce((sum, block) => sum + block.heightPt, 0) + gapPt * Math.max(0, kept.length - 1);
  return {
    heightPt,
    at: (x, y) => {
      const marks: Mark[] = [];
      let top = y;
      for (const block of kept) {
        marks.push(...block.at(x, top));
        top += block.heightPt + gapPt;
      }
      return marks;
    },
  };
}

/** Blocks side by side, each at its own distance from the left, their tops level. */
export function beside(cells: readonly { readonly block: Block; readonly x: number }[]): Block {
  return {
    heightPt: Math.max(0, ...cells.map((cell) => cell.block.heightPt)),
    at: (x, y) => cells.flatMap((cell) => cell.block.at(x + cell.x, y)),
  };
}

/** Nothing, of a height. */
export function space(heightPt: number): Block {
  return { heightPt, at: () => [] };
}

/** A line across, in the middle of its height. */
export function rule(widthPt: number, strokePt: number, heightPt: number): Block {
  return { heightPt, at: (x, y) => [straight(x, y + heightPt / 2, x + widthPt, y + heightPt / 2, strokePt)] };
}

export function straight(
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  strokePt: number,
  dashPt?: readonly [number, number],
): Mark {
  return polyline(
    [
      { x: x1, y: y1 },
      { x: x2, y: y2 },
    ],
    strokePt,
    dashPt,
  );
}

export function polyline(
  points: readonly Point[],
  strokePt: number,
  dashPt?: readonly [number, number],
): Mark {
  return {
    kind: 'line',
    points: points.map(({ x, y }) => ({ x: rounded(x), y: rounded(y) })),
    widthPt: strokePt,
    ...(dashPt ? { dashPt } : {}),
  };
}

export function area(points: readonly Point[], grey: number): Mark {
  return { kind: 'area', points: points.map(({ x, y }) => ({ x: rounded(x), y: rounded(y) })), grey };
}

/** A table: columns of given widths, rows as high as their highest cell. */
export interface Column {
  readonly widthPt: number;
  readonly align: 'left' | 'right' | 'center';
}

/**
 * Rows of words under each other.
 * @param columns left to right, `gapPt` between them @param rows one text a column
 * @param styleOf the style of a row, by its number
 */
export function table(
  set: Setter,
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  gapPt: number,
  styleOf: (row: number) => TextStyle,
): readonly Block[] {
  return rows.map((row, r) => {
    let x = 0;
    const cells = columns.map((column, c) => {
      const at = x;
      x += column.widthPt + gapPt;
      return {
        block: set.text(row[c] ?? '', { ...styleOf(r), align: column.align }, column.widthPt),
        x: at,
      };
    });
    return beside(
      cells.map(({ block, x: left }, column) => ({
        block: tagged(block, { is: r === 0 ? 'TH' : 'TD', row: r, column }),
        x: left,
      })),
    );
  });
}

/** The box that the ink of a text takes up; null where it has none. */
export function boxOf(
  mark: TextMark,
  fonts: SlateFonts,
): { readonly x: number; readonly y: number; readonly width: number; readonly height: number } | null {
  const inks = Array.from(mark.text).flatMap(
    (letter) => fonts[mark.font].inkOf(letter.codePointAt(0)!) ?? [],
  );
  if (inks.length === 0) return null;
  const top = Math.max(...inks.map((ink) => ink.top)) * mark.sizePt;
  const bottom = Math.min(...inks.map((ink) => ink.bottom)) * mark.sizePt;
  return { x: mark.x, y: mark.y - top, width: mark.width, height: top - bottom };
}

/** Moves marks, for a page that comes to lie on a larger sheet. */
export function moved(marks: readonly Mark[], dx: number, dy: number): readonly Mark[] {
  return marks.map((mark) =>
    mark.kind === 'text'
      ? { ...mark, x: rounded(mark.x + dx), y: rounded(mark.y + dy) }
      : { ...mark, points: mark.points.map(({ x, y }) => ({ x: rounded(x + dx), y: rounded(y + dy) })) },
  );
}
