/**
 * Lays slates out and writes them beside the window, so that it stays alive while a week for twelve is made,
 * and can stop it by ending this worker. The same functions as the command calls.
 */
import { classPages } from '../../../core/lesson/class-pages';
import { lessonPages, type LessonPages, type LessonPaper } from '../../../core/lesson/pages';
import { lessonPdf } from '../../../core/lesson/pdf';
import { exerciseSheet } from '../../../core/lesson/sheet';
import { assert, type Result } from '../../../core/result';
import { FACE_NAMES } from '../../../core/slate/faces';
import { readFont, type SlateFonts } from '../../../core/slate/font';
import { slatePages } from '../../../core/slate/pages';
import { slatePdf } from '../../../core/slate/pdf';
import type { SlateRequest } from '../../../core/slate/request';
import { cautionsOf } from '../../../core/cautions/all';
import type { Trip } from '../../../core/document/types';
import { ledger } from '../../../core/ledger/ledger';
import { said } from '../../../core/words/said';
import { answerAsks } from '../../parts/answer-asks';
import type { Progress } from '../../parts/work-messages';
import { fontBytes } from './font-files';
import type { LessonToPrint, SlateAnswer, SlateAsk, TripToPrint } from './slate-job';

let fontsRead: Promise<SlateFonts> | null = null;

function fonts(): Promise<SlateFonts> {
  fontsRead ??= fontBytes()
    .then(
      (bytes) =>
        Object.fromEntries(FACE_NAMES.map((face) => [face, readFont(bytes[face])])) as unknown as SlateFonts,
    )
    .catch((error: unknown) => {
      // Asked for again the next time: who serves the page may be there by then.
      fontsRead = null;
      throw error;
    });
  return fontsRead;
}

/** A message a page is enough: the bar moves, and the copying costs nothing beside the writing. */
async function make(ask: SlateAsk, progress: Progress): Promise<SlateAnswer> {
  return 'lesson' in ask ? makeLesson(ask) : makeSlates(ask, progress);
}

async function makeLesson(ask: SlateAsk & LessonToPrint): Promise<SlateAnswer> {
  const on = { paper: ask.paper, decimal: ask.decimal, fonts: await fonts() };
  const laid = lessonLaidOut(ask.lesson, on);
  if (!laid.ok) return { kind: 'troubles', troubles: laid.troubles };
  const { pages, title } = laid.value;
  if (ask.want === 'pages') {
    const count = pages.length === 1 ? said`1 page` : said`${pages.length} pages`;
    return { kind: 'pages', value: { title, pages, count, missingLetters: [] } };
  }
  return { kind: 'pdf', bytes: await lessonPdf(laid.value, on.fonts, ask.printedOn), pages: pages.length };
}

function lessonLaidOut(lesson: LessonToPrint['lesson'], on: LessonPaper): Result<LessonPages> {
  if ('percents' in lesson) return classPages(lesson, on);
  const made = exerciseSheet(lesson);
  return made.ok ? lessonPages(made.value, on) : made;
}

let reckoned: { readonly text: string; readonly figures: Pick<SlateRequest, 'ledger' | 'cautions'> } | null =
  null;

/** Ledger and cautions of a trip: those of the ask before where it is the same trip, and another choice of how to print it. */
function figuresOf(trip: Trip): Pick<SlateRequest, 'ledger' | 'cautions'> {
  const text = JSON.stringify(trip);
  if (reckoned?.text !== text) {
    const whole = ledger(trip);
    reckoned = { text, figures: { ledger: whole, cautions: cautionsOf(whole) } };
  }
  return reckoned.figures;
}

async function makeSlates(ask: SlateAsk & TripToPrint, progress: Progress): Promise<SlateAnswer> {
  const { trip, settings, printedOn, doneDates, since } = ask;
  const request: SlateRequest = {
    ...settings,
    ...figuresOf(trip),
    fonts: await fonts(),
    printedOn,
    doneDates,
    since,
  };
  if (ask.want === 'pages') {
    const laid = slatePages(request);
    return laid.ok ? { kind: 'pages', value: laid.value } : { kind: 'troubles', troubles: laid.troubles };
  }
  const made = await slatePdf(request, (done, all) => {
    progress(done, all);
    return false;
  });
  if (!made.ok) return { kind: 'troubles', troubles: made.troubles };
  assert(made.value !== null, 'slates that nobody stopped are made');
  return { kind: 'pdf', bytes: made.value.bytes, pages: made.value.pageCount };
}

answerAsks<SlateAsk, SlateAnswer>(make, (answer) =>
  answer.kind === 'pdf' ? [answer.bytes.buffer as ArrayBuffer] : [],
);
