/** How a PDF is built, as qpdf sees it: whether it is sound, its outline, its fonts. In this process; no program is run. */
import loadQpdf from '@neslinesli93/qpdf-wasm';
import { createRequire } from 'node:module';
import { assert } from '../../../core/result';

/** What is used of the module and its own types leave out. */
interface Qpdf {
  callMain(args: string[]): number;
  readonly FS: {
    writeFile(path: string, bytes: Uint8Array): void;
    readFile(path: string): Uint8Array;
    unlink(path: string): void;
  };
}

export interface PdfFont {
  /** With its six letters where it is a subset: "BZZZZZ+DejaVuSans". */
  readonly name: string;
  readonly isEmbedded: boolean;
  /** Whether its glyphs are told to readers as letters. */
  readonly hasLetters: boolean;
}

export interface PdfStructure {
  readonly title: string;
  /** Titles of the outline, in their order. */
  readonly outline: readonly string[];
  readonly fonts: readonly PdfFont[];
  readonly language: string;
  /** Whether it says of itself that its contents are marked. */
  readonly isTagged: boolean;
  /** The structure as it is read out, each element with what is in it: "Sect(H1 P Table(TR(TH TH)))". */
  readonly structure: string;
}

const IN = '/in.pdf';
const OUT = '/out';
const said: string[] = [];
let loading: Promise<Qpdf> | undefined;

/** It prints where console.log and the like stand while it loads, so that is when they are other ones. */
async function load(): Promise<Qpdf> {
  const wasm = createRequire(import.meta.url).resolve('@neslinesli93/qpdf-wasm/dist/qpdf.wasm');
  const { log, warn, error } = console;
  Object.assign(console, { log: hear, warn: hear, error: hear });
  try {
    return (await loadQpdf({ locateFile: () => wasm })) as unknown as Qpdf;
  } finally {
    Object.assign(console, { log, warn, error });
  }
}

function hear(...words: readonly unknown[]): void {
  said.push(words.map(String).join(' '));
}

/** Runs it over a PDF; resolves with its exit code (0 sound, 2 broken, 3 warnings) and all it printed. */
async function qpdf(pdf: Uint8Array, args: readonly string[]): Promise<{ code: number; words: string }> {
  loading ??= load();
  const { FS, callMain } = await loading;
  // A plain copy: of a Buffer the module would keep the memory, and see it change.
  FS.writeFile(IN, Uint8Array.from(pdf));
  said.length = 0;
  const code = callMain([...args]);
  FS.unlink(IN);
  return { code, words: said.join('\n') };
}

async function written(pdf: Uint8Array, args: readonly string[]): Promise<Uint8Array> {
  const { code, words } = await qpdf(pdf, [...args, IN, OUT]);
  assert(code === 0, `qpdf ended with ${code}: ${words}`);
  const { FS } = await loading!;
  const bytes = FS.readFile(OUT);
  FS.unlink(OUT);
  return bytes;
}

/** What is wrong with the file, in qpdf's words; empty where it is sound. */
export async function pdfTroubles(pdf: Uint8Array): Promise<string> {
  const { code, words } = await qpdf(pdf, ['--check', IN]);
  return code === 0 ? '' : `qpdf --check ended with ${code}: ${words}`;
}

/** The PDF with its streams uncompressed and without the identifiers that qpdf itself gives. */
export async function uncompressedPdf(pdf: Uint8Array): Promise<string> {
  const bytes = await written(pdf, ['--qdf', '--object-streams=disable', '--static-id']);
  return Buffer.from(bytes).toString('latin1');
}

type Dictionary = Readonly<Record<string, unknown>>;

export async function pdfStructure(pdf: Uint8Array): Promise<PdfStructure> {
  const text = Buffer.from(await written(pdf, ['--json=2'])).toString('utf8');
  const { outlines, qpdf: parts } = JSON.parse(text) as {
    readonly outlines: readonly { readonly title: string }[];
    readonly qpdf: readonly [unknown, Readonly<Record<string, { readonly value?: unknown }>>];
  };
  const objects = parts[1];
  const look = (reference: unknown): Dictionary =>
    (objects[`obj:${String(reference)}`]?.value ?? {}) as Dictionary;
  const fonts = Object.values(objects)
    .map(({ value }) => (value ?? {}) as Dictionary)
    .filter((each) => each['/Type'] === '/Font' && each['/Subtype'] === '/Type0')
    .map((font) => {
      const [inner] = font['/DescendantFonts'] as readonly unknown[];
      const descriptor = look(look(inner)['/FontDescriptor']);
      return {
        name: String(font['/BaseFont']).slice(1),
        isEmbedded: descriptor['/FontFile2'] !== undefined,
        hasLetters: font['/ToUnicode'] !== undefined,
      };
    });
  const trailer = objects['trailer']?.value as Dictionary;
  const title = String(objects[`obj:${String(look(trailer['/Info'])['/Title'])}`]?.value);
  const catalog = look(trailer['/Root']);
  const treeOf = (reference: unknown): string => {
    const element = look(reference);
    const kinds = [element['/K'] ?? []].flat();
    const inner = kinds
      .map((kid) => (typeof kid === 'string' ? treeOf(kid) : ''))
      .filter((kid) => kid !== '');
    const name = String(element['/S'] ?? '').slice(1);
    return inner.length === 0 ? name : `${name}(${inner.join(' ')})`;
  };
  const [root] = [look(catalog['/StructTreeRoot'])['/K'] ?? []].flat();
  return {
    title: title.replace(/^u:/, ''),
    outline: outlines.map((each) => each.title),
    fonts,
    language: String(catalog['/Lang']).replace(/^u:/, ''),
    isTagged:
      look(catalog['/MarkInfo'])['/Marked'] === true ||
      (catalog['/MarkInfo'] as Dictionary | undefined)?.['/Marked'] === true,
    structure: treeOf(root),
  };
}
