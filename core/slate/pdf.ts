import PdfWriter from 'pdfkit';
import { FACE_NAMES } from './faces';
import type { SlateFonts } from './font';
import type { CellTag, Page, TextMark } from './layout';
import { slatePages } from './pages';
import { shapesContent, TextWriter } from './pdf-content';
import type { SlateRequest, SlateTrouble } from './request';
import type { Result } from '../result';

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

type Element = PDFKit.PDFStructureElement;

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
  private readonly element: Element;
  private row: Element | null = null;
  private number = -1;

  constructor(
    private readonly document: PDFKit.PDFDocument,
    section: Element,
  ) {
    this.element = document.struct('Table');
    section.add(this.element);
  }

  /** Whether a cell of a row belongs to this table: a row above its last one is another's. */
  takes(row: number): boolean {
    return row >= this.number;
  }

  add(cell: CellTag, draw: () => void): void {
    if (this.row === null || cell.row !== this.number) {
      this.row?.end();
      this.row = this.document.struct('TR');
      this.element.add(this.row);
      this.number = cell.row;
    }
    // The library knows the scope of a head; its types do not.
    const scope = { scope: cell.row === 0 ? 'Column' : 'Row' } as object;
    this.row.add(this.document.struct(cell.is, cell.is === 'TH' ? scope : {}, draw));
  }

  end(): void {
    this.row?.end();
    this.element.end();
  }
}

/** Words of a page with what they are, in the order they are read: headings, tables by their rows, and plain words. */
function drawTexts(
  document: PDFKit.PDFDocument,
  writer: TextWriter,
  section: Element,
  texts: readonly TextMark[],
): void {
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
      table ??= new OpenTable(document, section);
      table.add(tag, draw);
    } else {
      const spoken = tag !== undefined && 'alt' in tag ? { alt: tag.alt } : {};
      section.add(document.struct(tag?.is ?? 'P', spoken, draw));
    }
  }
  table?.end();
}

/** A page: lines and areas are no content, and stand behind the words. */
function drawPage(document: PDFKit.PDFDocument, writer: TextWriter, root: Element, { marks }: Page): void {
  document.markContent('Artifact', { type: 'Layout' });
  document.addContent(shapesContent(marks));
  document.endMarkedContent();
  const section = document.struct('Sect');
  root.add(section);
  drawTexts(
    document,
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
  const document = new PdfWriter({
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
  const chunks: Uint8Array[] = [];
  document.on('data', (chunk: Uint8Array) => chunks.push(chunk));
  const ended = new Promise<void>((resolve, reject) => {
    document.on('end', resolve);
    document.on('error', reject);
  });
  for (const name of FACE_NAMES) document.registerFont(name, fonts[name].bytes);
  const writer = new TextWriter(document);
  const root = document.struct('Document');
  document.addStructure(root);
  for (const [i, page] of pages.entries()) {
    document.addPage({ size: [page.widthPt, page.heightPt], margin: 0 });
    document.outline.addItem(page.name);
    drawPage(document, writer, root, page);
    if (progress && (await progress(i + 1, pages.length))) return null;
  }
  root.end();
  document.end();
  await ended;
  return joined(chunks);
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
