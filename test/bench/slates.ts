import { assert } from '../../core/result';
import { slatePages } from '../../core/slate/pages';
import { slatePdf, writePdf } from '../../core/slate/pdf';
import { usualMarginMm, usualPaper } from '../../core/slate/options';
import { SLATE_KINDS, type SlateRequest } from '../../core/slate/request';
import type { Trip } from '../../core/document/types';
import { demoTrip } from '../../core/document/demo-trip';
import { aPaper, aRequest, FONTS } from '../support/slates';
import { bigTrip } from './big-trip';
import type { BenchLine } from './report';

/** Median of a few runs waited for to their end: what is written last, the compression, counts too. */
async function medianWaitedMs(run: () => Promise<unknown>, runs = 3): Promise<number> {
  await run();
  const times: number[] = [];
  for (let i = 0; i < runs; i += 1) {
    const start = performance.now();
    await run();
    times.push(performance.now() - start);
  }
  return times.toSorted((a, b) => a - b)[Math.floor(runs / 2)]!;
}

/** What all kinds of slate of a fortnight for twelve may take, milliseconds, and the first pages after a change. */
const ALL_KINDS_MS = 3000;
const FIRST_PAGE_MS = 100;

/** Times an empty page: what a page of words, lines and tags may cost to lay out and write, far above what it does. */
const EMPTY_PAGES = 100;

/** A trip as the worker gets it, all its objects new: nothing of an earlier ledger is taken over. */
function asSent(trip: Trip): Trip {
  return structuredClone(trip);
}

/** Every day of a trip on the usual paper of its kind, from the ledger on. */
function requestsOf(trip: Trip): readonly SlateRequest[] {
  const request = aRequest(asSent(trip));
  return SLATE_KINDS.map((kind) => {
    const paper = aPaper(usualPaper(kind));
    return { ...request, kind, paper, marginMm: usualMarginMm(kind, paper) };
  });
}

/** The pages that the window shows at first: cards of the next diving day. */
async function firstPages(name: string, trip: Trip): Promise<BenchLine> {
  const ms = await medianWaitedMs(async () => slatePages(aRequest(asSent(trip), { dates: 'next' })), 7);
  return {
    what: `the pages of the next day after an edit, ${name}`,
    ms,
    floor: 'the budget',
    floorMs: FIRST_PAGE_MS,
    atMost: 1,
  };
}

/** Twelve divers and sixty dives, all kinds of slate; what is shown first after a change; and what a page costs. */
export async function benchSlates(): Promise<readonly BenchLine[]> {
  const trip = bigTrip(60, 12);
  let pageCount = 0;
  const allMs = await medianWaitedMs(async () => {
    pageCount = 0;
    for (const request of requestsOf(trip)) {
      // One after the other, as a user asks for them.
      // oxlint-disable-next-line no-await-in-loop
      const made = await slatePdf(request);
      assert(made.ok && made.value !== null, 'a kind cannot be laid out');
      pageCount += made.value.pageCount;
    }
  });
  const request = aRequest(trip, {});
  const laid = slatePages(request);
  assert(laid.ok, 'the cards cannot be laid out');
  const { pages, title } = laid.value;
  const facts = { title, printedOn: request.printedOn };
  const empty = pages.map((page) => ({ ...page, marks: [] }));
  const emptyMs = await medianWaitedMs(() => writePdf(empty, FONTS, facts));
  const each = { floor: 'an empty page', floorMs: emptyMs / pages.length, atMost: EMPTY_PAGES } as const;
  return [
    {
      what: `all kinds for 12 divers and 60 dives, ${pageCount} pages, ledgers included`,
      ms: allMs,
      floor: 'the budget',
      floorMs: ALL_KINDS_MS,
      atMost: 1,
    },
    await firstPages('the demo', demoTrip()),
    await firstPages('12 divers and 60 dives', trip),
    {
      what: 'laying out a page of cards',
      ms: (await medianWaitedMs(async () => slatePages(request))) / pages.length,
      ...each,
    },
    {
      what: 'writing it',
      ms: (await medianWaitedMs(() => writePdf(pages, FONTS, facts))) / pages.length,
      ...each,
    },
  ];
}
