/** What the window asks of the worker that lays trips out, and what comes back: types only. */
import type { Settings } from '../../../core/host';
import type { StartingAnswers, StartingTrip } from '../../../core/proposal/starting-sheet';
import type { Result } from '../../../core/result';

export interface StartingAsk {
  readonly answers: StartingAnswers;
  readonly settings: Pick<Settings, 'units' | 'clock'>;
}

export type StartingMade = Result<StartingTrip>;
