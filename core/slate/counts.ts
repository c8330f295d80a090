/** What a print-out comes to, told before it is printed: cards, days, guests, tags; pages, and sheets of a larger paper. */
import { said, type Said } from '../words/said';
import type { Paper } from './paper';
import type { SlateKind } from './request';

/** How the pages of a print-out lie on paper. */
export interface Printed {
  readonly pages: number;
  /** Sides of the sheets that the pages are laid on; as many as pages where they are laid on none. */
  readonly sides: number;
  readonly sheet: Paper | null;
  readonly twoSided: boolean;
  readonly isFolded?: boolean;
}

function thingsSaid(kind: SlateKind, count: number): Said {
  const isOne = count === 1;
  switch (kind) {
    case 'card':
    case 'depth':
      return isOne ? said`1 card` : said`${count} cards`;
    case 'briefing':
      return isOne ? said`1 day` : said`${count} days`;
    case 'guest':
      return isOne ? said`1 guest` : said`${count} guests`;
    case 'trip':
      return isOne ? said`1 diver` : said`${count} divers`;
    case 'tags':
      return isOne ? said`1 tag and its log` : said`${count} tags and their log`;
  }
}

function pagesSaid(count: number): Said {
  return count === 1 ? said`1 page` : said`${count} pages`;
}

function sheetsSaid(count: number, paper: string): Said {
  return count === 1 ? said`1 sheet of ${paper}` : said`${count} sheets of ${paper}`;
}

/** "4 cards, to fold: 4 pages", "16 tags and their log: 3 pages", "6 days: 3 sheets of A4, printed on both sides". */
export function countSaid(kind: SlateKind, count: number, printed: Printed): Said {
  const { pages, sides, sheet, twoSided, isFolded } = printed;
  const things = thingsSaid(kind, count);
  if (sheet === null) {
    return isFolded === true
      ? said`${things}, to fold: ${pagesSaid(pages)}`
      : said`${things}: ${pagesSaid(pages)}`;
  }
  const sheets = sheetsSaid(twoSided ? Math.ceil(sides / 2) : sides, sheet.name);
  return twoSided ? said`${things}: ${sheets}, printed on both sides` : said`${things}: ${sheets}`;
}
