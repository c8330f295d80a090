/** The form and what it would lay out: kept while the window is open, so that closing the sheet loses nothing. */
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { Result } from '../../../core/result';
import type { StartingTrip } from '../../../core/proposal/starting-sheet';
import { todayText } from '../../figures/local-time';
import { desk } from '../../store/store';
import { answersOf, freshForm, type StartingForm } from './starting-form';
import type { StartingAsk, StartingReply } from './starting-worker';

/** What the answers come to; old as soon as the form changes. */
export type LaidOut =
  | { readonly kind: 'none' }
  | { readonly kind: 'working' }
  | { readonly kind: 'done'; readonly result: Result<StartingTrip> }
  | { readonly kind: 'fault'; readonly message: string };

export interface StartingView {
  readonly form: StartingForm;
  readonly laidOut: LaidOut;
}

export const startingView = createStore<StartingView>()(() => ({
  form: freshForm(todayText()),
  laidOut: { kind: 'none' },
}));

export function useStartingView<T>(selector: (view: StartingView) => T): T {
  return useStore(startingView, selector);
}

let worker: Worker | null = null;
/** What the worker is at, and what it is to do next: only the newest answers count. */
let isBusy = false;
let next: StartingAsk | null = null;

function show(laidOut: LaidOut): void {
  startingView.setState({ laidOut });
}

function send(ask: StartingAsk): void {
  if (worker === null) {
    worker = new Worker(new URL('./starting-worker.ts', import.meta.url), { type: 'module' });
    worker.addEventListener('message', ({ data }: MessageEvent<StartingReply>) => {
      isBusy = false;
      if (next) {
        const newest = next;
        next = null;
        send(newest);
      } else show(data);
    });
    worker.addEventListener('error', ({ message }) => {
      stopLayingOut();
      show({ kind: 'fault', message });
    });
  }
  isBusy = true;
  // A worker has no origin to name: it is this program's own file.
  // oxlint-disable-next-line unicorn/require-post-message-target-origin
  worker.postMessage(ask);
}

/** Lays out what the form says, beside the window. */
export function layOut(): void {
  const { trip, settings } = desk.getState();
  const answers = answersOf(startingView.getState().form, trip, settings);
  if (answers === null) {
    next = null;
    show({ kind: 'none' });
    return;
  }
  const { units, clock } = settings;
  const ask = { answers, settings: { units, clock } };
  show({ kind: 'working' });
  if (isBusy) next = ask;
  else send(ask);
}

/** Resolves once nothing is being laid out. */
export function laidOutSettled(): Promise<void> {
  return new Promise((resolve) => {
    const isSettled = (): boolean => startingView.getState().laidOut.kind !== 'working';
    if (isSettled()) {
      resolve();
      return;
    }
    const stop = startingView.subscribe(() => {
      if (!isSettled()) return;
      stop();
      resolve();
    });
  });
}

/** Ends the worker; what is typed stays. */
export function stopLayingOut(): void {
  worker?.terminate();
  worker = null;
  isBusy = false;
  next = null;
}

export function changeForm(patch: Partial<StartingForm>): void {
  startingView.setState(({ form }) => ({ form: { ...form, ...patch } }));
  layOut();
}

/** A laid-out trip has taken what was typed: the sheet is fresh again. */
export function clearForm(): void {
  stopLayingOut();
  startingView.setState({ form: freshForm(todayText()), laidOut: { kind: 'none' } });
}
