import { failure, failures, success, type Result } from '../result';
import { dateText } from './figures';
import {
  datesWithoutDives,
  marginIsNone,
  marginTooWide,
  nothingMade,
  nothingToPrint,
  paperTooSmall,
  tagTooSmall,
  unknownDivers,
} from './faults';
import type { Diver } from '../document/types';
import { printable } from './font';
import { briefingDrafts } from './kinds/briefing';
import { tagDrafts } from './kinds/tags';
import { tripDrafts } from './kinds/trip';
import { wetDrafts } from './kinds/wet';
import { moved, setterOf, straight, type Mark, type Page } from './layout';
import { planMark } from './plan-mark';
import { foot, footHeight, PRINT_MIN_PT, SLATE_MIN_PT, type Draft, type FootFacts } from './page-frame';
import {
  CUT_GAP_PT,
  CUT_MARK_PT,
  frameOf,
  imposition,
  placeOf,
  PT_PER_MM,
  type Imposition,
  type Paper,
} from './paper';
import {
  USUAL_SLATE,
  type SlateFault,
  type SlateKind,
  type SlateRequest,
  type SlateTrouble,
} from './request';

/** Pages ready to be drawn, by whatever draws them. */
export interface SlateLayout {
  readonly title: string;
  readonly pages: readonly Page[];
  /** Letters of names that the fonts lack, each once. */
  readonly missingLetters: readonly string[];
}

const KIND_NAMES: Record<SlateKind, string> = {
  wet: 'wet-notes slate',
  briefing: 'briefing sheet',
  trip: 'trip sheet',
  tags: 'cylinder tags',
};

/** Smallest type of a kind, points. */
const KIND_FOOT_PT: Record<SlateKind, number> = {
  wet: SLATE_MIN_PT,
  briefing: PRINT_MIN_PT,
  trip: PRINT_MIN_PT,
  tags: PRINT_MIN_PT,
};

/** Nothing is laid out on less than this; what is in it decides the rest. */
const NARROWEST_PT = 90;

/** Half of a page is white with this margin, in millimetres: wider ones are refused whatever the page holds. */
function widestMarginMm({ paper }: SlateRequest): number {
  return Math.min(paper.widthMm, paper.heightMm) / 4;
}

function faultsOf(request: SlateRequest, facts: FootFacts): readonly SlateFault[] {
  const faults: SlateFault[] = [];
  const { ledger, diverIds, dates, paper, marginMm } = request;
  const ids = ledger.divers.map((each) => each.diver.id);
  const strangers = diverIds?.filter((id) => !ids.includes(id)) ?? [];
  if (strangers.length > 0) faults.push(unknownDivers(strangers, ids));
  const chosen = ledger.divers.filter((each) => diverIds === null || diverIds.includes(each.diver.id));
  const divingDays = [...new Set(chosen.flatMap((each) => each.days.map((day) => day.date)))].toSorted();
  const idle = dates?.filter((date) => !divingDays.includes(date)) ?? [];
  if (strangers.length === 0 && idle.length > 0) faults.push(datesWithoutDives(idle, divingDays));
  if (faults.length === 0 && (divingDays.length === 0 || dates?.length === 0)) faults.push(nothingToPrint());
  if (!(marginMm >= 0)) faults.push(marginIsNone(marginMm));
  else if (marginMm > widestMarginMm(request)) {
    // With another fault there is nothing to try a margin with.
    const atMostMm = faults.length === 0 ? fittingMarginMm(request, facts) : null;
    faults.push(marginTooWide(paper.name, marginMm, atMostMm));
  }
  return faults;
}

/**
 * The widest margin narrower than the one asked for with which all fits.
 * @returns whole millimetres; null: not even without a margin
 */
function fittingMarginMm(request: SlateRequest, facts: FootFacts): number | null {
  const fits = (marginMm: number): boolean => bodiesOf({ ...request, marginMm }, facts) !== null;
  if (request.marginMm === 0 || !fits(0)) return null;
  let fittingMm = 0;
  let beyondMm = Math.ceil(Math.min(request.marginMm, widestMarginMm(request) + 1));
  while (beyondMm - fittingMm > 1) {
    const middleMm = Math.floor((fittingMm + beyondMm) / 2);
    if (middleMm <= widestMarginMm(request) && fits(middleMm)) fittingMm = middleMm;
    else beyondMm = middleMm;
  }
  return fittingMm;
}

/** What is at fault where a page does not take what has to stand on it: the margin where that is wider than usual. */
function tooSmall(request: SlateRequest, facts: FootFacts): SlateFault {
  const { kind, label, paper, marginMm } = request;
  const atMostMm = fittingMarginMm(request, facts);
  if (atMostMm !== null && marginMm > USUAL_SLATE.marginMm) {
    return marginTooWide(paper.name, marginMm, atMostMm);
  }
  return kind === 'tags'
    ? tagTooSmall(label?.name ?? null, paper.name)
    : paperTooSmall(paper.name, `A ${KIND_NAMES[kind]}`, atMostMm);
}

function titleOf(request: SlateRequest): string {
  const { ledger, kind, diverIds } = request;
  const names = ledger.divers
    .filter((each) => diverIds !== null && diverIds.includes(each.diver.id))
    .map((each) => each.diver.name);
  const who = names.length === 0 ? '' : `, ${names.join(', ')}`;
  return `${ledger.trip.title}: ${KIND_NAMES[kind]}${who}, printed ${dateText(request.printedOn)}`;
}

/** Marks at the edges a knife is laid along, outside the pages they part, as far as the sheet has white there. */
function cutMarks(page: Paper, how: Imposition): readonly Mark[] {
  const width = page.widthMm * PT_PER_MM;
  const height = page.heightMm * PT_PER_MM;
  const right = how.origin.x + how.columns * width;
  const bottom = how.origin.y + how.rows * height;
  const marks: Mark[] = [];
  for (let c = 0; c <= how.columns && how.origin.y >= CUT_MARK_PT; c += 1) {
    const x = how.origin.x + c * width;
    marks.push(straight(x, how.origin.y - CUT_MARK_PT, x, how.origin.y - CUT_GAP_PT, 0.3));
    marks.push(straight(x, bottom + CUT_GAP_PT, x, bottom + CUT_MARK_PT, 0.3));
  }
  for (let r = 0; r <= how.rows && how.origin.x >= CUT_MARK_PT; r += 1) {
    const y = how.origin.y + r * height;
    marks.push(straight(how.origin.x - CUT_MARK_PT, y, how.origin.x - CUT_GAP_PT, y, 0.3));
    marks.push(straight(right + CUT_GAP_PT, y, right + CUT_MARK_PT, y, 0.3));
  }
  return marks;
}

/** Dashed lines between pages: where the pages fill the sheet, marks beside them find no white. */
function cutLines(page: Paper, how: Imposition): readonly Mark[] {
  const width = page.widthMm * PT_PER_MM;
  const height = page.heightMm * PT_PER_MM;
  const marks: Mark[] = [];
  for (let c = 1; c < how.columns; c += 1) {
    const x = how.origin.x + c * width;
    marks.push(straight(x, how.origin.y, x, how.origin.y + how.rows * height, 0.3, [3, 3]));
  }
  for (let r = 1; r < how.rows; r += 1) {
    const y = how.origin.y + r * height;
    marks.push(straight(how.origin.x, y, how.origin.x + how.columns * width, y, 0.3, [3, 3]));
  }
  return marks;
}

/** Pages laid on larger sheets. On both sides: sheets go in pairs, the back with its columns turned round. */
function onSheets(pages: readonly Page[], paper: Paper, how: Imposition, twoSided: boolean): readonly Page[] {
  const perSide = how.columns * how.rows;
  const sides: (Page | undefined)[][] = [];
  if (twoSided) {
    // Front and back of one leaf are neighbours in the list and must meet in one place of the sheet.
    for (let leaf = 0; leaf * 2 < pages.length; leaf += perSide) {
      const leaves = Array.from({ length: perSide }, (_, i) => 2 * (leaf + i));
      sides.push(leaves.map((first) => pages[first]));
      const backs = leaves.map((first) => pages[first + 1]);
      if (backs.some((page) => page !== undefined)) sides.push(backs);
    }
  } else {
    for (let i = 0; i < pages.length; i += perSide) sides.push(pages.slice(i, i + perSide));
  }
  const guides = [...cutMarks(paper, how), ...cutLines(paper, how)];
  return sides.map((side, s) => ({
    name: side.flatMap((page) => (page ? [page.name] : [])).join('; '),
    widthPt: how.sheet.widthMm * PT_PER_MM,
    heightPt: how.sheet.heightMm * PT_PER_MM,
    marks: [
      ...guides,
      ...side.flatMap((page, i) => {
        if (!page) return [];
        const { x, y } = placeOf(i, paper, how, twoSided && s % 2 === 1);
        return moved(page.marks, x, y);
      }),
    ],
  }));
}

/**
 * The request with a number for each diver whose name the fonts cannot print in full: two names that are
 * boxes both must not look alike on a slate.
 */
function withNumbers(request: SlateRequest): SlateRequest {
  const { ledger, fonts } = request;
  const named = (diver: Diver): Diver => {
    if (printable(diver.name, fonts).missing.length === 0) return diver;
    const number = ledger.trip.party.findIndex(({ id }) => id === diver.id) + 1;
    return { ...diver, name: `Diver ${number}, ${diver.name}` };
  };
  const trip = { ...ledger.trip, party: ledger.trip.party.map(named) };
  const divers = ledger.divers.map((each) => ({ ...each, diver: named(each.diver) }));
  return { ...request, ledger: { ...ledger, trip, divers } };
}

/**
 * Lays out what is asked for.
 * @param asked what to print, for whom, on what @returns pages whose every text lies inside its margins,
 *   or every reason why that cannot be
 */
export function slatePages(asked: SlateRequest): Result<SlateLayout, SlateTrouble> {
  const request = withNumbers(asked);
  const facts: FootFacts = {
    trip: request.ledger.trip,
    // Of the plan as it was given: numbers before names depend on the fonts.
    planMark: planMark(asked.ledger.trip),
    printedOn: request.printedOn,
  };
  const faults = faultsOf(request, facts);
  if (faults.length > 0) return failures(faults);
  const { paper, marginMm, holes } = request;
  const how = request.sheet === null ? null : imposition(paper, request.sheet);
  if (how && !how.ok) return how;

  const bodies = bodiesOf(request, facts);
  if (bodies === null) return failure(tooSmall(request, facts));
  const { drafts, set, footPt } = bodies;
  if (drafts.length === 0) return failure(nothingMade());
  const pages = drafts.map((draft, i): Page => {
    const number = `page ${i + 1}/${drafts.length}`;
    const size = { widthPt: paper.widthMm * PT_PER_MM, heightPt: paper.heightMm * PT_PER_MM };
    if ('marks' in draft) return { name: draft.name, ...size, marks: draft.marks(number) };
    const frame = frameOf(paper, marginMm, holes, request.twoSided && i % 2 === 1);
    const below = foot(set, frame.width, footPt, facts, number);
    return {
      name: draft.name,
      ...size,
      marks: [
        ...draft.body.at(frame.x, frame.y),
        ...below.at(frame.x, frame.y + frame.height - below.heightPt),
      ],
    };
  });
  return success({
    title: titleOf(request),
    pages: how ? onSheets(pages, paper, how.value, request.twoSided) : pages,
    missingLetters: [...set.missing],
  });
}

/** White between the body of a page and its foot, points. */
const FOOT_GAP_PT = 4;

/** Most print-outs have no more pages than have numbers of this many digits. */
const USUAL_DIGITS = 2;

/** The drafts of all pages, and what they were laid out with. */
interface Bodies {
  readonly drafts: readonly Draft[];
  readonly set: ReturnType<typeof setterOf>;
  readonly footPt: number;
}

/** Null where the paper inside its margins does not take what has to stand on it. */
function bodiesOf(request: SlateRequest, facts: FootFacts): Bodies | null {
  const { paper, marginMm, holes } = request;
  const set = setterOf(request.fonts);
  const footPt = KIND_FOOT_PT[request.kind];
  const { width, height } = frameOf(paper, marginMm, holes, false);
  if (width < NARROWEST_PT) return null;
  let digits = USUAL_DIGITS;
  for (;;) {
    const footHigh = footHeight(set, width, footPt, facts, digits);
    const drafts = draftsOf(request, set, width, height - footHigh - FOOT_GAP_PT, facts);
    if (drafts === null) return null;
    // A longer page number may break the line it ends, and the foot grow into the bodies.
    digits = Math.max(digits, String(drafts.length).length);
    if (footHeight(set, width, footPt, facts, digits) <= footHigh) return { drafts, set, footPt };
  }
}

function draftsOf(
  request: SlateRequest,
  set: ReturnType<typeof setterOf>,
  widthPt: number,
  heightPt: number,
  facts: FootFacts,
): readonly Draft[] | null {
  if (heightPt <= 0) return null;
  switch (request.kind) {
    case 'wet':
      return wetDrafts(request, set, widthPt, heightPt);
    case 'briefing':
      return briefingDrafts(request, set, widthPt, heightPt);
    case 'trip':
      return tripDrafts(request, set, widthPt, heightPt);
    case 'tags':
      return tagDrafts(request, set, widthPt, heightPt, facts);
  }
}
