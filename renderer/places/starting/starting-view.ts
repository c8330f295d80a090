/** The form and its draft: kept while the window is open, so that closing the sheet loses nothing. */
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { StartingTrip } from '../../../core/proposal/starting-sheet';
import { unreachable } from '../../../core/result';
import { todayText } from '../../figures/local-time';
import { workBeside } from '../../parts/work';
import { desk } from '../../store/store';
import { answersOf, freshForm, type StartingForm } from './starting-form';
import type { StartingAsk, StartingMade } from './starting-job';
import workerUrl from './starting-worker?worker&url';

/** What the answers come to; old as soon as the form changes. */
export type LaidOut =
  | { readonly kind: 'none' }
  | { readonly kind: 'working' }
  | { readonly kind: 'done'; readonly result: StartingMade }
  | { readonly kind: 'fault'; readonly message: string };

export interface StartingView {
  readonly form: StartingForm;
  readonly laidOut: LaidOut;
  /** The newest draft there is: it stays in sight while another is made. */
  readonly latest: StartingTrip | null;
}

/** The form before anything is typed, in the units of the window as they stand. */
let fresh = freshForm(todayText(), desk.getState().settings.units);

export const startingView = createStore<StartingView>()(() => ({
  form: fresh,
  laidOut: { kind: 'none' },
  latest: null,
}));

export function useStartingView<T>(selector: (view: StartingView) => T): T {
  return useStore(startingView, selector);
}

const work = workBeside<StartingAsk, StartingMade>(workerUrl);

/** What becomes of the newest answers; null where they were stopped or overtaken, and nothing becomes of them. */
let laying: Promise<LaidOut | null> = Promise.resolve(null);

function show(laidOut: LaidOut): LaidOut {
  const made = laidOut.kind === 'done' && laidOut.result.ok ? laidOut.result.value : null;
  startingView.setState(laidOut.kind === 'working' ? { laidOut } : { laidOut, latest: made });
  return laidOut;
}

/** As the sheet opens: where nothing is typed yet, the usual values are those of the units and the day as they are. */
export function beginForm(): void {
  if (startingView.getState().form === fresh) clearForm();
  layOut();
}

/** Drafts what the form says, beside the window. */
export function layOut(): void {
  const { trip, settings } = desk.getState();
  const answers = answersOf(startingView.getState().form, trip, settings);
  if (answers === null) {
    work.stop();
    laying = Promise.resolve(show({ kind: 'none' }));
    return;
  }
  const { units, clock } = settings;
  show({ kind: 'working' });
  laying = work.ask({ answers, settings: { units, clock } }).then((outcome) => {
    switch (outcome.kind) {
      case 'stopped':
        return null;
      case 'fault':
        return show(outcome);
      case 'answer':
        return show({ kind: 'done', result: outcome.answer });
      default:
        return unreachable(outcome);
    }
  });
}

/**
 * What the answers as they stand come to, once they are laid out, and to one taker only; null where the sheet is closed
 * or an answer is changed meanwhile: what was asked for then is not what stands there.
 */
export function takeLaidOut(): Promise<LaidOut | null> {
  const taken = laying;
  laying = Promise.resolve(null);
  return taken;
}

/** Ends the worker; what is typed stays. */
export function stopLayingOut(): void {
  work.stop();
}

export function changeForm(patch: Partial<StartingForm>): void {
  startingView.setState(({ form }) => ({ form: { ...form, ...patch } }));
  layOut();
}

/** The draft has taken what was typed: the sheet is fresh again. */
export function clearForm(): void {
  stopLayingOut();
  fresh = freshForm(todayText(), desk.getState().settings.units);
  startingView.setState({ form: fresh, laidOut: { kind: 'none' }, latest: null });
}
