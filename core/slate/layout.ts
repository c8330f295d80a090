import { keptTogether, NO_BREAK } from '../line-breaks';
import { printable, textWidthPt, type SlateFonts } from './font';

/** What stands on a page, in points from its upper left corner, y downwards. Black and greys only. */
export type Mark =
  | {
      readonly kind: 'text';
      /** Left end of the baseline. */
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly text: string;
      readonly font: keyof SlateFonts;
      readonly sizePt: number;
    }
  | {
      readonly kind: 'line';
      readonly points: readonly Point[];
      readonly widthPt: number;
      /** Lengths of dash and gap; none: unbroken. */
      readonly dashPt?: readonly [number, number];
    }
  | { readonly kind: 'area'; readonly points: readonly Point[]; readonly grey: number };

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

export interface TextStyle {
  readonly font: keyof SlateFonts;
  readonly sizePt: number;
  /** Distance from baseline to baseline; the usual one where left out. */
  readonly leadingPt?: number;
  readonly align?: 'left' | 'right' | 'center';
  /** Lines at most; what does not fit ends in an ellipsis. */
  readonly maxLines?: number;
}

/**
 * Reach of the letters above and below the baseline, as a share of the type size, rounded outwards.
 * Source: table hhea of the DejaVu fonts 2.37: ascent 0.928, descent 0.236.
 */
const RISE = 0.93;
const FALL = 0.24;

/** Baseline distance as a share of the type size: letters with accents above and tails below stay apart. */
const LEADING = 1.18;

const ELLIPSIS = '\u2026';

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
  /** A text broken into lines no wider than `widthPt`. */
  readonly text: (text: string, style: TextStyle, widthPt: number) => Block;
}

/** Breaks a text at its spaces, but for those before units, and a word longer than the line wherever it must. */
function linesOf(text: string, widthPt: number, widthOf: (text: string) => number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  const words = keptTogether(text)
    .split(' ')
    .flatMap((word) => (widthOf(word) <= widthPt ? [word] : word.split(NO_BREAK)));
  for (const word of words.filter((each) => each !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (widthOf(longer) <= widthPt) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    for (const letter of word) {
      if (line !== '' && widthOf(line + letter) > widthPt) {
        lines.push(line);
        line = '';
      }
      line += letter;
    }
  }
  if (line !== '') lines.push(line);
  return lines.map((each) => each.replaceAll(NO_BREAK, ' '));
}

function shortened(line: string, widthPt: number, widthOf: (text: string) => number): string {
  const letters = Array.from(line);
  while (letters.length > 0 && widthOf(`${letters.join('').trimEnd()}${ELLIPSIS}`) > widthPt) letters.pop();
  return `${letters.join('').trimEnd()}${ELLIPSIS}`;
}

/**
 * A setter for a pair of fonts.
 * @returns measures by the fonts' own advance widths; a text is never set wider than it was measured
 * Source: font.ts.
 */
export function setterOf(fonts: SlateFonts): Setter {
  const missing = new Set<string>();
  const clean = (text: string): string => {
    const print = printable(text, fonts);
    for (const letter of print.missing) missing.add(letter);
    return print.text;
  };
  const widthIn = (style: TextStyle) => (text: string) => textWidthPt(text, fonts[style.font], style.sizePt);
  return {
    fonts,
    missing,
    width: (text, style) => widthIn(style)(clean(text)),
    text: (text, style, width) => {
      const measure = widthIn(style);
      let lines = linesOf(clean(text), width, measure);
      if (style.maxLines !== undefined && lines.length > style.maxLines) {
        const kept = lines.slice(0, style.maxLines);
        // The last line is cut in the middle of a word rather than left half empty.
        kept[style.maxLines - 1] = shortened(lines.slice(style.maxLines - 1).join(' '), width, measure);
        lines = kept;
      }
      const lineHeight = style.leadingPt ?? style.sizePt * LEADING;
      return {
        heightPt: lines.length * lineHeight,
        at: (x, y) =>
          lines.map((line, i): TextMark => {
            const lineWidth = measure(line);
            const free = width - lineWidth;
            const shift = style.align === 'right' ? free : style.align === 'center' ? free / 2 : 0;
            return {
              kind: 'text',
              x: rounded(x + shift),
              y: rounded(
                y + i * lineHeight + (lineHeight - style.sizePt * (RISE + FALL)) / 2 + style.sizePt * RISE,
              ),
              width: lineWidth,
              text: line,
              font: style.font,
              sizePt: style.sizePt,
            };
          }),
      };
    },
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

/** Lines to write on, `pitchPt` apart, as many as the height takes; none where it takes not even one. */
export function writingLines(widthPt: number, heightPt: number, pitchPt: number): Block {
  const count = Math.floor(heightPt / pitchPt + 1e-6);
  return {
    heightPt,
    at: (x, y) =>
      Array.from({ length: count }, (_, i) =>
        straight(x, y + (i + 1) * pitchPt - 1, x + widthPt, y + (i + 1) * pitchPt - 1, 0.4, [1, 2]),
      ),
  };
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
    return beside(cells);
  });
}

/** The box a text takes up, letters with accents and tails included. */
export function boxOf(mark: TextMark): { x: number; y: number; width: number; height: number } {
  return {
    x: mark.x,
    y: mark.y - mark.sizePt * RISE,
    width: mark.width,
    height: mark.sizePt * (RISE + FALL),
  };
}

/** Moves marks, for a page that comes to lie on a larger sheet. */
export function moved(marks: readonly Mark[], dx: number, dy: number): readonly Mark[] {
  const shift = ({ x, y }: Point): Point => ({ x: rounded(x + dx), y: rounded(y + dy) });
  return marks.map((mark) =>
    mark.kind === 'text' ? { ...mark, ...shift(mark) } : { ...mark, points: mark.points.map(shift) },
  );
}
