import { failure, failures, success, type Result } from '../result';
import { dayOf, inRow, said, type Said } from '../words/said';
import { usualMarginMm } from './options';
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
import { briefingDrafts } from './briefing/drafts';
import { guestDrafts } from './guest/drafts';
import { tagDrafts } from './kinds/tags';
import { tripPages } from './kinds/trip';
import { setterOf, type Page, type Setter } from './layout';
import { KIND_NAMES } from './names';
import { nextDay, usualDates } from './next-day';
import { slateWords } from './reading';
import { onSheets } from './sheets';
import { cardPages } from './card/pages';
import type { CardPages } from './card-sheets';
import { countSaid } from './counts';
import { depthCardPages } from './kinds/depth-card';
import { planMark } from './plan-mark';
import { foot, FOOT_PT, footHeight, PRINT_MIN_PT, type Draft, type FootFacts } from './page-frame';
import { frameOf, imposition, PT_PER_MM } from './paper';
import { type SlateFault, type SlateKind, type SlateRequest, type SlateTrouble } from './request';

/** Pages ready to be drawn, by whatever draws them. */
export interface SlateLayout {
  readonly title: string;
  readonly pages: readonly Page[];
  /** How many cards, pages and sheets that is. */
  readonly count: Said;
  /** Letters of names that the fonts lack, each once. */
  readonly missingLetters: readonly string[];
}

/** The kinds that are laid out as drafts of pages. */
type DraftKind = Exclude<SlateKind, 'card' | 'depth' | 'trip'>;

/** Nothing is laid out on less than this; what is in it decides the rest. */
const NARROWEST_PT = 90;

/** Half of a page is white with this margin, in millimetres: wider ones are refused whatever the page holds. */
function widestMarginMm({ paper }: SlateRequest): number {
  return Math.min(paper.widthMm, paper.heightMm) / 4;
}

/** Days on which somebody chosen dives, in order. */
function divingDaysOf({ ledger, diverIds }: SlateRequest): readonly string[] {
  const chosen = ledger.divers.filter((each) => diverIds === null || diverIds.includes(each.diver.id));
  return [...new Set(chosen.flatMap((each) => each.days.map((day) => day.date)))].toSorted();
}

/** The days that are printed. */
function datesOf(request: SlateRequest): readonly string[] {
  const { dates, kind, printedOn, doneDates } = request;
  if (Array.isArray(dates)) return dates as readonly string[];
  const days = divingDaysOf(request);
  if ((dates ?? usualDates(kind)) === 'all') return days;
  const next = nextDay(days, printedOn, doneDates);
  return next === null ? [] : [next];
}

function faultsOf(request: SlateRequest, facts: FootFacts): readonly SlateFault[] {
  const faults: SlateFault[] = [];
  const { words } = facts;
  const { ledger, diverIds, paper, marginMm } = request;
  const dates = Array.isArray(request.dates) ? (request.dates as readonly string[]) : null;
  const ids = ledger.divers.map((each) => each.diver.id);
  const strangers = diverIds?.filter((id) => !ids.includes(id)) ?? [];
  if (strangers.length > 0) faults.push(unknownDivers(words, strangers, ids));
  const divingDays = divingDaysOf(request);
  // A depth card is of the mixes, whoever dives when.
  const isIdle =
    request.kind === 'depth' ? diverIds?.length === 0 || ids.length === 0 : divingDays.length === 0;
  const idle = dates?.filter((date) => !divingDays.includes(date)) ?? [];
  if (strangers.length === 0 && idle.length > 0) faults.push(datesWithoutDives(words, idle, divingDays));
  if (faults.length === 0 && (isIdle || dates?.length === 0)) faults.push(nothingToPrint(words));
  if (!(marginMm >= 0)) faults.push(marginIsNone(words, marginMm));
  else if (marginMm > widestMarginMm(request)) {
    // With another fault there is nothing to try a margin with.
    const atMostMm = faults.length === 0 ? fittingMarginMm(request, facts) : null;
    faults.push(marginTooWide(words, paper.name, marginMm, atMostMm));
  }
  return faults;
}

/**
 * The widest margin narrower than the one asked for with which all fits.
 * @returns whole millimetres; null: not even without a margin
 */
function fittingMarginMm(request: SlateRequest, facts: FootFacts): number | null {
  const fits = (marginMm: number): boolean => canHold({ ...request, marginMm }, facts);
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

/** Whether the paper inside its margins takes what has to stand on it. */
function canHold(request: SlateRequest, facts: FootFacts): boolean {
  const faces = faceLayout(request, setterOf(request.fonts), facts);
  return faces === null ? bodiesOf(request, facts) !== null : faces.ok;
}

/** What is at fault where a page does not take what has to stand on it: the margin where that is wider than usual. */
function tooSmall(request: SlateRequest, facts: FootFacts): SlateFault {
  const { kind, label, paper, marginMm } = request;
  const { words } = facts;
  const atMostMm = fittingMarginMm(request, facts);
  if (atMostMm !== null && marginMm > usualMarginMm(kind, paper)) {
    return marginTooWide(words, paper.name, marginMm, atMostMm);
  }
  return kind === 'tags'
    ? tagTooSmall(words, label?.name ?? null, paper.name)
    : paperTooSmall(words, paper.name, KIND_NAMES[kind], atMostMm);
}

function titleOf(request: SlateRequest, { words }: FootFacts): string {
  const { ledger, kind, diverIds } = request;
  const names = ledger.divers
    .filter((each) => diverIds !== null && diverIds.includes(each.diver.id))
    .map((each) => each.diver.name);
  const who = inRow([KIND_NAMES[kind], ...names]);
  return words(said`${ledger.trip.title}: ${who}, printed ${dayOf(request.printedOn)}`);
}

/**
 * The request with a number for each diver whose name the fonts cannot print in full: two names that are
 * boxes both must not look alike on a slate.
 */
function withNumbers(request: SlateRequest): SlateRequest {
  const { ledger, fonts } = request;
  const words = slateWords(request);
  const named = (diver: Diver): Diver => {
    if (printable(diver.name, 'name', fonts).missing.length === 0) return diver;
    const number = ledger.trip.party.findIndex(({ id }) => id === diver.id) + 1;
    return { ...diver, name: words(said`Diver ${number}, ${diver.name}`) };
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
    words: slateWords(request),
  };
  const faults = faultsOf(request, facts);
  if (faults.length > 0) return failures(faults);
  const set = setterOf(request.fonts);
  const faces = faceLayout(request, set, facts);
  if (faces !== null) {
    if (!faces.ok) return faces.troubles[0].kind === 'paper' ? failure(tooSmall(request, facts)) : faces;
    return success({ title: titleOf(request, facts), ...faces.value, missingLetters: [...set.missing] });
  }
  const { paper, marginMm, holes } = request;
  const how = request.sheet === null ? null : imposition(paper, request.sheet, facts.words);
  if (how && !how.ok) return how;

  const bodies = bodiesOf(request, facts);
  if (bodies === null) return failure(tooSmall(request, facts));
  const { drafts, set: drawn, footPt } = bodies;
  if (drafts.length === 0) return failure(nothingMade(facts.words));
  const pages = drafts.map((draft, i): Page => {
    const number = facts.words(said`page ${i + 1}/${drafts.length}`);
    const size = { widthPt: paper.widthMm * PT_PER_MM, heightPt: paper.heightMm * PT_PER_MM };
    if ('marks' in draft) return { name: draft.name, ...size, marks: draft.marks(number) };
    const frame = frameOf(paper, marginMm, holes, request.twoSided && i % 2 === 1);
    const below = foot(drawn, frame.width, footPt, facts, number);
    return {
      name: draft.name,
      ...size,
      marks: [
        ...draft.body.at(frame.x, frame.y),
        ...below.at(frame.x, frame.y + frame.height - below.heightPt),
      ],
    };
  });
  const printed = how ? onSheets(pages, paper, how.value, request.twoSided) : pages;
  return success({
    title: titleOf(request, facts),
    pages: printed,
    count: countSaid(
      request.kind,
      drafts.reduce((sum, { begins }) => sum + begins, 0),
      { pages: pages.length, sides: printed.length, sheet: request.sheet, twoSided: request.twoSided },
    ),
    missingLetters: [...drawn.missing],
  });
}

/** What is set in one size of type, in pages of its own; null: the kind is set as sheets of the paper. */
function faceLayout(
  request: SlateRequest,
  set: Setter,
  facts: FootFacts,
): Result<CardPages, SlateTrouble> | null {
  if (request.kind === 'card') return cardPages(request, set, datesOf(request), facts.planMark);
  if (request.kind === 'trip') return tripPages({ ...request, dates: datesOf(request) }, set, facts);
  return request.kind === 'depth' ? depthCardPages(request, set, facts.planMark) : null;
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
  const footPt = request.kind === 'tags' ? PRINT_MIN_PT : FOOT_PT;
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
  const dated = { ...request, dates: datesOf(request) };
  switch (request.kind as DraftKind) {
    case 'briefing':
      return briefingDrafts(dated, set, widthPt, heightPt);
    case 'guest':
      return guestDrafts(dated, set, widthPt, heightPt);
    case 'tags':
      return tagDrafts(dated, set, widthPt, heightPt, facts);
  }
}
