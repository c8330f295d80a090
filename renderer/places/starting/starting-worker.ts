/** Lays out trips beside the window, so that typing never waits for it. */
import type { Settings } from '../../../core/host';
import type { Result } from '../../../core/result';
import {
  startingSheet,
  type StartingAnswers,
  type StartingTrip,
} from '../../../core/proposal/starting-sheet';
import { wordsIn } from '../../figures/reader';

export interface StartingAsk {
  readonly answers: StartingAnswers;
  readonly settings: Pick<Settings, 'units' | 'clock'>;
}

export type StartingReply =
  | { readonly kind: 'done'; readonly result: Result<StartingTrip> }
  | { readonly kind: 'fault'; readonly message: string };

function reply(message: StartingReply): void {
  self.postMessage(message, { transfer: [] });
}

self.addEventListener('message', (event: MessageEvent<StartingAsk>) => {
  const { answers, settings } = event.data;
  try {
    reply({ kind: 'done', result: startingSheet(answers, wordsIn(settings)) });
  } catch (error) {
    reply({ kind: 'fault', message: error instanceof Error ? error.message : String(error) });
  }
});
