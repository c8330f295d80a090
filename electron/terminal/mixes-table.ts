import { SAFETY_LINE } from '../../core/words/safety-line';
import { inOneSystem, wordsOf, type Reader } from '../../core/words/reader';
import {
  bare,
  dayOf,
  figure,
  isNothing,
  NOTHING,
  said,
  type Figure,
  type Piece,
  type Said,
} from '../../core/words/said';
import { HEADS, mixSaid, moneySaid, NO_END, NONE, PAST } from '../../core/words/terms';
import type { FillsMade } from '../../core/mixes/blending';
import type { CompareCell, CompareRow, NoStopTime } from '../../core/mixes/compare';
import { richestSaid, whyNotSaid } from '../../core/mixes/richest';
import type { StockAnswer, StockList } from '../../core/mixes/stock';
import {
  alwaysOutsideSaid,
  leastRoomAtSaid,
  listSaid,
  measureSaid,
  recommendationSaid,
} from '../../core/mixes/stock-words';
import type { Site, Trip } from '../../core/document/types';
import { fillsText } from './fills-text';
import { cellsOf, values, type Page } from './mixes-page';
import { inked } from './paint';
import { PLAIN, sentenceColumns, table, wrapped, type Look } from './text-table';

/** Lists printed; --json has all that nothing beats. */
const PRINTED_LISTS = 20;

function depthCell(of: Figure, page: Page): string {
  return page.reader.units === 'both' ? values(of, page) : page.words(said`${of}`);
}

function time(noStop: NoStopTime | null): Piece {
  if (noStop === null) return NONE;
  return noStop.unlimited ? NO_END : bare('minutesLeft', noStop.min);
}

/** The time in the trip; with the depth it is for where that is not the site's, which stands over the table. */
function inTripTime({ inTrip }: CompareCell, site: Site): Piece {
  if (inTrip === null || inTrip.depthM === site.depthM) return time(inTrip);
  return said`${time(inTrip)} at ${figure('depthMet', inTrip.depthM)}`;
}

function cellRow(cell: CompareCell, site: Site, page: Page): readonly string[] {
  return cellsOf(
    [
      mixSaid(cell.o2),
      cell.allowed ? said`yes` : said`no`,
      depthCell(figure('depthLimit', cell.modM), page),
      time(cell.alone),
      inTripTime(cell, site),
      bare('minutesLeft', cell.inTripGainMin),
      figure('shareMet', cell.cns),
      bare('doseMet', cell.otu),
      moneySaid(cell.cost, page.currency),
      cell.usedOn.length,
    ],
    page,
  );
}

const CELL_HEADS: readonly Said[] = [
  HEADS.mix,
  said`can be used`,
  HEADS.mod,
  said`alone`,
  said`in trip`,
  said`over air`,
  HEADS.cns,
  HEADS.otu,
  said`price`,
  said`dives`,
];

function siteText(row: CompareRow, page: Page): string {
  const { site, richest, cells } = row;
  const { words } = page;
  const best = richest.reachesWithAir ? said`best mix ${richestSaid(richest)}` : richestSaid(richest);
  const reasons = cells.flatMap((cell) =>
    cell.whyNot ? [words(said`  ${mixSaid(cell.o2)}: ${whyNotSaid(cell.whyNot)}`)] : [],
  );
  return [
    inked(words(said`${site.name}, ${figure('depthMet', site.depthM)}: ${best}.`), 'strong', page.isColored),
    ...table([cellsOf(CELL_HEADS, page), ...cells.map((cell) => cellRow(cell, site, page))], 2),
    ...(cells.some((cell) => cell.allowed) ? [] : [words(said`  No mix can be used at this site.`)]),
    ...reasons,
  ].join('\n');
}

/** The mixes of a list, "EAN32 EAN36". */
function mixesText(percents: readonly number[], { words }: Page): string {
  return percents.map((percent) => words(mixSaid(percent / 100))).join(' ');
}

function roomMin(min: number | null): Piece {
  if (min === null) return NO_END;
  return min === -Infinity ? PAST : bare('minutesLeft', min);
}

function listRow(list: StockList, trip: Trip, page: Page): readonly string[] {
  const { unusedPercents } = list;
  return cellsOf(
    [
      list.isBest ? '*' : '',
      mixesText(list.percents, page),
      unusedPercents.length === 0 ? NOTHING : said`${unusedPercents.join(', ')} unused`,
      measureSaid('within', list, trip),
      roomMin(list.smallestRoomMin),
      leastRoomAtSaid(list, trip),
      roomMin(list.nitrogenRoomMin),
      measureSaid('oxygen', list, trip),
      list.fills,
      measureSaid('cost', list, trip),
    ],
    page,
  );
}

const LIST_HEADS: readonly Said[] = [
  NOTHING,
  said`besides air`,
  NOTHING,
  said`within`,
  said`least`,
  said`to`,
  said`middle`,
  said`oxygen`,
  said`fills`,
  HEADS.cost,
];

/** The lists worth telling: those that nothing beats; the first is the one to stock. */
export function listsTold({ lists }: StockAnswer): readonly StockList[] {
  return lists.filter((list) => list.isBest);
}

function stockText(trip: Trip, answer: StockAnswer, page: Page): string {
  const { request, total, searched, withUnused, overLimit } = answer;
  const { words } = page;
  const told = listsTold(answer);
  const first = told.slice(0, PRINTED_LISTS);
  const since = request.fromDate === null ? NOTHING : said` from ${dayOf(request.fromDate)} on`;
  const over = overLimit === 0 ? NOTHING : said` ${overLimit} cost more or take more fills than allowed.`;
  const outside = alwaysOutsideSaid(answer, trip);
  const unreached =
    answer.unreachedDiveIds.length === 0
      ? outside
      : said`No mix at all suits everybody on ${answer.unreachedDiveIds.join(', ')}: plan these shallower, or without the diver.`;
  const advice =
    told.length === 0
      ? said`No list is left.`
      : said`Stock ${listSaid(told[0]!)}. ${sentences(recommendationSaid(answer, trip))}`;
  const intro = said`What to stock${since}: ${total} lists there are; ${withUnused} have a mix that no dive would use.${over} ${searched} were worked out to the end; ${told.length} are worth considering (*), as no list is better in every way. Rooms in minutes: the least of any dive, to the limit named, and that of nitrogen on the middle dive, which half of the dives keep or more; oxygen as the highest share on any clock; fills of anything but air.`;
  return [
    wrapped(words(intro), 0, page.columns),
    ...(isNothing(unreached) ? [] : [wrapped(words(unreached), 2, page.columns)]),
    wrapped(words(advice), 0, page.columns),
    ...(first.length === 0
      ? []
      : table([cellsOf(LIST_HEADS, page), ...first.map((list) => listRow(list, trip, page))], 3)),
    ...(told.length > first.length
      ? [words(said`... and ${told.length - first.length} more with --json.`)]
      : []),
  ].join('\n');
}

/** Sentences one behind the other. */
function sentences(all: readonly Said[]): Said {
  return all.reduce((before, next) => (isNothing(before) ? next : said`${before} ${next}`), NOTHING);
}

/** What the tables of mixes tell. */
export interface MixesTold {
  readonly trip: Trip;
  /** Whose figures they are. */
  readonly whose: Piece;
  readonly rows: readonly CompareRow[];
  /** Of the trip as it stands; null where they cannot be told. */
  readonly fills: FillsMade | null;
  /** null where nothing was searched. */
  readonly answer: StockAnswer | null;
  /** Fills of the open dives with the first list told on board; null where there is none. */
  readonly stocked: FillsMade | null;
}

/**
 * The mixes of a trip as a person reads them in a terminal. Limits round down, exposures up.
 * @param reader who has both systems is told figures of tables in both, and sentences in one
 */
export function mixesTable(told: MixesTold, reader: Reader, look: Look = PLAIN): string {
  const { trip, rows, fills, answer, stocked } = told;
  const words = wordsOf(inOneSystem(reader));
  const columns = sentenceColumns(look);
  const page: Page = { reader, words, currency: trip.currency, columns, isColored: look.isColored };
  const intro = said`${trip.title}. Mixes for ${told.whose}: no-stop minutes alone (first dive, from rest) and at the tightest dive of the site in the trip, there at the depth of that dive (at its deepest level, named where it is not the depth of the site), minutes gained over air there, CNS and OTU of the dive that costs most, dives that would use it.`;
  const parts = [
    wrapped(words(intro), 0, columns),
    ...rows.map((row) => siteText(row, page)),
    ...(fills === null ? [] : [fillsText(fills, said`Fills of the trip as it stands`, page)]),
    ...(answer === null ? [] : [stockText(trip, answer, page)]),
    ...(stocked === null
      ? []
      : [fillsText(stocked, said`Fills with the first of these lists on board`, page)]),
    wrapped(words(SAFETY_LINE), 0, columns),
  ];
  return `${parts.join('\n\n')}\n`;
}
