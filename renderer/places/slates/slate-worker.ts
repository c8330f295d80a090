/**
 * Lays slates out and writes them beside the window, so that it stays alive while a week for twelve is made,
 * and can stop it by ending this worker. The same functions as the command calls.
 */
import { readFont, type SlateFonts } from '../../../core/slate/font';
import { slatePages } from '../../../core/slate/pages';
import { slatePdf } from '../../../core/slate/pdf';
import type { SlateRequest } from '../../../core/slate/request';
import { slateCautions } from '../../../core/slate/wording';
import { ledger } from '../../../core/ledger/ledger';
import { fontBytes } from './font-files';
import type { SlateAnswer, SlateAsk } from './slate-job';

let fontsRead: Promise<SlateFonts> | null = null;

function fonts(): Promise<SlateFonts> {
  fontsRead ??= fontBytes().then(({ regular, bold }) => ({
    regular: readFont(regular),
    bold: readFont(bold),
  }));
  return fontsRead;
}

function say(message: SlateAnswer, transfer: Transferable[] = []): void {
  self.postMessage(message, { transfer });
}

/** A message a page is enough: the bar moves, and the copying costs nothing beside the writing. */
async function make(ask: SlateAsk): Promise<void> {
  const { id, trip, settings, printedOn } = ask;
  const whole = ledger(trip);
  const request: SlateRequest = {
    ...settings,
    ledger: whole,
    cautions: slateCautions(whole, settings.units),
    fonts: await fonts(),
    printedOn,
  };
  if (ask.want === 'pages') {
    const laid = slatePages(request);
    say(
      laid.ok ? { id, kind: 'pages', value: laid.value } : { id, kind: 'troubles', troubles: laid.troubles },
    );
    return;
  }
  const made = await slatePdf(request, (done, all) => {
    say({ id, kind: 'progress', done, all });
    return false;
  });
  if (!made.ok) say({ id, kind: 'troubles', troubles: made.troubles });
  else if (made.value !== null) {
    say({ id, kind: 'pdf', bytes: made.value.bytes }, [made.value.bytes.buffer as ArrayBuffer]);
  }
}

self.addEventListener('message', (event: MessageEvent<SlateAsk>) => {
  const { id } = event.data;
  make(event.data).catch((error: unknown) => {
    say({
      id,
      kind: 'troubles',
      troubles: [
        {
          kind: 'fault',
          what: `The slates could not be made: ${error instanceof Error ? error.message : String(error)}`,
          where: '',
          mend: 'Try other choices; if it stays, start the workbench anew. The trip is not touched.',
        },
      ],
    });
  });
});
