import { assert } from '../result';
import { STAND_INS, type FaceName } from './faces';

/** A TrueType face as far as a slate needs it: which letters it has and how wide each one is. */
export interface FontFace {
  /** The font with what makes letters lean on each other taken out: a word is as wide as its letters. */
  readonly bytes: Uint8Array;
  /** Height above the baseline of the tallest ordinary letter, as a share of the type size. */
  readonly ascent: number;
  /** Depth below the baseline, as a share of the type size; positive. */
  readonly descent: number;
  /** Advance width of each code point, as a share of the type size. */
  readonly advances: ReadonlyMap<number, number>;
  /** How far the ink of a letter reaches above and below the baseline, as shares of the type size; null: it has none. */
  readonly inkOf: (code: number) => Ink | null;
}

/** The reach of ink, both measured upwards from the baseline. */
export interface Ink {
  readonly top: number;
  readonly bottom: number;
}

export type SlateFonts = Readonly<Record<FaceName, FontFace>>;

/**
 * Tables a letter needs to be drawn, in TrueType; kerning, ligatures and hints are left out, so that the
 * PDF, the picture in the window and our own measure agree to the last digit.
 * Source: OpenType specification 1.9.1, "Required tables" and "Tables related to TrueType outlines".
 */
const KEPT_TABLES = [
  'OS/2',
  'cmap',
  'cvt ',
  'fpgm',
  'glyf',
  'head',
  'hhea',
  'hmtx',
  'loca',
  'maxp',
  'name',
  'post',
  'prep',
];

/** Drawn in the place of a letter that no face has: a sign that stands in no name. */
export const MISSING_MARK = '\u25ca';

/**
 * Scripts whose letters join or run from right to left: the font may hold the letters, but set one by one
 * they cannot be read, so they count as missing.
 * Source: Unicode Standard 16.0, ch. 9 to 16 (scripts of the Middle East, South and South-East Asia).
 */
const NEEDS_SHAPING: readonly (readonly [number, number])[] = [
  [0x0590, 0x08ff],
  [0x0900, 0x0dff],
  [0x0e00, 0x109f],
  [0x1780, 0x18af],
  [0xfb1d, 0xfdff],
  [0xfe70, 0xfefe],
];

interface Table {
  readonly offset: number;
  readonly length: number;
}

function tablesOf(view: DataView): ReadonlyMap<string, Table> {
  assert(view.byteLength > 12, 'a font file of no size');
  assert(view.getUint32(0) === 0x00010000, 'the font is not TrueType (no 0x00010000 at its start)');
  const tables = new Map<string, Table>();
  const count = view.getUint16(4);
  for (let i = 0; i < count; i += 1) {
    const at = 12 + 16 * i;
    const tag = String.fromCharCode(
      view.getUint8(at),
      view.getUint8(at + 1),
      view.getUint8(at + 2),
      view.getUint8(at + 3),
    );
    tables.set(tag, { offset: view.getUint32(at + 8), length: view.getUint32(at + 12) });
  }
  return tables;
}

function need(tables: ReadonlyMap<string, Table>, tag: string): Table {
  const table = tables.get(tag);
  assert(table !== undefined, `the font lacks its ${tag} table`);
  return table;
}

/** The same font with the kept tables alone. Checksums travel with their tables unchanged. */
function withKeptTables(bytes: Uint8Array, view: DataView, tables: ReadonlyMap<string, Table>): Uint8Array {
  const kept = KEPT_TABLES.filter((tag) => tables.has(tag));
  const size = 12 + 16 * kept.length + kept.reduce((sum, tag) => sum + padded(tables.get(tag)!.length), 0);
  const out = new Uint8Array(size);
  const write = new DataView(out.buffer);
  const log = Math.floor(Math.log2(kept.length));
  write.setUint32(0, 0x00010000);
  write.setUint16(4, kept.length);
  write.setUint16(6, 16 * 2 ** log);
  write.setUint16(8, log);
  write.setUint16(10, 16 * (kept.length - 2 ** log));
  let offset = 12 + 16 * kept.length;
  for (const [i, tag] of kept.entries()) {
    const table = tables.get(tag)!;
    const at = 12 + 16 * i;
    for (let c = 0; c < 4; c += 1) out[at + c] = tag.charCodeAt(c);
    write.setUint32(at + 4, checksumOf(view, table));
    write.setUint32(at + 8, offset);
    write.setUint32(at + 12, table.length);
    out.set(bytes.subarray(table.offset, table.offset + table.length), offset);
    offset += padded(table.length);
  }
  return out;
}

function padded(length: number): number {
  return (length + 3) & ~3;
}

/** Source: OpenType specification 1.9.1, "Calculating checksums". */
function checksumOf(view: DataView, table: Table): number {
  let sum = 0;
  for (let i = 0; i < padded(table.length); i += 4) {
    const at = table.offset + i;
    sum = (sum + (at + 4 <= view.byteLength ? view.getUint32(at) : 0)) >>> 0;
  }
  return sum;
}

/** Code point → glyph, from the widest Unicode table of the font (formats 4 and 12). */
function glyphsOf(view: DataView, cmap: Table): ReadonlyMap<number, number> {
  const glyphs = new Map<number, number>();
  const count = view.getUint16(cmap.offset + 2);
  for (let i = 0; i < count; i += 1) {
    const at = cmap.offset + view.getUint32(cmap.offset + 4 + 8 * i + 4);
    const format = view.getUint16(at);
    if (format === 12) readFormat12(view, at, glyphs);
    else if (format === 4) readFormat4(view, at, glyphs);
  }
  assert(glyphs.size > 0, 'the font has no Unicode table that can be read');
  return glyphs;
}

/** Source: OpenType specification 1.9.1, cmap format 12. */
function readFormat12(view: DataView, at: number, into: Map<number, number>): void {
  const groups = view.getUint32(at + 12);
  for (let g = 0; g < groups; g += 1) {
    const group = at + 16 + 12 * g;
    const first = view.getUint32(group);
    const last = view.getUint32(group + 4);
    const glyph = view.getUint32(group + 8);
    for (let code = first; code <= last; code += 1) into.set(code, glyph + code - first);
  }
}

/** Source: OpenType specification 1.9.1, cmap format 4. */
function readFormat4(view: DataView, at: number, into: Map<number, number>): void {
  const twice = view.getUint16(at + 6);
  const ends = at + 14;
  const starts = ends + twice + 2;
  const deltas = starts + twice;
  const ranges = deltas + twice;
  for (let s = 0; s < twice; s += 2) {
    const delta = view.getUint16(deltas + s);
    const range = view.getUint16(ranges + s);
    const start = view.getUint16(starts + s);
    const end = view.getUint16(ends + s);
    for (let code = start; code <= end && code < 0xffff; code += 1) {
      const stored = range === 0 ? code : view.getUint16(ranges + s + range + 2 * (code - start));
      const glyph = stored === 0 ? 0 : (stored + delta) & 0xffff;
      if (glyph !== 0) into.set(code, glyph);
    }
  }
}

/** Where a glyph's outline begins, which its bounds come first in; null for one without ink, such as a space. */
function outlinesOf(view: DataView, tables: ReadonlyMap<string, Table>): (glyph: number) => number | null {
  const isLong = view.getInt16(need(tables, 'head').offset + 50) === 1;
  const loca = need(tables, 'loca').offset;
  const glyf = need(tables, 'glyf').offset;
  const offset = (glyph: number): number =>
    isLong ? view.getUint32(loca + 4 * glyph) : 2 * view.getUint16(loca + 2 * glyph);
  return (glyph) => (offset(glyph) === offset(glyph + 1) ? null : glyf + offset(glyph));
}

/**
 * Reads a TrueType font.
 * @param bytes the whole file @returns its letters and their widths, and the font as it will be embedded
 * @throws our fault where the bytes are not a TrueType font: fonts ship with the program
 * Source: OpenType specification 1.9.1, tables head, hhea, hmtx, OS/2, cmap.
 */
export function readFont(bytes: Uint8Array): FontFace {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tables = tablesOf(view);
  const unitsPerEm = view.getUint16(need(tables, 'head').offset + 18);
  const hhea = need(tables, 'hhea').offset;
  const hmtx = need(tables, 'hmtx').offset;
  const lastWide = view.getUint16(hhea + 34) - 1;
  const advances = new Map<number, number>();
  const glyphs = glyphsOf(view, need(tables, 'cmap'));
  for (const [code, glyph] of glyphs) {
    advances.set(code, view.getUint16(hmtx + 4 * Math.min(glyph, lastWide)) / unitsPerEm);
  }
  const outlines = outlinesOf(view, tables);
  return {
    inkOf: (code) => {
      const glyph = glyphs.get(code);
      const at = glyph === undefined ? null : outlines(glyph);
      if (at === null) return null;
      return { top: view.getInt16(at + 8) / unitsPerEm, bottom: view.getInt16(at + 4) / unitsPerEm };
    },
    bytes: withKeptTables(bytes, view, tables),
    ascent: view.getInt16(hhea + 4) / unitsPerEm,
    descent: -view.getInt16(hhea + 6) / unitsPerEm,
    advances,
  };
}

/** Letters before this one, which nearly all are, stand alone: the scripts need not be gone through for each of them. */
const FIRST_SHAPED = Math.min(...NEEDS_SHAPING.map(([first]) => first));

/** Whether a face has a letter, and the letter can be set alone. */
function has(code: number, face: FontFace): boolean {
  if (!face.advances.has(code)) return false;
  return code < FIRST_SHAPED || !NEEDS_SHAPING.some(([first, last]) => code >= first && code <= last);
}

/** A text as it can be printed, the face that has its letters, and the letters that had to be given up. */
export interface Printable {
  readonly text: string;
  readonly face: FaceName;
  /** In order of appearance, each once. */
  readonly missing: readonly string[];
}

/**
 * A text as it can be printed.
 * @param text any text; composed first, so that a letter with its accent counts as one
 * @param face the face wanted; its stand-in where that lacks a letter and the stand-in lacks fewer
 */
export function printable(text: string, face: FaceName, fonts: SlateFonts): Printable {
  const first = printableIn(text, face, fonts);
  if (first.missing.length === 0) return first;
  const second = printableIn(text, STAND_INS[face], fonts);
  return second.missing.length < first.missing.length ? second : first;
}

function printableIn(text: string, face: FaceName, fonts: SlateFonts): Printable {
  const missing = new Set<string>();
  let out = '';
  for (const letter of text.normalize('NFC')) {
    const code = letter.codePointAt(0)!;
    // Line breaks, tabs and the like would be drawn as boxes: on a slate they are spaces.
    if (code < 0x20 || code === 0x7f) out += ' ';
    else if (has(code, fonts[face])) out += letter;
    else {
      missing.add(letter);
      out += MISSING_MARK;
    }
  }
  return { text: out, face, missing: [...missing] };
}

/**
 * Width of a text.
 * @param text printable letters only @param sizePt type size in points
 * @returns points, the sum of the advance widths
 * Source: OpenType specification 1.9.1, hmtx.
 */
export function textWidthPt(text: string, font: FontFace, sizePt: number): number {
  let width = 0;
  for (const letter of text) {
    const advance = font.advances.get(letter.codePointAt(0)!);
    assert(advance !== undefined, `the letter ${letter} was measured without being checked`);
    width += advance;
  }
  return width * sizePt;
}
