import { siteName } from '../../core/document/site-of';
import type { Trip } from '../../core/document/types';
import {
  COLUMNS_MEAN,
  drawnSaid,
  headSaid,
  mostBySaid,
  passedSaid,
  roomAtSaid,
  SPEAKS_OF,
} from '../../core/sturdiness/sturdiness-said';
import type { Sturdiness, SturdyCell } from '../../core/sturdiness/sturdiness';
import { inOneSystem, wordsOf, type Reader, type Words } from '../../core/words/reader';
import { SAFETY_LINE } from '../../core/words/safety-line';
import { bare, figure, inRow, moment, said, type Said } from '../../core/words/said';
import { inked } from './paint';
import { greatest } from '../../core/numeric';
import { cut, line, PLAIN, sentenceColumns, wrapped, type Look } from './text-table';

const HEADS = [said`diver`, said`5 %`, said`50 %`, said`passes`, said`does most`, said`which limits`];

/** Columns that stand to the right. */
const FIGURES: ReadonlySet<number> = new Set([1, 2, 3]);

/** Columns of names and words are no wider than this. */
const NAME_WIDTH = 20;

function placeOf(trip: Trip, diveId: string): Said {
  const dive = trip.dives.find(({ id }) => id === diveId)!;
  return said`${moment(dive.startsAt)}, ${siteName(trip, dive)}`;
}

function rowOf(trip: Trip, cell: SturdyCell, words: Words): readonly string[] {
  const name = trip.party.find(({ id }) => id === cell.diverId)?.name ?? cell.diverId;
  return [
    cut(name, NAME_WIDTH),
    words(roomAtSaid(cell.room5Min)),
    words(roomAtSaid(cell.room50Min)),
    words(said`${bare('shareMet', cell.passes)} %`),
    words(mostBySaid(cell)),
    words(said`${inRow(passedSaid(cell))}`),
  ];
}

/**
 * How sturdy a plan is, as a person reads it in a terminal.
 * @param diverId of whom alone rows are told; null: of all @param reader who has both systems is told one
 */
export function sturdyTable(
  trip: Trip,
  sturdiness: Sturdiness,
  diverId: string | null,
  reader: Reader,
  look: Look = PLAIN,
): string {
  const words = wordsOf(inOneSystem(reader));
  const columns = sentenceColumns(look);
  const { cells, dives, easeFirst } = sturdiness;
  const told = cells.filter((cell) => diverId === null || cell.diverId === diverId);
  const rows = [HEADS.map((head) => words(head)), ...told.map((cell) => rowOf(trip, cell, words))];
  const widths = HEADS.map((_, column) => greatest(rows.map((row) => Array.from(row[column]!).length)));
  const [head, ...lines] = rows.map((row) => line(row, widths, (column) => !FIGURES.has(column)));
  const sentence = (text: Said): string => wrapped(words(text), 0, columns);
  const parts = [
    sentence(said`${trip.title}.`),
    sentence(drawnSaid(sturdiness)),
    inked(
      sentence(headSaid(sturdiness, easeFirst === null ? null : placeOf(trip, easeFirst))),
      'strong',
      look.isColored,
    ),
    sentence(SPEAKS_OF),
  ];
  if (told.length > 0) {
    const blocks = dives.flatMap(({ diveId, passes }) => {
      const own = told.flatMap((cell, at) => (cell.diveId === diveId ? [`  ${lines[at]!}`] : []));
      if (own.length === 0) return [];
      const often = passes === 0 ? said`no run passes` : said`${figure('shareMet', passes)} of the runs pass`;
      const anybody = said`${placeOf(trip, diveId)}: ${often} a limit`;
      return [[cut(words(anybody), look.columns), ...own].join('\n')];
    });
    parts.push(sentence(COLUMNS_MEAN), [`  ${head!}`, ...blocks].join('\n'));
  }
  parts.push(sentence(SAFETY_LINE));
  return `${parts.join('\n\n')}\n`;
}
