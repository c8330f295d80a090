/** PDFs as tools of other makers read and draw them. */
import { expect, type Page } from '@playwright/test';
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { assert } from '../../core/result';

const ROOT = join(import.meta.dirname, '..', '..');

/** What a program prints; where it is missing or fails, the test fails with its words. */
export function tool(name: string, args: readonly string[]): string {
  const { status, stdout, stderr, error } = spawnSync(name, args, {
    cwd: ROOT,
    encoding: 'utf8',
    maxBuffer: 1e9,
  });
  if (error)
    throw new Error(`${name} is needed for this test (Debian: poppler-utils, qpdf): ${error.message}`);
  if (status !== 0) throw new Error(`${name} ended with ${status}: ${stderr}`);
  return stdout;
}

/** A PDF with its streams uncompressed and the identifiers that qpdf itself gives left out. */
export function uncompressed(file: string): string {
  return tool('qpdf', ['--qdf', '--object-streams=disable', '--static-id', file, '-']);
}

/** How much darker, of 255, a point is than any around it in the other picture, to count as other ink. */
const OTHER_INK = 96;

/** The words of each page, in an order of their own: two writers draw them in another order. */
export function wordsByPage(file: string): readonly (readonly string[])[] {
  return tool('pdftotext', ['-raw', '-enc', 'UTF-8', file, '-'])
    .split('\f')
    .slice(0, -1)
    .map((page) =>
      page
        .split(/[\s\u00a0]+/)
        .filter((word) => word !== '')
        .toSorted(),
    );
}

/** Width and height of each page in points. */
export function pageSizes(file: string): readonly (readonly [number, number])[] {
  const sizes = tool('pdfinfo', ['-f', '1', '-l', '9999', file]).matchAll(
    /Page\s+\d+ size:\s+([\d.]+) x ([\d.]+)/g,
  );
  return [...sizes].map(([, width, height]) => [Number(width), Number(height)] as const);
}

/** The largest share of points of a page with ink that the other PDF has not there; the first pages of both. */
export function differingShare(file: string, other: string, into: string): number {
  const drawn = (pdf: string, name: string): readonly Picture[] => {
    tool('pdftoppm', ['-r', '100', '-gray', '-l', '3', pdf, `${into}-${name}`]);
    return readdirSync(dirname(into))
      .filter((each) => each.startsWith(`${basename(into)}-${name}-`))
      .toSorted()
      .map((each) => greyPicture(join(dirname(into), each)));
  };
  const mine = drawn(file, 'a');
  const theirs = drawn(other, 'b');
  expect(mine.length).toBe(theirs.length);
  return Math.max(
    ...mine.flatMap((picture, i) => [inkElsewhere(picture, theirs[i]!), inkElsewhere(theirs[i]!, picture)]),
  );
}

export const A4_SIDES = ['upright', 'across'] as const;

/** Prints the window on A4 as the browser's own print does, and its text as it stands on the pages. */
export async function printed(page: Page, file: string, side: (typeof A4_SIDES)[number]): Promise<string> {
  const margin = { top: '1cm', right: '1cm', bottom: '1cm', left: '1cm' };
  await page.pdf({ path: file, format: 'A4', landscape: side === 'across', margin, printBackground: true });
  return tool('pdftotext', ['-layout', '-enc', 'UTF-8', file, '-']);
}

interface Picture {
  readonly width: number;
  readonly height: number;
  /** Row by row, 0 black to 255 white. */
  readonly points: Uint8Array;
}

/** The share of points that are much darker than every point around them in the other picture. */
function inkElsewhere(picture: Picture, other: Picture): number {
  let count = 0;
  for (let y = 1; y < Math.min(picture.height, other.height) - 1; y += 1) {
    for (let x = 1; x < Math.min(picture.width, other.width) - 1; x += 1) {
      let darkest = 255;
      for (let dy = -1; dy <= 1; dy += 1) {
        for (let dx = -1; dx <= 1; dx += 1) {
          darkest = Math.min(darkest, other.points[(y + dy) * other.width + x + dx]!);
        }
      }
      if (darkest - picture.points[y * picture.width + x]! > OTHER_INK) count += 1;
    }
  }
  return count / (picture.width * picture.height);
}

/** Source: the Netpbm format PGM, as pdftoppm writes it. */
function greyPicture(file: string): Picture {
  const bytes = readFileSync(file);
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 64).toString('latin1'));
  assert(head !== null, `${file} is no picture in greys`);
  return { width: Number(head[1]), height: Number(head[2]), points: bytes.subarray(head[0].length) };
}
