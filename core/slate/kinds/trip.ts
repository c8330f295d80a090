import type { DiverLedger } from '../../trip/ledger-types';
import { momentText, slateDays, type SlateDay } from '../contents';
import { joined, percentUp } from '../figures';
import {
  beside,
  rule,
  space,
  stack,
  table,
  type Block,
  type Column,
  type Setter,
  type TextStyle,
} from '../layout';
import { heading, PRINT_MIN_PT, type Draft } from '../page-frame';
import type { SlateRequest } from '../request';
import { tripBands, tripDrawing, type TripDrawing } from '../trip-bands';

/** A type size, columns of the list, and the height of each plot: tried in this order. */
interface Way {
  readonly sizePt: number;
  readonly columns: 1 | 2;
  readonly plotPt: number;
}

const WAYS: readonly Way[] = [
  { sizePt: 11, columns: 1, plotPt: 80 },
  { sizePt: 10, columns: 1, plotPt: 70 },
  { sizePt: PRINT_MIN_PT, columns: 1, plotPt: 60 },
  { sizePt: 10, columns: 2, plotPt: 60 },
  { sizePt: PRINT_MIN_PT, columns: 2, plotPt: 50 },
];

const HEAD = ['start', 'site', 'depth', 'time', 'mix', 'no-stop', 'room', 'CNS'];

/** One row of the list, or the date that stands over a day's rows. */
type ListRow = { readonly date: string } | { readonly cells: readonly string[] };

function rowsOf(days: readonly SlateDay[]): readonly ListRow[] {
  return days.flatMap((day): ListRow[] => [
    { date: `${day.dateText}: ${day.oxygen}` },
    ...day.dives.map((dive) => ({
      cells: [
        dive.startsAt,
        dive.site,
        joined(dive.depth),
        dive.time.value,
        dive.mix,
        dive.noStop.value,
        dive.room.value,
        percentUp(dive.entry.cns.after),
      ],
    })),
  ]);
}

/** The rows as blocks, columns as wide as their widest figure, the site taking the rest on one line. */
function listBlocks(
  set: Setter,
  rows: readonly ListRow[],
  widthPt: number,
  sizePt: number,
): readonly [Block, ...Block[]] | null {
  const plain: TextStyle = { font: 'regular', sizePt };
  const strong: TextStyle = { font: 'bold', sizePt };
  const leastGap = sizePt * 0.6;
  const texts = rows.flatMap((row) => ('cells' in row ? [row.cells] : []));
  const widths = HEAD.map((head, c) =>
    Math.max(set.width(head, plain), ...texts.map((cells) => set.width(cells[c]!, plain))),
  );
  const site = HEAD.indexOf('site');
  const taken = widths.reduce((sum, width, c) => sum + (c === site ? 0 : width + leastGap), 0);
  if (widthPt - taken < sizePt * 5) return null;
  const siteWidth = Math.min(widths[site]!, widthPt - taken);
  const gap = leastGap + Math.min(sizePt * 1.6, (widthPt - taken - siteWidth) / HEAD.length);
  const columns = widths.map((width, c): Column => ({
    widthPt: c === site ? siteWidth : width,
    align: c < 2 || c === 4 ? 'left' : 'right',
  }));
  const line = (cells: readonly string[]): Block =>
    table(set, columns, [cells], gap, () => ({ ...plain, maxLines: 1 }))[0]!;
  return [
    line(HEAD),
    ...rows.map((row) =>
      'cells' in row
        ? line(row.cells)
        : stack([space(sizePt * 0.3), set.text(row.date, { ...strong, maxLines: 1 }, widthPt)]),
    ),
  ];
}

/** Rows in columns of equal height under their heading, filled one after the other, on as many pages as it takes. */
function columnsOf(
  [head, ...blocks]: readonly [Block, ...Block[]],
  firstPt: number,
  otherPt: number,
  count: number,
  widthPt: number,
  gapPt: number,
) {
  const pages: Block[] = [];
  let rest: readonly Block[] = blocks;
  while (rest.length > 0) {
    const heightPt = pages.length === 0 ? firstPt : otherPt;
    const cells: { block: Block; x: number }[] = [];
    for (let c = 0; c < count && rest.length > 0; c += 1) {
      let used = head.heightPt;
      let taken = 0;
      while (taken < rest.length && used + rest[taken]!.heightPt <= heightPt) {
        used += rest[taken]!.heightPt;
        taken += 1;
      }
      if (taken === 0) break;
      cells.push({ block: stack([head, ...rest.slice(0, taken)]), x: c * (widthPt + gapPt) });
      rest = rest.slice(taken);
    }
    if (cells.length === 0) {
      if (pages.length > 0) return null;
      pages.push(space(0));
    } else pages.push(beside(cells));
  }
  return pages;
}

function tripPages(
  request: SlateRequest,
  set: Setter,
  mine: DiverLedger,
  prepared: { readonly days: readonly SlateDay[]; readonly drawing: TripDrawing },
  area: { readonly widthPt: number; readonly heightPt: number },
  way: Way,
): readonly Block[] | null {
  const { ledger, units } = request;
  const { widthPt, heightPt } = area;
  const { sizePt } = way;
  const made = mine.entries.filter((entry) => entry.isMade).length;
  const facts = `${mine.diver.name}: ${made} dives, times in minutes. No flying before ${momentText(mine.flyAfterMin)}.`;
  const head = stack([
    heading(set, ledger.trip.title, ledger.trip.place, widthPt, sizePt * 1.5),
    set.text(facts, { font: 'regular', sizePt }, widthPt),
    rule(widthPt, 0.8, 6),
  ]);
  const bands = stack([
    tripBands(set, prepared.drawing, units, widthPt, way.plotPt, sizePt),
    space(sizePt * 0.6),
  ]);
  const first = heightPt - head.heightPt - bands.heightPt;
  if (first < 0) return null;
  const gap = sizePt * 1.6;
  const columnWidth = (widthPt - gap * (way.columns - 1)) / way.columns;
  const blocks = listBlocks(set, rowsOf(prepared.days), columnWidth, sizePt);
  if (blocks === null) return null;
  const lists = columnsOf(blocks, first, heightPt - head.heightPt, way.columns, columnWidth, gap);
  return lists?.map((list, i) => stack(i === 0 ? [head, bands, list] : [head, list])) ?? null;
}

/**
 * Trip sheets: the whole trip of one diver on one page where it fits, with both bands.
 * @returns drafts in order of the party, or null where the paper is too small for 9 point
 */
export function tripDrafts(
  request: SlateRequest,
  set: Setter,
  widthPt: number,
  heightPt: number,
): readonly Draft[] | null {
  const drafts: Draft[] = [];
  for (const mine of request.ledger.divers) {
    if (request.diverIds !== null && !request.diverIds.includes(mine.diver.id)) continue;
    if (!mine.entries.some((entry) => entry.isMade)) continue;
    const { ledger, dates, cautions, units } = request;
    const prepared = {
      days: slateDays(ledger.trip, mine, dates, cautions, units),
      drawing: tripDrawing(ledger.trip, mine),
    };
    let best: readonly Block[] | null = null;
    for (const way of WAYS) {
      const pages = tripPages(request, set, mine, prepared, { widthPt, heightPt }, way);
      if (pages !== null && (best === null || pages.length < best.length)) best = pages;
      if (best?.length === 1) break;
    }
    if (best === null) return null;
    drafts.push(
      ...best.map((body, i) => ({
        name: `Trip sheet, ${mine.diver.name}${i === 0 ? '' : `, sheet ${i + 1}`}`,
        body,
      })),
    );
  }
  return drafts;
}
