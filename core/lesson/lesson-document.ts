/** A sheet for other programs, and as plain text. */
import { formulaText } from '../words/formula';
import type { Words } from '../words/reader';
import { answerText } from './answer-text';
import { KIND_TITLES, type ExerciseAnswer, type ExerciseKind } from './exercise';
import { LEVEL_NAMES, type Sheet, type SheetRequest } from './sheet';
import { EXERCISES_ONLY, roundingSaid, ruleSaid, SHEET_TITLE, sheetSaid, sourcesSaid } from './sheet-words';

/** What `lesson --json` prints. */
export interface LessonDocument extends SheetRequest {
  readonly format: 'carryover/lesson';
  readonly version: 1;
  /** By what the questions are worked out. */
  readonly rule: string;
  readonly exercises: readonly {
    readonly kind: ExerciseKind;
    readonly question: string;
    readonly given: Readonly<Record<string, number>>;
    readonly answer: ExerciseAnswer;
    readonly working: string;
    readonly notes: readonly string[];
    /** Rows of a published table that are needed; null where none are. */
    readonly rows: readonly (readonly string[])[] | null;
  }[];
}

/** A sheet as JSON has it. @param words of its units */
export function lessonDocument(sheet: Sheet, words: Words): LessonDocument {
  const { exercises, ...request } = sheet;
  return {
    format: 'carryover/lesson',
    version: 1,
    ...request,
    rule: words(ruleSaid(sheet.units, new Set(exercises.map(({ kind }) => kind)))),
    exercises: exercises.map(({ kind, asks, given, answer, working, notes, rows }) => ({
      kind,
      question: words(asks),
      given,
      answer,
      working: formulaText(working, words),
      notes: notes.map(words),
      rows: rows?.map((row) => row.map(words)) ?? null,
    })),
  };
}

/** A sheet in paragraphs, each of lines: the questions, then the answers. @param words of its units */
export function lessonParagraphs(sheet: Sheet, words: Words): readonly (readonly string[])[] {
  const kinds = new Set(sheet.exercises.map(({ kind }) => kind));
  return [
    [`${words(SHEET_TITLE)}: ${words(sheetSaid(sheet))} (${words(LEVEL_NAMES[sheet.level])})`],
    [words(ruleSaid(sheet.units, kinds))],
    ...sheet.exercises.map(({ kind, asks, rows }, at) => [
      `${at + 1}. ${words(KIND_TITLES[kind])}: ${words(asks)}`,
      ...(rows ?? []).map(([head, ...cells]) => `${words(head!)}: ${cells.map(words).join(', ')}`),
    ]),
    [`Answers. ${words(roundingSaid(kinds))}`],
    ...sheet.exercises.map(({ working, answer, notes }, at) => [
      `${at + 1}. ${formulaText(working, words)} = ${answerText(answer, words)}`,
      ...notes.map(words),
    ]),
    [words(sourcesSaid(kinds))],
    [words(EXERCISES_ONLY)],
  ];
}
