import PdfWriter from 'pdfkit';
import { FACE_NAMES } from './faces';
import type { SlateFonts } from './font';
import type { CellTag, Page, TextMark } from './layout';
import { slatePages } from './pages';
import { shapesContent, TextWriter } from './pdf-content';
import { Branch } from './pdf-structure';
import type { SlateRequest, SlateTrouble } from './request';
import { assert, type Result } from '../result';

/** What a PDF says of itself. */
export interface DocumentFacts {
  readonly title: string;
  /** "2027-03-05": the day of printing; nothing in the file depends on the clock. */
  readonly printedOn: string;
  /** Left out: compressed. Off, the content can be compared byte by byte. */
  readonly compress?: boolean;
}

/** Called after each page; `true` to stop. A long job yields between pages so that a window stays alive. */
export type Progress = (donePages: number, allPages: number) => boolean | Promise<boolean>;

/** Texts that follow one another and are one thing: a heading, a cell, or plain words. */
function partsOf(texts: readonly TextMark[]): readonly (readonly TextMark[])[] {
  const parts: TextMark[][] = [];
  for (const text of texts) {
    const last = parts[parts.length - 1];
    if (last !== undefined && isSamePart(last[last.length - 1]!, text)) last.push(text);
    else parts.push([text]);
  }
  return parts;
}

/** Plain words further down than the next line, or up again in another column, are a paragraph of their own. */
const NEXT_LINE = 1.8;

function isSamePart(before: TextMark, after: TextMark): boolean {
  const [one, other] = [before.tag, after.tag];
  if (one === undefined && other === undefined) {
    const down = after.y - before.y;
    return down > -before.sizePt && down < NEXT_LINE * Math.max(before.sizePt, after.sizePt);
  }
  if (one?.is !== other?.is || one === undefined || other === undefined) return false;
  if ('alt' in one && 'alt' in other) return one.alt === other.alt;
  return !('row' in one) || !('row' in other) || (one.row === other.row && one.column === other.column);
}

/** A table while it is written. */
class OpenTable {
  private readonly table: Branch;
  private row: Branch | null = null;
  private number = -1;

  constructor(section: Branch) {
    this.table = section.branch('Table');
  }

  /** Whether a cell of a row belongs to this table: a row above its last one is another's. */
  takes(row: number): boolean {
    return row >= this.number;
  }

  add({ is, row }: CellTag, draw: () => void): void {
    if (this.row === null || row !== this.number) {
      this.row?.end();
      this.row = this.table.branch('TR');
      this.number = row;
    }
    this.row.leaf(is, is === 'TH' ? { scope: row === 0 ? 'Column' : 'Row' } : {}, draw);
  }

  end(): void {
    this.row?.end();
    this.table.end();
  }
}

/** Words of a page with what they are, in the order they are read: headings, tables by their rows, and plain words. */
function drawTexts(writer: TextWriter, section: Branch, texts: readonly TextMark[]): void {
  let table: OpenTable | null = null;
  for (const part of partsOf(texts)) {
    const { tag } = part[0]!;
    const draw = (): void => writer.draw(part);
    const isCell = tag !== undefined && 'row' in tag;
    if (table !== null && !(isCell && table.takes(tag.row))) {
      table.end();
      table = null;
    }
    if (isCell) {
      table ??= new OpenTable(section);
      table.add(tag, draw);
    } else section.leaf(tag?.is ?? 'P', tag !== undefined && 'alt' in tag ? { alt: tag.alt } : {}, draw);
  }
  table?.end();
}

/**
 * The library's document, but for how it gathers what is written: it makes bytes of every operator and of every line of
 * an object by themselves and sends them through a stream, which took a fifth of the time of a long print-out.
 */
class GatheredPdf extends PdfWriter {
  // Set by the library; its types do not know it. Declared, as it writes its first lines while it is constructed.
  // oxlint-disable-next-line no-underscore-dangle
  declare private _offset: number;
  declare private lines: string | undefined;
  declare private chunks: Uint8Array[] | undefined;
  declare private content: string | undefined;

  /** What the page that was begun last shows, an operator or more. */
  override addContent(operators: string): this {
    this.content = `${this.content ?? ''}${operators}\n`;
    return this;
  }

  /** Asked before another page and at the end. */
  override flushPages(): void {
    if (this.content !== undefined) (this.page as unknown as Written).write(latin(this.content));
    this.content = undefined;
    super.flushPages();
  }

  /** All the library writes into the file comes through here. */
  _write(data: string | Uint8Array): void {
    if (typeof data === 'string') {
      this.lines = `${this.lines ?? ''}${data}\n`;
      this.wrote(data.length + 1);
      return;
    }
    this.gathered().push(data);
    this.wrote(data.length);
  }

  /** The file once it was ended. */
  bytes(): Uint8Array {
    assert(this.lines?.endsWith('%%EOF\n') === true, 'the file has no end');
    return joined(this.gathered());
  }

  private wrote(bytes: number): void {
    // oxlint-disable-next-line no-underscore-dangle
    this._offset += bytes;
  }

  private gathered(): Uint8Array[] {
    this.chunks ??= [];
    if (this.lines !== undefined) this.chunks.push(latin(this.lines));
    this.lines = undefined;
    return this.chunks;
  }
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  return bytes;
}

/** A page as the library writes into it; its types do not. */
interface Written {
  readonly write: (content: Uint8Array) => void;
}

/** A byte a letter: what stands in a file beside its streams is written so. */
function latin(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i += 1) bytes[i] = text.charCodeAt(i);
  return bytes;
}

/** A page: lines and areas are no content, and stand behind the words. */
function drawPage(document: PDFKit.PDFDocument, writer: TextWriter, root: Branch, { marks }: Page): void {
  document.markContent('Artifact', { type: 'Layout' });
  document.addContent(shapesContent(marks));
  document.endMarkedContent();
  const section = root.branch('Sect');
  drawTexts(
    writer,
    section,
    marks.filter((mark): mark is TextMark => mark.kind === 'text'),
  );
  section.end();
}

/**
 * Writes pages as a PDF.
 * @param pages at least one @param fonts embedded as far as their letters are used
 * @param facts title and day of printing @param progress asked after every page
 * @returns the bytes, the same on every run for the same input; null where `progress` said to stop
 * Source: ISO 32000-1:2008, through the PDF library.
 */
export async function writePdf(
  pages: readonly Page[],
  fonts: SlateFonts,
  facts: DocumentFacts,
  progress?: Progress,
): Promise<Uint8Array | null> {
  // The library wants a Date for the day it is given; this reads no clock.
  // oxlint-disable-next-line no-restricted-globals
  const printed = new Date(`${facts.printedOn}T00:00:00Z`);
  const document = new GatheredPdf({
    autoFirstPage: false,
    margin: 0,
    compress: facts.compress ?? true,
    pdfVersion: '1.7',
    lang: 'en',
    displayTitle: true,
    tagged: true,
    // The library knows this subset; its types do not.
    subset: 'PDF/UA' as 'PDF/A-1',
    // None to begin with: else the library asks for a standard font of its own, which browsers do not have;
    // and given one of ours here, it would read the file anew at every change of font.
    font: null as unknown as string,
    info: { Title: facts.title, Creator: 'Carryover', Producer: 'Carryover', CreationDate: printed },
  });
  for (const name of FACE_NAMES) document.registerFont(name, fonts[name].bytes);
  const writer = new TextWriter(document);
  const root = Branch.rootOf(document);
  for (const [i, page] of pages.entries()) {
    document.addPage({ size: [page.widthPt, page.heightPt], margin: 0 });
    document.outline.addItem(page.name);
    drawPage(document, writer, root, page);
    if (progress && (await progress(i + 1, pages.length))) return null;
  }
  root.end();
  document.end();
  return document.bytes();
}

/** A finished print-out. */
export interface SlatePdf {
  readonly bytes: Uint8Array;
  readonly pageCount: number;
  /** Letters of names that the fonts lack, each once; they stand as an empty box on the page. */
  readonly missingLetters: readonly string[];
}

/**
 * Slates as a PDF: contents, layout and bytes in one call, the same from the window and the command.
 * @param request what to print, for whom, on what
 * @returns the PDF; null inside a success where `progress` said to stop; the troubles where it cannot be laid out
 */
export async function slatePdf(
  request: SlateRequest,
  progress?: Progress,
): Promise<Result<SlatePdf | null, SlateTrouble>> {
  const laid = slatePages(request);
  if (!laid.ok) return laid;
  const { pages, title, missingLetters } = laid.value;
  const bytes = await writePdf(pages, request.fonts, { title, printedOn: request.printedOn }, progress);
  return { ok: true, value: bytes === null ? null : { bytes, pageCount: pages.length, missingLetters } };
}
