/** What stands on the pages of a PDF and how it looks, read back by an engine that knows nothing of this project. */
import { ofEachPage, withMemory, type Engine } from './pdfium';

export interface PdfWord {
  readonly text: string;
  /**
   * Left edge in points from the left of the page, and width, each letter with its advance. The engine
   * keeps an advance in whole thousandths of the type size and cuts off what is below.
   */
  readonly x: number;
  readonly width: number;
  /** Top edge of its line in points from the top of the page, and the line's height. */
  readonly y: number;
  readonly height: number;
  /** Points from the top of the page down to the line that letters stand on. */
  readonly baseline: number;
}

export interface PdfPage {
  readonly widthPt: number;
  readonly heightPt: number;
  /** In the order it was written, with the reader's own line breaks. */
  readonly text: string;
  /** In the order they were written; parted by any white space, hard spaces too. */
  readonly words: readonly PdfWord[];
}

/** Two words stand on one line where their baselines are no further apart than this: half a small letter. */
const SAME_LINE_PT = 2.5;
const SAME_PLACE_PT = 0.01;

export function readPdf(pdf: Uint8Array): Promise<readonly PdfPage[]> {
  return ofEachPage(pdf, (engine, page) => {
    const widthPt = engine._FPDF_GetPageWidthF(page);
    const heightPt = engine._FPDF_GetPageHeightF(page);
    const text = engine._FPDFText_LoadPage(page);
    try {
      const letters = withMemory(engine, LETTER_BYTES, (at) => readLetters(engine, text, heightPt, at));
      return { widthPt, heightPt, text: letters.map((each) => each.text).join(''), words: wordsOf(letters) };
    } finally {
      engine._FPDFText_ClosePage(text);
    }
  });
}

const LETTER_BYTES = 32;

function readLetters(engine: Engine, text: number, heightPt: number, at: number): readonly PdfWord[] {
  const letters = Array.from({ length: engine._FPDFText_CountChars(text) }, (_, i) => {
    engine._FPDFText_GetLooseCharBox(text, i, at);
    engine._FPDFText_GetCharOrigin(text, i, at + 16, at + 24);
    const memory = new DataView(engine.HEAPU8.buffer, at, LETTER_BYTES);
    const [left, top, right, bottom] = [0, 4, 8, 12].map((offset) => memory.getFloat32(offset, true)) as [
      number,
      number,
      number,
      number,
    ];
    // It tells a hyphen at the end of a line as a control character, for whoever joins the word again.
    const isHyphen = engine._FPDFText_IsHyphen(text, i) === 1;
    return {
      text: isHyphen ? '-' : String.fromCodePoint(engine._FPDFText_GetUnicode(text, i)),
      x: left,
      width: right - left,
      y: heightPt - top,
      height: top - bottom,
      baseline: heightPt - memory.getFloat64(24, true),
    };
  });
  // A letter with an edge of another colour is drawn twice, the second on the first.
  return letters.filter((letter, i) => !isOnTop(letter, letters[i - 1]));
}

function isOnTop(letter: PdfWord, before: PdfWord | undefined): boolean {
  return (
    before !== undefined &&
    letter.text === before.text &&
    letter.width > 0 &&
    Math.abs(letter.x - before.x) < SAME_PLACE_PT &&
    Math.abs(letter.baseline - before.baseline) < SAME_PLACE_PT
  );
}

function wordsOf(letters: readonly PdfWord[]): readonly PdfWord[] {
  const words: PdfWord[] = [];
  let open: PdfWord | undefined;
  for (const letter of letters) {
    if (/\s/.test(letter.text)) {
      open = undefined;
    } else if (open === undefined) {
      open = letter;
      words.push(open);
    } else {
      const right = Math.max(open.x + open.width, letter.x + letter.width);
      const bottom = Math.max(open.y + open.height, letter.y + letter.height);
      const x = Math.min(open.x, letter.x);
      const y = Math.min(open.y, letter.y);
      const { baseline } = open;
      open = { text: open.text + letter.text, x, y, width: right - x, height: bottom - y, baseline };
      words[words.length - 1] = open;
    }
  }
  return words;
}

/** The lines of a page from top to bottom as they lie across it, columns and all, one space between two words. */
export function linesOf({ words }: PdfPage): readonly string[] {
  const lines: PdfWord[][] = [];
  for (const word of words.toSorted((a, b) => a.baseline - b.baseline)) {
    const line = lines.at(-1);
    if (line !== undefined && word.baseline - line[0]!.baseline < SAME_LINE_PT) line.push(word);
    else lines.push([word]);
  }
  return lines.map((line) =>
    line
      .toSorted((a, b) => a.x - b.x)
      .map(({ text }) => text)
      .join(' '),
  );
}

export interface Picture {
  readonly width: number;
  readonly height: number;
  /** Row by row, 0 black to 255 white. */
  readonly points: Uint8Array;
}

const GREY = 1;
const WHITE = 0xff_ff_ff_ff;
const WITH_ANNOTATIONS_IN_GREY = 0x01 | 0x08;

/** The first pages as they look, in greys. */
export function picturesOf(pdf: Uint8Array, dotsPerInch: number, limit: number): Promise<readonly Picture[]> {
  const dots = (points: number): number => Math.round((points * dotsPerInch) / 72);
  return ofEachPage(
    pdf,
    (engine, page) => {
      const width = dots(engine._FPDF_GetPageWidthF(page));
      const height = dots(engine._FPDF_GetPageHeightF(page));
      return withMemory(engine, width * height, (at) => {
        const bitmap = engine._FPDFBitmap_CreateEx(width, height, GREY, at, width);
        engine._FPDFBitmap_FillRect(bitmap, 0, 0, width, height, WHITE);
        engine._FPDF_RenderPageBitmap(bitmap, page, 0, 0, width, height, 0, WITH_ANNOTATIONS_IN_GREY);
        engine._FPDFBitmap_Destroy(bitmap);
        return { width, height, points: engine.HEAPU8.slice(at, at + width * height) };
      });
    },
    limit,
  );
}
