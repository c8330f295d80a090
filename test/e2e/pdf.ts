/** PDFs as the window prints them, compared and laid out. */
import { expect, type Page } from '@playwright/test';
import { readFileSync } from 'node:fs';
import { linesOf, picturesOf, readPdf, type Picture } from '../support/pdf/read-pdf';

/** How much darker, of 255, a point is than any around it in the other picture, to count as other ink. */
const OTHER_INK = 96;
const DOTS_PER_INCH = 100;
const PAGES_DRAWN = 3;

/** The words of each page, in an order of their own: two writers draw them in another order. */
export async function wordsByPage(file: string): Promise<readonly (readonly string[])[]> {
  const pages = await readPdf(readFileSync(file));
  return pages.map(({ words }) => words.map(({ text }) => text).toSorted());
}

/** Width and height of each page in points. */
export async function pageSizes(file: string): Promise<readonly (readonly [number, number])[]> {
  return (await readPdf(readFileSync(file))).map(({ widthPt, heightPt }) => [widthPt, heightPt] as const);
}

/** The largest share of points of a page with ink that the other PDF has not there; the first pages of both. */
export async function differingShare(file: string, other: string): Promise<number> {
  const mine = await picturesOf(readFileSync(file), DOTS_PER_INCH, PAGES_DRAWN);
  const theirs = await picturesOf(readFileSync(other), DOTS_PER_INCH, PAGES_DRAWN);
  expect(mine.length).toBe(theirs.length);
  return Math.max(
    ...mine.flatMap((picture, i) => [inkElsewhere(picture, theirs[i]!), inkElsewhere(theirs[i]!, picture)]),
  );
}

export const A4_SIDES = ['upright', 'across'] as const;

/** Prints the window on A4 as the browser's own print does, and its text as it lies on the pages, line by line. */
export async function printed(page: Page, file: string, side: (typeof A4_SIDES)[number]): Promise<string> {
  const margin = { top: '1cm', right: '1cm', bottom: '1cm', left: '1cm' };
  await page.pdf({ path: file, format: 'A4', landscape: side === 'across', margin, printBackground: true });
  const pages = await readPdf(readFileSync(file));
  return pages.flatMap(linesOf).join('\n');
}

/** Words that lie in the margins of a centimetre or are cut at them. */
export async function wordsInMargins(file: string): Promise<readonly string[]> {
  const pages = await readPdf(readFileSync(file));
  return pages.flatMap(({ widthPt, words }) =>
    words.flatMap(({ text, x, width }) => (x > 27 && x + width < widthPt - 27 ? [] : [text])),
  );
}

/**
 * The share of points that are much darker than the other picture is there. A thin line between two rows of points is
 * drawn half in each, so what counts of the other is the ink of three points in a row, across or down.
 */
function inkElsewhere(picture: Picture, other: Picture): number {
  const inkAt = (x: number, y: number): number => 255 - other.points[y * other.width + x]!;
  const around = [-1, 0, 1] as const;
  let count = 0;
  for (let y = 1; y < Math.min(picture.height, other.height) - 1; y += 1) {
    for (let x = 1; x < Math.min(picture.width, other.width) - 1; x += 1) {
      const ink = 255 - picture.points[y * picture.width + x]!;
      if (ink <= OTHER_INK) continue;
      const down = Math.max(
        ...around.map((dx) => inkAt(x + dx, y - 1) + inkAt(x + dx, y) + inkAt(x + dx, y + 1)),
      );
      const across = Math.max(
        ...around.map((dy) => inkAt(x - 1, y + dy) + inkAt(x, y + dy) + inkAt(x + 1, y + dy)),
      );
      if (ink - Math.min(255, Math.max(down, across)) > OTHER_INK) count += 1;
    }
  }
  return count / (picture.width * picture.height);
}
