/** Print-outs in tests: the fonts that ship, a request with the usual choices, and the boxes of a page. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { assert } from '../../core/result';
import { FACE_FILES, FACE_NAMES } from '../../core/slate/faces';
import { readFont, type SlateFonts } from '../../core/slate/font';
import { boxOf, type Page, type TextMark } from '../../core/slate/layout';
import { readPaper, type Paper } from '../../core/slate/paper';
import { slatePages, type SlateLayout } from '../../core/slate/pages';
import type { SlateRequest } from '../../core/slate/request';
import { cautionsOf } from '../../core/cautions/all';
import { ledger } from '../../core/ledger/ledger';
import type { Trip } from '../../core/document/types';

const require = createRequire(import.meta.url);

export const FONTS = Object.fromEntries(
  FACE_NAMES.map((name) => [
    name,
    readFont(readFileSync(require.resolve(`@expo-google-fonts/${FACE_FILES[name]}`))),
  ]),
) as SlateFonts;

export function aPaper(text: string): Paper {
  const read = readPaper(text);
  assert(read.ok, `no paper ${text}`);
  return read.value;
}

/** Day cards for the whole party, of all days, folded to A6. */
export function aRequest(trip: Trip, change: Partial<SlateRequest> = {}): SlateRequest {
  const whole = ledger(trip);
  return {
    ledger: whole,
    cautions: cautionsOf(whole),
    kind: 'card',
    diverIds: null,
    dates: 'all',
    doneDates: [],
    since: null,
    paper: aPaper('A6'),
    sheet: null,
    holes: 'none',
    marginMm: 5,
    twoSided: false,
    card: 'full',
    isFolded: true,
    units: 'metric',
    clock: '24h',
    label: null,
    fonts: FONTS,
    printedOn: '2027-03-01',
    ...change,
  };
}

export function layoutOf(trip: Trip, change: Partial<SlateRequest> = {}): SlateLayout {
  const laid = slatePages(aRequest(trip, change));
  assert(laid.ok, laid.ok ? '' : laid.troubles.map((trouble) => trouble.what).join(' '));
  return laid.value;
}

/** By how many points the reader of PDFs sees a text narrower than it is: it cuts advances to thousandths. */
export function readersCut(mark: Pick<TextMark, 'text' | 'font' | 'sizePt'>): number {
  const cuts = Array.from(mark.text, (letter) => {
    const advance = 1000 * FONTS[mark.font].advances.get(letter.codePointAt(0)!)!;
    return advance - Math.floor(advance);
  });
  return (cuts.reduce((sum, cut) => sum + cut, 0) * mark.sizePt) / 1000;
}

export function textsOf(page: Page): readonly TextMark[] {
  return page.marks.filter((mark): mark is TextMark => mark.kind === 'text');
}

/** All words of a page in the order they are drawn. */
export function wordsOf(page: Page): string {
  return textsOf(page)
    .map((mark) => mark.text)
    .join('\n')
    .replaceAll('\u00a0', ' ');
}

/** Positions are kept to a hundredth of a point; two boxes may share that much of an edge. */
const SHARED_EDGE_PT = 0.05;

/** What is wrong with where things lie on a page: texts over each other or past the paper's edge. */
export function faultsOf(page: Page, marginPt: number): readonly string[] {
  const faults: string[] = [];
  const boxes = textsOf(page).flatMap((mark) => {
    const box = boxOf(mark, FONTS);
    return box === null ? [] : [{ mark, box }];
  });
  for (const [i, { mark, box }] of boxes.entries()) {
    const isInside =
      box.x >= marginPt - SHARED_EDGE_PT &&
      box.y >= marginPt - SHARED_EDGE_PT &&
      box.x + box.width <= page.widthPt - marginPt + SHARED_EDGE_PT &&
      box.y + box.height <= page.heightPt - marginPt + SHARED_EDGE_PT;
    if (!isInside) faults.push(`"${mark.text}" runs off ${page.name}`);
    for (const other of boxes.slice(i + 1)) {
      const across =
        Math.min(box.x + box.width, other.box.x + other.box.width) - Math.max(box.x, other.box.x);
      const down =
        Math.min(box.y + box.height, other.box.y + other.box.height) - Math.max(box.y, other.box.y);
      if (across > SHARED_EDGE_PT && down > SHARED_EDGE_PT) {
        faults.push(`"${mark.text}" lies over "${other.mark.text}" on ${page.name}`);
      }
    }
  }
  for (const mark of page.marks) {
    if (mark.kind === 'text') continue;
    for (const { x, y } of mark.points) {
      if (
        !(
          x >= -SHARED_EDGE_PT &&
          y >= -SHARED_EDGE_PT &&
          x <= page.widthPt + SHARED_EDGE_PT &&
          y <= page.heightPt + SHARED_EDGE_PT
        )
      ) {
        faults.push(`a ${mark.kind} runs off ${page.name} at ${x}, ${y}`);
      }
    }
  }
  return faults;
}
