import { workBeside, type Outcome, type Work } from '../../parts/work';
import type { Trouble } from '../../../core/result';
import type { SlateAnswer, SlateAsk } from './slate-job';
import workerUrl from './slate-worker?worker&url';

/** Makes slates in a worker of its own. */
export function slateMaker(): Work<SlateAsk, SlateAnswer> {
  return workBeside(workerUrl);
}

/** What came of slates, where the worker itself broke down as a trouble like any other; null: stopped. */
export function slateOutcome(outcome: Outcome<SlateAnswer>): SlateAnswer | null {
  if (outcome.kind === 'stopped') return null;
  if (outcome.kind === 'answer') return outcome.answer;
  const what = `The slates could not be made${outcome.message ? `: ${outcome.message}` : '.'}`;
  const mend = 'Try other choices; if it happens again, restart the workbench. The trip is not touched.';
  const trouble: Trouble = { kind: 'fault', what, where: '', mend };
  return { kind: 'troubles', troubles: [trouble] };
}
