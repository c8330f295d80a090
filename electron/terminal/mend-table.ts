import { siteName } from '../../core/document/site-of';
import type { Trip } from '../../core/document/types';
import { figureChanges, figureChangeSaid } from '../../core/proposal/mend/figures-said';
import { changeSaid, MEND_NAMES, nothingToMend, toMendSaid } from '../../core/proposal/mend/moves-said';
import type { DiveChange, Mending, Proposal } from '../../core/proposal/mend/proposals';
import { momentAt } from '../../core/words/calendar';
import { inOneSystem, wordsOf, type Reader, type Words } from '../../core/words/reader';
import { SAFETY_LINE } from '../../core/words/safety-line';
import { inRow, moment, NOTHING, said, type Named, type Said } from '../../core/words/said';
import { NONE } from '../../core/words/terms';
import { inked } from './paint';
import { PLAIN, sentenceColumns, wrapped, type Look } from './text-table';

/** Blanks before what belongs to a proposal, and before what goes on there. */
const INDENT = 3;

/** Whose the figures are. */
const WHOSE = said`Room in minutes to the first limit, interval in h:min, pressure left: each of who has least, before and after.`;

/** The trip, and how its sentences are set. */
interface Page {
  readonly trip: Trip;
  readonly words: Words;
  readonly columns: number;
  readonly isColored: boolean;
}

/** People by their names; a dive by nothing else than its place in the sentence. */
function nameIn({ party }: Trip): (name: Named) => Said {
  return ({ id }) => said`${party.find((each) => each.id === id)?.name ?? id}`;
}

function changeText(change: DiveChange, { plan }: Proposal, { trip, words, columns }: Page): string {
  const { before, after, diveId } = change;
  const { dive } = before;
  const treatment = plan[trip.dives.findIndex(({ id }) => id === diveId)]!;
  const site = siteName(trip, dive);
  const moves = changeSaid(trip, dive, after?.dive ?? null, treatment);
  const figures = inRow(figureChanges(change).map(figureChangeSaid));
  const rest = after === null ? NOTHING : said` (${figures})`;
  const text = words(said`${moment(dive.startsAt)}, ${site}: ${moves}${rest}`);
  return `${' '.repeat(INDENT)}${wrapped(text, 2 * INDENT, columns - INDENT)}`;
}

function flyText({ flyAfter: { before, after } }: Proposal, { words, columns }: Page): readonly string[] {
  if (before === after || after === null) return [];
  const was = before === null ? NONE : momentAt(before);
  const text = words(said`No flying before ${momentAt(after)}, not ${was}.`);
  return [`${' '.repeat(INDENT)}${wrapped(text, 2 * INDENT, columns - INDENT)}`];
}

function proposalText(proposal: Proposal, number: number, page: Page): string {
  const { words, isColored } = page;
  const { kind, cost, atLeast, changes } = proposal;
  const proved = atLeast === cost ? NOTHING : said`; none costs less than ${atLeast}`;
  return [
    inked(words(said`${number}  ${MEND_NAMES[kind]}, cost ${cost}${proved}`), 'strong', isColored),
    ...changes.map((change) => changeText(change, proposal, page)),
    ...flyText(proposal, page),
  ].join('\n');
}

/**
 * What mending proposes, as a person reads it in a terminal.
 * @param applied the number of the proposal that was written; null: none was
 * @param reader who has both systems is told sentences in one
 */
export function mendTable(
  trip: Trip,
  { request, toMend, proposals, none }: Mending,
  applied: number | null,
  reader: Reader,
  look: Look = PLAIN,
): string {
  const words = wordsOf({ ...inOneSystem(reader), nameOf: nameIn(trip) });
  const columns = sentenceColumns(look);
  const page: Page = { trip, words, columns, isColored: look.isColored };
  const parts = [
    words(said`${trip.title}.`),
    words(toMend.length === 0 ? nothingToMend(request) : said`To mend: ${toMendSaid(toMend)}.`),
    ...(proposals.length === 0 ? [] : [words(WHOSE)]),
    ...proposals.map((each, at) => proposalText(each, at + 1, page)),
    ...none.map(({ kind, because }) =>
      wrapped(words(said`${MEND_NAMES[kind]}: ${because}`), INDENT, columns),
    ),
    ...(applied === null ? [] : [words(said`Written: the trip with proposal ${applied} carried out.`)]),
    words(SAFETY_LINE),
  ];
  return `${parts.map((part) => (part.includes('\n') ? part : wrapped(part, 0, columns))).join('\n\n')}\n`;
}
