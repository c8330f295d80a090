import { wallMin, type Clock } from '../../words/calendar';
import type { DiverLedger } from '../../ledger/ledger-types';
import type { Flight } from '../../document/types';
import { slateDays, type SlateDay, type SlateDive, UNKNOWN_CLOCK_MEANING } from '../contents';
import { divesText, momentText, joined, NONE, percentUp } from '../figures';
import { LEVELS_MEANING } from '../levels';
import { fileWords } from '../../words/reader';
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
import type { DatedRequest } from '../request';
import { slateWords } from '../reading';
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
  { sizePt: PRINT_MIN_PT, columns: 1, plotPt: 40 },
  { sizePt: PRINT_MIN_PT, columns: 1, plotPt: 28 },
];

const HEAD = ['start', 'site', 'depth', 'time', 'mix', 'no-stop', 'room', 'CNS'];

/** One dive of the list: its cells, and what the marks and words in them mean. */
interface ListRow {
  readonly cells: readonly string[];
  /** Under the cells: the levels with their no-stop times; null for a single one. */
  readonly levels: string | null;
  readonly notes: readonly string[];
}

/** The dives of a day, under its date. */
interface ListDay {
  readonly date: string;
  readonly rows: readonly ListRow[];
}

/** In the place of the room where the no-stop limit is passed, whatever the stay: a word as wide as a figure. */
const PAST = 'past';

function isPast({ entry, minutes }: SlateDive): boolean {
  return entry.isMade && minutes.min === null && minutes.minLimit === 'no-stop';
}

/** Beside the start of a dive that a caution asks to stop. */
const STOP_MARK = '!';

function isStopped(dive: SlateDive): boolean {
  return dive.cautions.some((caution) => caution.severity === 'stop');
}

/** Room is not there although the clocks are known. */
function hasNoShorter({ entry, room, minutes }: SlateDive): boolean {
  return entry.isMade && minutes.minLimit !== 'po2' && room.value === NONE;
}

/** What stands in the cells of a dive and does not explain itself. */
function notesOf(dive: SlateDive): readonly string[] {
  return [
    ...(dive.entry.cns.after === null ? [`${NONE}: ${UNKNOWN_CLOCK_MEANING}`] : []),
    ...(hasNoShorter(dive) ? [`room ${NONE}: past a limit that no shorter stay would keep`] : []),
    ...(isStopped(dive) ? [`${STOP_MARK} see the cautions of this dive`] : []),
    ...(dive.levelLimits === null || !dive.entry.isMade ? [] : [`Levels: ${fileWords(LEVELS_MEANING)}`]),
    ...(isPast(dive)
      ? [
          dive.pastLevels === null
            ? `${PAST}: past the limit on arrival at the last level`
            : `${PAST}: past the limit at the end of an earlier level`,
        ]
      : []),
  ];
}

function listDays(days: readonly SlateDay[]): readonly ListDay[] {
  return days.map((day) => ({
    date: `${day.dateText}: ${day.oxygen.map((each) => each.join(' ')).join(', ')}`,
    rows: day.dives.map((dive) => ({
      cells: [
        isStopped(dive) ? `${dive.startsAt} ${STOP_MARK}` : dive.startsAt,
        dive.site,
        joined(dive.depth),
        dive.time.value,
        dive.mix,
        dive.noStop.value,
        isPast(dive) ? PAST : dive.room.value,
        percentUp(dive.entry.cns.after),
      ],
      levels: dive.levelLimits === null ? null : `Levels ${dive.levelLimits}`,
      notes: notesOf(dive),
    })),
  }));
}

const START = HEAD.indexOf('start');
const SITE = HEAD.indexOf('site');
/** Words, read from the left; the rest are figures. */
const WORDS: readonly number[] = [START, SITE, HEAD.indexOf('mix')];

/** Figures further apart than this lose each other, in type sizes. */
const GAP_MAX_EM = 2.2;
const GAP_MIN_EM = 0.6;
/** A site's name in a row of figures is cut no shorter than this, in type sizes. */
const SITE_EM = 5;
/** Figures under a site's name and levels under figures stand in from them, in type sizes. */
const INDENT_EM = 0.8;

/** The list as blocks: its heading, and each row with the date it belongs under. */
interface ListBlocks {
  readonly head: Block;
  readonly rows: readonly {
    readonly date: Block;
    readonly row: Block;
    readonly notes: readonly string[];
  }[];
}

/** The list as blocks, columns as wide as their widest figure; null where the width does not take them. */
function listBlocks(
  set: Setter,
  days: readonly ListDay[],
  widthPt: number,
  sizePt: number,
): ListBlocks | null {
  const plain: TextStyle = { font: 'text', sizePt };
  const indent = INDENT_EM * sizePt;
  const texts = [HEAD, ...days.flatMap((day) => day.rows.map((row) => row.cells))];
  const widths = HEAD.map((_, c) => Math.max(...texts.map((cells) => set.width(cells[c]!, plain))));
  const takenBy = (columns: readonly number[]): number =>
    columns.reduce((sum, c) => sum + widths[c]! + GAP_MIN_EM * sizePt, 0);
  const gapOf = (count: number, freePt: number): number =>
    Math.min(GAP_MAX_EM * sizePt, GAP_MIN_EM * sizePt + freePt / count);
  /** A line of some of the columns, the site as wide as it is given. */
  const lineOf = (chosen: readonly number[], sitePt: number, gap: number) => {
    const columns = chosen.map((c): Column => ({
      widthPt: c === SITE ? sitePt : widths[c]!,
      align: WORDS.includes(c) ? 'left' : 'right',
    }));
    return (cells: readonly string[]): Block =>
      table(set, columns, [chosen.map((c) => cells[c]!)], gap, () => ({ ...plain, maxLines: 1 }))[0]!;
  };
  const blocks = (head: Block, rowOf: (cells: readonly string[]) => Block): ListBlocks => ({
    head,
    rows: days.flatMap((day) => {
      const words = set.text(day.date, { font: 'bold', sizePt }, widthPt);
      const date = stack([space(sizePt * 0.3), words]);
      return day.rows.map(({ cells, levels, notes }) => {
        const under =
          levels === null ? [] : [beside([{ block: set.text(levels, plain, widthPt - indent), x: indent }])];
        return { date, row: stack([rowOf(cells), ...under]), notes };
      });
    }),
  });

  const all = HEAD.map((_, c) => c);
  const forSite = widthPt - takenBy(all.filter((c) => c !== SITE));
  if (forSite >= SITE_EM * sizePt) {
    const sitePt = Math.min(widths[SITE]!, forSite);
    const row = lineOf(all, sitePt, gapOf(all.length, forSite - sitePt));
    return blocks(row(HEAD), row);
  }

  // The start and the site on a line of their own, the figures under them.
  const figures = all.filter((c) => c !== SITE && c !== START);
  const free = widthPt - indent - takenBy(figures);
  if (free < 0) return null;
  const line = lineOf(figures, 0, gapOf(figures.length, free));
  const under = (cells: readonly string[]): Block => beside([{ block: line(cells), x: indent }]);
  return blocks(under(HEAD), (cells) =>
    stack([set.text(`${cells[START]} ${cells[SITE]}`, plain, widthPt), under(cells)]),
  );
}

/**
 * Rows in columns under their heading, filled one after the other, on as many pages as it takes; a day that
 * goes on in another column has its date there again.
 * @param notesBlock sets the notes of the rows on a page, which stand once under them
 */
function columnsOf(
  { head, rows }: ListBlocks,
  firstPt: number,
  otherPt: number,
  count: number,
  widthPt: number,
  gapPt: number,
  notesBlock: (notes: readonly string[]) => Block,
): readonly Block[] | null {
  // Room for all notes on each page: which rows come to stand on it shows only once they do.
  const notesPt = notesBlock(rows.flatMap((row) => row.notes)).heightPt;
  const pages: Block[] = [];
  let next = 0;
  while (next < rows.length) {
    const heightPt = (pages.length === 0 ? firstPt : otherPt) - notesPt;
    const from = next;
    const cells: { block: Block; x: number }[] = [];
    for (let c = 0; c < count && next < rows.length; c += 1) {
      const column = [head];
      let usedPt = head.heightPt;
      for (let date: Block | null = null; next < rows.length; next += 1) {
        const each = rows[next]!;
        const blocks = each.date === date ? [each.row] : [each.date, each.row];
        usedPt += blocks.reduce((sum, block) => sum + block.heightPt, 0);
        if (usedPt > heightPt) break;
        column.push(...blocks);
        date = each.date;
      }
      if (column.length === 1) break;
      cells.push({ block: stack(column), x: c * (widthPt + gapPt) });
    }
    // The first page may be full with the bands; a page that takes no row at all takes none ever.
    if (cells.length === 0 && pages.length > 0) return null;
    const notes = notesBlock(rows.slice(from, next).flatMap((row) => row.notes));
    pages.push(cells.length === 0 ? space(0) : stack([beside(cells), notes]));
  }
  return pages;
}

/** When flying is clear, and whether the flight waits for that. */
function flyingText({ flyAfterMin }: DiverLedger, flight: Flight | null, clock: Clock): string {
  const clear = `No flying before ${momentText(flyAfterMin, clock)}`;
  if (flight === null) return `${clear}.`;
  const atMin = wallMin(flight.at);
  const isTooSoon = flyAfterMin !== null && atMin < flyAfterMin;
  return `${clear}; flight ${momentText(atMin, clock)}${isTooSoon ? ', too soon' : ''}.`;
}

/** Told in the line about flying already. */
const FLIGHT_CODE = 'flight-too-soon';

/** What a diver is to stop that is about no one dive. */
function tripStops({ diver }: DiverLedger, request: DatedRequest): readonly string[] {
  const words = slateWords(request);
  return request.cautions
    .filter(({ severity, diveId, code }) => severity === 'stop' && diveId === null && code !== FLIGHT_CODE)
    .filter(({ diverId }) => diverId === null || diverId === diver.id)
    .map(({ says }) => `Stop: ${words(says)}`);
}

/** The diver's name, and what the sheet says above all else: beside it on one line, else under it on as many as it takes. */
function nameAndFacts(set: Setter, name: string, facts: string, widthPt: number, sizePt: number): Block {
  const strong: TextStyle = { font: 'bold', sizePt };
  const plain: TextStyle = { font: 'text', sizePt };
  if (set.width(name, strong) + sizePt + set.width(facts, plain) <= widthPt) {
    return heading(set, name, facts, widthPt, sizePt);
  }
  return stack([set.text(name, { ...strong, maxLines: 2 }, widthPt), set.text(facts, plain, widthPt)]);
}

function tripPages(
  request: DatedRequest,
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
  const facts = `${divesText(made)}, times in minutes. ${flyingText(mine, ledger.trip.flight, request.clock)}`;
  const head = stack([
    heading(set, ledger.trip.title, ledger.trip.place, widthPt, sizePt * 1.5),
    nameAndFacts(set, mine.diver.name, facts, widthPt, sizePt),
    rule(widthPt, 0.8, 6),
  ]);
  const bands = stack([
    ...tripStops(mine, request).map((text) => set.text(text, { font: 'bold', sizePt }, widthPt)),
    tripBands(set, prepared.drawing, units, widthPt, way.plotPt, sizePt),
    space(sizePt * 0.6),
  ]);
  const first = heightPt - head.heightPt - bands.heightPt;
  if (first < 0) return null;
  const gap = sizePt * 1.6;
  const columnWidth = (widthPt - gap * (way.columns - 1)) / way.columns;
  const blocks = listBlocks(set, listDays(prepared.days), columnWidth, sizePt);
  if (blocks === null) return null;
  const notesBlock = (notes: readonly string[]): Block => {
    if (notes.length === 0) return space(0);
    const text = [...new Set(notes)].join('. ');
    return stack([space(sizePt * 0.4), set.text(`${text}.`, { font: 'text', sizePt }, widthPt)]);
  };
  const otherPt = heightPt - head.heightPt;
  const lists = columnsOf(blocks, first, otherPt, way.columns, columnWidth, gap, notesBlock);
  return lists?.map((list, i) => stack(i === 0 ? [head, bands, list] : [head, list])) ?? null;
}

/**
 * Trip sheets: the whole trip of one diver on one page where it fits, with both bands.
 * @returns drafts in order of the party, or null where the paper is too small for 9 point
 */
export function tripDrafts(
  request: DatedRequest,
  set: Setter,
  widthPt: number,
  heightPt: number,
): readonly Draft[] | null {
  const drafts: Draft[] = [];
  for (const mine of request.ledger.divers) {
    if (request.diverIds !== null && !request.diverIds.includes(mine.diver.id)) continue;
    if (!mine.entries.some((entry) => entry.isMade)) continue;
    const { ledger, dates, cautions } = request;
    const prepared = {
      days: slateDays(ledger.trip, mine, dates, cautions, request),
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
