/**
 * What is drawn on a page, as the operators of its content, one text for all of a part. The library writes the same
 * through some twenty calls a word, each with bytes of its own, which took half of the time of a print-out.
 * Source: ISO 32000-1:2008, 8.5 (paths), 9.4 (text).
 */
import type { FaceName } from './faces';
import type { Mark, TextMark } from './layout';

/** A glyph's place beside the one before it, in thousandths of the type size. */
interface Placing {
  readonly xAdvance: number;
  readonly advanceWidth: number;
  readonly xOffset: number;
  readonly yOffset: number;
}

/** What the library knows of an embedded font; its types do not. */
interface EmbeddedFace {
  readonly id: string;
  /** Its object in the file: once asked for, it is embedded. */
  readonly ref: () => unknown;
  /** The glyphs of a text by their numbers in the subset, four hexadecimal digits each. */
  readonly encode: (text: string) => readonly [codes: readonly string[], places: readonly Placing[]];
}

type Internals = PDFKit.PDFDocument & {
  // The library's own name.
  // oxlint-disable-next-line no-underscore-dangle
  readonly _font: EmbeddedFace;
  readonly page: { readonly fonts: Record<string, unknown> };
};

/** Numbers of a page, to the thousandth of a point. */
function digits(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}

/** Lines and areas in the order they are drawn. */
export function shapesContent(marks: readonly Mark[]): string {
  return marks.map((mark) => (mark.kind === 'text' ? '' : shapeContent(mark))).join('');
}

function shapeContent(mark: Exclude<Mark, TextMark>): string {
  const path = mark.points
    .map(({ x, y }, i) => `${digits(x)} ${digits(y)} ${i === 0 ? 'm' : 'l'}\n`)
    .join('');
  if (mark.kind === 'area') return `${digits(mark.grey)} g\n${path}h f\n0 g\n`;
  const [dash, solid] = mark.dashPt ? [`[${mark.dashPt.map(digits).join(' ')}] 0 d\n`, '[] 0 d\n'] : ['', ''];
  return `${digits(mark.widthPt)} w\n${dash}${path}S\n${solid}`;
}

/** Marks are placed on the letter before them; each other letter simply follows, as what makes them lean was taken out. */
const MARKS = /\p{M}/u;

/** The glyphs of a text; null where one of them does not simply follow the one before. */
function plainCodes(face: EmbeddedFace, text: string): string | null {
  const [codes, places] = face.encode(text);
  const isPlain = places.every(
    ({ xAdvance, advanceWidth, xOffset, yOffset }) =>
      Math.abs(xAdvance - advanceWidth) < 1e-6 && xOffset === 0 && yOffset === 0,
  );
  return isPlain ? codes.join('') : null;
}

/** Writes words into a document, each text of a face encoded once. */
export class TextWriter {
  private readonly faces = new Map<
    FaceName,
    { readonly face: EmbeddedFace; readonly hex: Map<string, string>; readonly letters: Map<string, string> }
  >();

  constructor(private readonly document: PDFKit.PDFDocument) {}

  /** Draws texts on the page that was begun last. */
  draw(texts: readonly TextMark[]): void {
    let content = '';
    for (const mark of texts) {
      const hex = this.hexOf(mark);
      if (hex !== null) {
        content += this.contentOf(mark, hex);
        continue;
      }
      // In the order it is read: what was gathered so far comes before it.
      if (content !== '') this.document.addContent(content);
      content = '';
      this.drawPlaced(mark);
    }
    if (content !== '') this.document.addContent(content);
  }

  private faceOf(name: FaceName) {
    let known = this.faces.get(name);
    if (known === undefined) {
      this.document.font(name);
      // oxlint-disable-next-line no-underscore-dangle
      known = { face: (this.document as Internals)._font, hex: new Map(), letters: new Map() };
      this.faces.set(name, known);
    }
    return known;
  }

  /** The glyphs of a text; null where one of them does not simply follow the one before. */
  private hexOf({ text, font }: TextMark): string | null {
    const { face, hex, letters } = this.faceOf(font);
    const known = hex.get(text);
    if (known !== undefined) return known;
    const encoded = MARKS.test(text) ? plainCodes(face, text) : this.lettersOf(text, face, letters);
    if (encoded === null) return null;
    hex.set(text, encoded);
    return encoded;
  }

  /** Letter by letter: to have each text shaped as a whole costs more than all else of writing it. */
  private lettersOf(text: string, face: EmbeddedFace, known: Map<string, string>): string | null {
    let codes = '';
    for (const letter of text) {
      let code = known.get(letter) ?? null;
      if (code === null) {
        code = plainCodes(face, letter);
        if (code === null) return null;
        known.set(letter, code);
      }
      codes += code;
    }
    return codes;
  }

  private contentOf({ x, y, font, sizePt }: TextMark, hex: string): string {
    const { face } = this.faceOf(font);
    const { fonts } = (this.document as Internals).page;
    fonts[face.id] ??= face.ref();
    // A page of the library is upside down, so that y runs downwards: letters are turned back.
    return `BT\n/${face.id} ${digits(sizePt)} Tf\n1 0 0 -1 ${digits(x)} ${digits(y)} Tm\n<${hex}> Tj\nET\n`;
  }

  /** A text with marks above or below its letters: the library sets it. */
  private drawPlaced({ text, x, y, font, sizePt }: TextMark): void {
    this.document
      .font(font)
      .fontSize(sizePt)
      .fillColor('black')
      .text(text, x, y, { lineBreak: false, baseline: 'alphabetic' });
  }
}
