/** The engine that reads and draws PDFs in browsers, built for WebAssembly; what is used of it, and its memory. */
import { PDFiumModule } from '@hyzyla/pdfium';
import { assert } from '../../../core/result';

/** A pointer, or a handle of the engine. */
type Handle = number;

/** Functions as in PDFium's fpdfview.h and fpdf_text.h; the module's own types name only a few. */
export interface Engine {
  readonly HEAPU8: Uint8Array;
  _malloc(bytes: number): Handle;
  _free(pointer: Handle): void;
  _FPDF_InitLibrary(): void;
  _FPDF_LoadMemDocument(bytes: Handle, size: number, password: Handle): Handle;
  _FPDF_CloseDocument(document: Handle): void;
  _FPDF_GetPageCount(document: Handle): number;
  _FPDF_LoadPage(document: Handle, index: number): Handle;
  _FPDF_ClosePage(page: Handle): void;
  _FPDF_GetPageWidthF(page: Handle): number;
  _FPDF_GetPageHeightF(page: Handle): number;
  _FPDFText_LoadPage(page: Handle): Handle;
  _FPDFText_ClosePage(text: Handle): void;
  _FPDFText_CountChars(text: Handle): number;
  _FPDFText_GetUnicode(text: Handle, index: number): number;
  _FPDFText_IsHyphen(text: Handle, index: number): number;
  /** Four 32-bit floats: left, top, right, bottom of the letter with its advance and line, from the bottom left. */
  _FPDFText_GetLooseCharBox(text: Handle, index: number, box: Handle): number;
  /** Two 64-bit floats: where the letter stands on its baseline, from the bottom left. */
  _FPDFText_GetCharOrigin(text: Handle, index: number, x: Handle, y: Handle): number;
  _FPDFBitmap_CreateEx(width: number, height: number, format: number, at: Handle, stride: number): Handle;
  _FPDFBitmap_FillRect(
    bitmap: Handle,
    x: number,
    y: number,
    width: number,
    height: number,
    colour: number,
  ): void;
  _FPDFBitmap_Destroy(bitmap: Handle): void;
  _FPDF_RenderPageBitmap(
    bitmap: Handle,
    page: Handle,
    x: number,
    y: number,
    width: number,
    height: number,
    rotate: number,
    flags: number,
  ): void;
}

let loading: Promise<Engine> | undefined;

async function load(): Promise<Engine> {
  const engine = (await PDFiumModule({})) as unknown as Engine;
  engine._FPDF_InitLibrary();
  return engine;
}

/** What `read` makes of each page, in their order, at most `limit` of them. */
export async function ofEachPage<T>(
  pdf: Uint8Array,
  read: (engine: Engine, page: number) => T,
  limit = Infinity,
): Promise<readonly T[]> {
  loading ??= load();
  const engine = await loading;
  return withMemory(engine, pdf.length, (at) => {
    engine.HEAPU8.set(pdf, at);
    const document = engine._FPDF_LoadMemDocument(at, pdf.length, 0);
    assert(document !== 0, 'PDFium opens no such PDF');
    try {
      const count = Math.min(limit, engine._FPDF_GetPageCount(document));
      return Array.from({ length: count }, (_, i) => {
        const page = engine._FPDF_LoadPage(document, i);
        assert(page !== 0, `PDFium finds no page ${i + 1}`);
        try {
          return read(engine, page);
        } finally {
          engine._FPDF_ClosePage(page);
        }
      });
    } finally {
      engine._FPDF_CloseDocument(document);
    }
  });
}

/** Lends memory of the engine. */
export function withMemory<T>(engine: Engine, bytes: number, use: (at: number) => T): T {
  const at = engine._malloc(bytes);
  try {
    return use(at);
  } finally {
    engine._free(at);
  }
}
