import { assert } from '../../core/result';
import { slatePages } from '../../core/slate/pages';
import { slatePdf, writePdf } from '../../core/slate/pdf';
import { cautionsOf } from '../../core/cautions/all';
import { ledger } from '../../core/ledger/ledger';
import { aRequest, FONTS } from '../support/slates';
import { bigTrip } from './big-trip';
import { medianMs, type BenchLine } from './report';

/** Median of a few runs waited for to their end: what is written last, the compression, counts too. */
async function medianWaitedMs(run: () => Promise<unknown>, runs = 7): Promise<number> {
  await run();
  const times: number[] = [];
  for (let i = 0; i < runs; i += 1) {
    const start = performance.now();
    await run();
    times.push(performance.now() - start);
  }
  return times.toSorted((a, b) => a - b)[Math.floor(runs / 2)]!;
}

/** What the slates of a week for twelve may take, milliseconds. */
const WEEK_BUDGET_MS = 3000;

/** Twelve divers and sixty dives: every one of their day cards, from the trip on. */
export async function benchSlates(): Promise<readonly BenchLine[]> {
  const trip = bigTrip(60, 12);
  const request = aRequest(trip);
  const laid = slatePages(request);
  assert(laid.ok, 'the week cannot be laid out');
  const { pages, title } = laid.value;
  const facts = { title, printedOn: request.printedOn };
  const empty = pages.map((page) => ({ ...page, marks: [] }));
  const allMs = await medianWaitedMs(async () => {
    const whole = ledger({ ...trip, water: { ...trip.water } });
    return slatePdf({ ...request, ledger: whole, cautions: cautionsOf(whole) });
  });
  const emptyMs = await medianWaitedMs(() => writePdf(empty, FONTS, facts));
  return [
    {
      what: `day cards of 12 divers for 60 dives, ${pages.length} pages, ledger included`,
      ms: allMs,
      floor: 'the budget',
      floorMs: WEEK_BUDGET_MS,
      atMost: 1,
    },
    {
      what: 'of that, the layout',
      ms: await medianMs(() => slatePages(request), 2000),
      floor: 'an empty document of as many pages',
      floorMs: emptyMs,
    },
    {
      what: 'of that, writing the PDF',
      ms: await medianWaitedMs(() => writePdf(pages, FONTS, facts)),
      floor: 'an empty document of as many pages',
      floorMs: emptyMs,
    },
  ];
}
