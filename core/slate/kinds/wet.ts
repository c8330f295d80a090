import { momentText } from '../figures';
import { slateDays, type SlateDay } from '../contents';
import { deeperLonger } from '../deeper-longer';
import { rule, space, stack, writingLines, type Block, type Setter } from '../layout';
import { heading, SLATE_MIN_PT, type Draft } from '../page-frame';
import { pairs, type Sizes } from '../pairs';
import type { SlateRequest } from '../request';
import { diveParts, type DiveParts, type WetDive } from './wet-dive';

/** Larger type sizes, tried in turn as long as the day takes no page more for it than at the smallest. */
const LARGER_PT = [12.5, 14, 15.5, 17, 19.5, 22];

/** Distance of lines to write on with a pencil in a glove. Source: common practice. */
const WRITING_PT = 20;

/** More lines than these are no help: the rest of a large page stays white. */
const WRITING_MAX = 8;

/** Something on a page; `writes` where a line to write on ends it, which may grow into more. */
interface Piece {
  readonly block: Block;
  readonly writes: boolean;
  /** Begins on a page of its own. */
  readonly begins: boolean;
  /** Part of a dive torn line by line: whose dive it is stands over it where it comes to open a page. */
  readonly isTorn: boolean;
}

interface FullPage {
  readonly pieces: { readonly piece: Piece; readonly gapPt: number }[];
  /** Indices of the dives on it. */
  readonly dives: number[];
  usedPt: number;
}

/**
 * A dive in one piece; in halves where a page is too low for it whole, each on a page of its own, so that
 * they lie back to back on paper printed on both sides; line by line where even a half is too high.
 */
function piecesOf(dive: DiveParts, availablePt: number): readonly Piece[] {
  const writing = space(WRITING_PT);
  // Rather without the picture of its profile, which the figures tell as well, and a line to write on, than in halves.
  for (const [more, writes] of [
    [dive.more, true],
    [dive.leastMore, true],
    [dive.leastMore, false],
  ] as const) {
    const whole = stack([dive.heading, ...dive.plan, ...more, ...(writes ? [writing] : [])], dive.gapPt);
    if (whole.heightPt <= availablePt) return [{ block: whole, writes, begins: false, isTorn: false }];
  }
  const halves: readonly Piece[] = [
    { block: stack([dive.heading, ...dive.plan], dive.gapPt), writes: false, begins: true, isTorn: false },
    {
      block: stack([dive.again, ...dive.more, writing], dive.gapPt),
      writes: true,
      begins: true,
      isTorn: false,
    },
  ];
  if (halves.every((half) => half.block.heightPt <= availablePt)) return halves;
  const [first, ...others] = [...dive.plan, ...dive.more];
  return [
    { block: stack([dive.heading, first!], dive.gapPt), writes: false, begins: true, isTorn: true },
    ...others.map((block) => ({ block, writes: false, begins: false, isTorn: true })),
    { block: writing, writes: true, begins: false, isTorn: true },
  ];
}

/** Lays dives on pages in order, as many as fit; null where a part is higher than a page. */
function paginate(
  dives: readonly DiveParts[],
  availablePt: number,
  betweenPt: number,
  onePerPage: boolean,
): readonly FullPage[] | null {
  const pages: FullPage[] = [];
  for (const [i, dive] of dives.entries()) {
    for (const [p, part] of piecesOf(dive, availablePt).entries()) {
      let piece = part;
      let page = pages[pages.length - 1];
      const gapPt = p === 0 ? betweenPt : dive.gapPt;
      const isFull = page !== undefined && page.usedPt + gapPt + piece.block.heightPt > availablePt;
      if (page === undefined || isFull || piece.begins || (onePerPage && p === 0)) {
        pages.push((page = { pieces: [], dives: [], usedPt: 0 }));
        if (piece.isTorn && p > 0) {
          piece = { ...piece, block: stack([dive.again, piece.block], dive.gapPt) };
        }
      }
      if (piece.block.heightPt > availablePt) return null;
      const above = page.pieces.length > 0 ? gapPt : 0;
      page.usedPt += above + piece.block.heightPt;
      page.pieces.push({ piece, gapPt: above });
      if (!page.dives.includes(i)) page.dives.push(i);
    }
  }
  return pages;
}

/** A piece with as many more lines to write on as the page has left for it. */
function withWriting(piece: Piece, widthPt: number, moreLines: number): Block {
  const { block, writes } = piece;
  if (!writes) return block;
  return {
    heightPt: block.heightPt + moreLines * WRITING_PT,
    at: (x, y) => [
      ...block.at(x, y),
      ...writingLines(widthPt, (moreLines + 1) * WRITING_PT, WRITING_PT).at(
        x,
        y + block.heightPt - WRITING_PT,
      ),
    ],
  };
}

interface DayPage {
  readonly body: Block;
  readonly numbers: readonly number[];
  readonly isTorn: boolean;
}

/** A day of one diver, with all that does not hang on the size of the type. */
interface WetDay {
  readonly name: string;
  readonly day: SlateDay;
  readonly dives: readonly WetDive[];
  readonly flyAfter: string | null;
}

/** The pages of one day at one type size; null where a part is higher than a page. */
function dayPages(
  size: Sizes,
  request: SlateRequest,
  { name, day, dives, flyAfter }: WetDay,
  heightPt: number,
): readonly DayPage[] | null {
  const { set, basePt, widthPt } = size;
  const head = stack([
    heading(set, name, day.dateText, widthPt, basePt * 1.1),
    pairs(size, [...day.oxygen, ...(flyAfter === null ? [] : [['No flying before', flyAfter] as const])]),
    rule(widthPt, 0.8, 5),
  ]);
  const between = basePt * 0.9;
  const available = heightPt - head.heightPt;
  const parts = dives.map((dive) => diveParts(size, dive));
  const pages = paginate(parts, available, between, request.onePerPage);
  return (
    pages?.map((page) => {
      const writing = page.pieces.filter(({ piece }) => piece.writes).length;
      const spare = Math.max(0, available - page.usedPt);
      const more = writing === 0 ? 0 : Math.min(WRITING_MAX, Math.floor(spare / writing / WRITING_PT));
      return {
        body: stack([
          head,
          ...page.pieces.flatMap(({ piece, gapPt }) => [space(gapPt), withWriting(piece, widthPt, more)]),
        ]),
        numbers: page.dives.map((i) => day.dives[i]!.number),
        isTorn: page.pieces.some(({ piece }) => piece.isTorn),
      };
    }) ?? null
  );
}

/** "dive 2", "dives 2 to 3"; "dives 1, 3" where the diver leaves one out. */
function diveWords(numbers: readonly number[]): string {
  const [first, last] = [numbers[0]!, numbers[numbers.length - 1]!];
  if (numbers.length === 1) return `dive ${first}`;
  const hasAll = last - first === numbers.length - 1;
  return hasAll ? `dives ${first} to ${last}` : `dives ${numbers.join(', ')}`;
}

function wetDays(request: SlateRequest): readonly WetDay[] {
  const { ledger, cautions, dates, diverIds, units, clock } = request;
  return ledger.divers
    .filter(({ diver }) => diverIds === null || diverIds.includes(diver.id))
    .flatMap((mine) => {
      const lastDate = mine.days[mine.days.length - 1]?.date;
      return slateDays(ledger.trip, mine, dates, cautions, request).map((day) => ({
        name: mine.diver.name,
        day,
        dives: day.dives.map((dive) => ({
          dive,
          table: dive.entry.isMade ? deeperLonger(ledger.trip, dive.entry, units) : null,
        })),
        flyAfter:
          day.date === lastDate && mine.flyAfterMin !== null ? momentText(mine.flyAfterMin, clock) : null,
      }));
    });
}

type Booklet = readonly (readonly DayPage[])[];

function pageCount(booklet: Booklet): number {
  return booklet.reduce((sum, pages) => sum + pages.length, 0);
}

function isTorn(booklet: Booklet): boolean {
  return booklet.some((pages) => pages.some((page) => page.isTorn));
}

/**
 * The pages of every day in one type size, so that a booklet reads alike from page to page: the largest that costs no
 * page more than the smallest. Where larger type was asked for and none such is, a dive may take a page and its back.
 * @returns null where the smallest type is too large for the paper
 */
function inOneSize(request: SlateRequest, pagesAt: (basePt: number) => Booklet | null): Booklet | null {
  const smallest = pagesAt(SLATE_MIN_PT);
  if (smallest === null) return null;
  const largest = (mostPages: number): Booklet => {
    let best = smallest;
    for (const basePt of LARGER_PT) {
      const larger = pagesAt(basePt);
      if (larger === null || pageCount(larger) > mostPages) break;
      // Nor is larger type worth a dive torn where it need not be.
      if (isTorn(larger) && !isTorn(smallest)) break;
      best = larger;
    }
    return best;
  };
  const best = largest(pageCount(smallest));
  return best === smallest && request.onePerPage ? largest(2 * pageCount(smallest)) : best;
}

/**
 * Wet-notes slates: one diver and one day after the other, as many dives a page as fit.
 * @param heightPt free for the body, above the foot
 * @returns drafts in order, or null where the paper is too small for 11 point
 */
export function wetDrafts(
  request: SlateRequest,
  set: Setter,
  widthPt: number,
  heightPt: number,
): readonly Draft[] | null {
  const days = wetDays(request);
  const pagesAt = (basePt: number): Booklet | null => {
    const made: (readonly DayPage[])[] = [];
    for (const each of days) {
      const pages = dayPages({ set, widthPt, basePt }, request, each, heightPt);
      if (pages === null) return null;
      made.push(pages);
    }
    return made;
  };
  const made = inOneSize(request, pagesAt);
  if (made === null) return null;
  return made.flatMap((pages, d) => {
    const { name, day } = days[d]!;
    return pages.map(({ body, numbers }, i) => {
      const which = diveWords(numbers);
      const isSame = i > 0 && diveWords(pages[i - 1]!.numbers) === which;
      return { name: `${name}, ${day.dateText}, ${which}${isSame ? ', continued' : ''}`, body };
    });
  });
}
