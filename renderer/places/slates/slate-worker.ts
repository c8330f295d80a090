/**
 * Lays slates out and writes them beside the window, so that it stays alive while a week for twelve is made,
 * and can stop it by ending this worker. The same functions as the command calls.
 */
import { assert } from '../../../core/result';
import { FACE_NAMES } from '../../../core/slate/faces';
import { readFont, type SlateFonts } from '../../../core/slate/font';
import { slatePages } from '../../../core/slate/pages';
import { slatePdf } from '../../../core/slate/pdf';
import type { SlateRequest } from '../../../core/slate/request';
import { cautionsOf } from '../../../core/cautions/all';
import { ledger } from '../../../core/ledger/ledger';
import { answerAsks } from '../../parts/answer-asks';
import type { Progress } from '../../parts/work-messages';
import { fontBytes } from './font-files';
import type { SlateAnswer, SlateAsk } from './slate-job';

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
  const { trip, settings, printedOn, doneDates, since } = ask;
  const whole = ledger(trip);
  const request: SlateRequest = {
    ...settings,
    ledger: whole,
    cautions: cautionsOf(whole),
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
