import PdfWriter from 'pdfkit';
import { FACE_NAMES } from './faces';
import type { SlateFonts } from './font';
import type { Mark, Page } from './layout';
import { slatePages } from './pages';
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

function draw(document: PDFKit.PDFDocument, mark: Mark): void {
  switch (mark.kind) {
    case 'text':
      document
        .font(mark.font)
        .fontSize(mark.sizePt)
        .fillColor('black')
        .text(mark.text, mark.x, mark.y, { lineBreak: false, baseline: 'alphabetic' });
      return;
    case 'line':
      trace(document, mark.points);
      document.lineWidth(mark.widthPt).strokeColor('black');
      if (mark.dashPt) document.dash(mark.dashPt[0], { space: mark.dashPt[1] });
      document.stroke();
      if (mark.dashPt) document.undash();
      return;
    case 'area':
      trace(document, mark.points);
      document.closePath().fill(greyName(mark.grey));
      return;
  }
}

/** @param grey 0 black to 1 white */
export function greyName(grey: number): string {
  const level = Math.round(grey * 255)
    .toString(16)
    .padStart(2, '0');
  return `#${level}${level}${level}`;
}

function trace(
  document: PDFKit.PDFDocument,
  points: readonly { readonly x: number; readonly y: number }[],
): void {
  for (const [i, { x, y }] of points.entries()) {
    if (i === 0) document.moveTo(x, y);
    else document.lineTo(x, y);
  }
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
  for (const [i, page] of pages.entries()) {
    document.addPage({ size: [page.widthPt, page.heightPt], margin: 0 });
    document.outline.addItem(page.name);
    for (const mark of page.marks) draw(document, mark);
    if (progress && (await progress(i + 1, pages.length))) return null;
  }
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
