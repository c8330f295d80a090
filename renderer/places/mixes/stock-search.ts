/** The search under way or answered: one at a time, ended by its worker's end. */
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { StockRequest } from '../../../core/mixes/shares';
import type { StockAnswer } from '../../../core/mixes/stock';
import type { Trouble } from '../../../core/result';
import type { Trip } from '../../../core/document/types';
import { workBeside } from '../../parts/work';
import type { StockAsk, StockFound } from './stock-job';
import workerUrl from './stock-worker?worker&url';

export type StockSearch =
  | { readonly kind: 'idle' }
  | { readonly kind: 'searching'; readonly done: number; readonly total: number }
  | { readonly kind: 'cancelled' }
  | { readonly kind: 'troubles'; readonly troubles: readonly Trouble[] }
  /** Holds for `trip` alone: once another stands on the desk, the answer is old. */
  | { readonly kind: 'answer'; readonly answer: StockAnswer; readonly trip: Trip };

const search = createStore<{ readonly now: StockSearch }>()(() => ({ now: { kind: 'idle' } }));

const work = workBeside<StockAsk, StockFound>(workerUrl);

export function useStockSearch(): StockSearch {
  return useStore(search, ({ now }) => now);
}

function show(now: StockSearch): void {
  search.setState({ now });
}

/** Starts a search; one under way is ended first. */
export async function startSearch(trip: Trip, request: StockRequest): Promise<void> {
  const asked = work.ask({ trip, request }, (done, total) => show({ kind: 'searching', done, total }));
  show({ kind: 'searching', done: 0, total: 0 });
  const outcome = await asked;
  if (outcome.kind === 'fault') {
    const what = `The search stopped${outcome.message ? `: ${outcome.message}` : '.'}`;
    const mend = 'Try again; the trip is not touched.';
    show({ kind: 'troubles', troubles: [{ kind: 'fault', what, where: '', mend }] });
  } else if (outcome.kind === 'answer') {
    const { answer } = outcome;
    show(
      answer.ok
        ? { kind: 'answer', answer: answer.value, trip }
        : { kind: 'troubles', troubles: answer.troubles },
    );
  }
}

/** Ends the search under way; the trip was never touched. */
export function cancelSearch(): void {
  work.stop();
  show({ kind: 'cancelled' });
}
