import type { Ledger } from '../../core/ledger/ledger-types';
import type { Dive } from '../../core/document/types';
import { failure, success, type Result } from '../../core/result';
import { pageReader, wordsOf } from '../../core/words/reader';
import { figuresOf, workingsOf } from '../../core/workings/all';
import type { Workings } from '../../core/workings/types';
import { inked } from './paint';
import { PLAIN, sentenceColumns, wrapped, type Look } from './text-table';

/** The workings of one dive of one diver, as `plan --explain --json` has them. */
interface Explained {
  readonly diverId: string;
  readonly name: string;
  readonly workings: readonly Workings[];
}

/** What `plan --explain --json` prints, version 1: `exact` is the figure as the ledger has it, in metres, bar and minutes. */
interface ExplainDocument {
  readonly format: 'carryover/workings';
  readonly version: 1;
  readonly title: string;
  readonly diveId: string;
  readonly divers: readonly Explained[];
}

/** A dive by its number in the trip or its id, and the figure behind a point; a dive that has a point in its id as well. */
function diveAndFigure(
  asked: string,
  dives: readonly Dive[],
): { readonly dive: Dive; readonly figure: string | null } | null {
  for (const [at, dive] of dives.entries()) {
    for (const name of [dive.id, String(at + 1)]) {
      if (asked === name) return { dive, figure: null };
      if (asked.startsWith(`${name}.`)) return { dive, figure: asked.slice(name.length + 1) };
    }
  }
  return null;
}

function explainedText({ title, diveId, divers }: ExplainDocument, number: number, look: Look): string {
  const columns = sentenceColumns(look);
  const parts = divers.flatMap(({ name, workings }) => [
    inked(`Dive ${number} (${diveId}) of ${title}, for ${name}`, 'strong', look.isColored),
    ...workings.map((each) =>
      [
        `${each.title} [${each.figure}]`,
        wrapped(each.formula, 2, columns),
        ...each.steps.map(({ label, value }) => wrapped(`${label}: ${value}`, 4, columns)),
        wrapped(`= ${each.result}`, 2, columns),
        wrapped(`Source: ${each.source}`, 2, columns),
      ].join('\n'),
    ),
  ]);
  return `${parts.join('\n\n')}\n`;
}

function refuse(what: string, mend: string): Result<never, 'explain'> {
  return failure({ kind: 'explain', where: '--explain', what, mend });
}

/**
 * How the figures of a dive come about: formula, numbers put in, result, source.
 * @param asked "13" or the id of a dive, with ".noStopMin" for one figure alone @param diverId null: everybody on the dive
 * @returns text, or the document as JSON; trouble where there is no such dive or figure, or the diver is not on it
 */
export function explained(
  asked: string,
  whole: Ledger,
  diverId: string | null,
  isJson: boolean,
  look: Look = PLAIN,
): Result<string, 'explain'> {
  const { trip } = whole;
  const found = diveAndFigure(asked, trip.dives);
  if (found === null) {
    return refuse(
      `There is no dive "${asked}".`,
      `Give a number from 1 to ${trip.dives.length}, or the id of a dive.`,
    );
  }
  const { dive, figure } = found;
  const ledgers = whole.divers.filter(({ diver }) => diverId === null || diver.id === diverId);
  const words = wordsOf(pageReader('metric'));
  const divers: Explained[] = [];
  for (const diverLedger of ledgers) {
    const entry = diverLedger.entries.find((each) => each.dive.id === dive.id);
    if (!entry) continue;
    const figures = figuresOf(entry);
    const wanted = figure === null ? figures : figures.filter((each) => each === figure);
    if (wanted.length === 0) {
      return refuse(`No figure of a dive is called "${figure}".`, `Use one of ${figures.join(', ')}.`);
    }
    const { id, name } = diverLedger.diver;
    const workings = wanted.map((each) => workingsOf(each, entry, { trip, diverLedger, words }));
    divers.push({ diverId: id, name, workings });
  }
  if (divers.length === 0) {
    return refuse(
      `Nobody that is asked for is on dive ${asked}.`,
      'Leave out --diver, or ask about another dive.',
    );
  }
  const document: ExplainDocument = {
    format: 'carryover/workings',
    version: 1,
    title: trip.title,
    diveId: dive.id,
    divers,
  };
  return success(
    isJson
      ? `${JSON.stringify(document, null, 2)}\n`
      : explainedText(document, trip.dives.indexOf(dive) + 1, look),
  );
}
