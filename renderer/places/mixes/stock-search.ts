/** The search under way or answered: one at a time, begun as it is shown, ended by its worker's end. */
import { useEffect } from 'react';
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { StockRequest } from '../../../core/mixes/shares';
import type { StockAnswer } from '../../../core/mixes/stock';
import type { Trouble } from '../../../core/result';
import type { Trip } from '../../../core/document/types';
import { workBeside } from '../../parts/work';
import type { StockAsk, StockFound } from './stock-job';
import workerUrl from './stock-worker?worker&url';

type Now =
  | { readonly kind: 'idle' }
  | { readonly kind: 'searching'; readonly done: number; readonly total: number }
  | { readonly kind: 'cancelled' }
  | { readonly kind: 'troubles'; readonly troubles: readonly Trouble[] }
  | { readonly kind: 'answered' };

/** What was answered last, and of what: while the next is worked out it still stands, said to be old. */
export interface Answered {
  readonly answer: StockAnswer;
  readonly trip: Trip;
}

export interface StockSearch {
  readonly now: Now;
  /** What is asked or was asked last. */
  readonly asked: StockAsk | null;
  readonly last: Answered | null;
}

const search = createStore<StockSearch>()(() => ({ now: { kind: 'idle' }, asked: null, last: null }));

const work = workBeside<StockAsk, StockFound>(workerUrl);

/** Begins a search; one under way is ended first. */
export async function startSearch(trip: Trip, request: StockRequest): Promise<void> {
  const asked = work.ask({ trip, request }, (done, total) =>
    search.setState({ now: { kind: 'searching', done, total } }),
  );
  search.setState({ now: { kind: 'searching', done: 0, total: 0 }, asked: { trip, request } });
  const outcome = await asked;
  if (outcome.kind === 'fault') {
    const what = `The search stopped${outcome.message ? `: ${outcome.message}` : '.'}`;
    const mend = 'Try again; the trip is not touched.';
    search.setState({ now: { kind: 'troubles', troubles: [{ kind: 'fault', what, where: '', mend }] } });
  } else if (outcome.kind === 'answer') {
    const { answer } = outcome;
    search.setState(
      answer.ok
        ? { now: { kind: 'answered' }, last: { answer: answer.value, trip } }
        : { now: { kind: 'troubles', troubles: answer.troubles } },
    );
  }
}

/** Ends the search under way; the trip was never touched. */
export function cancelSearch(): void {
  work.stop();
  search.setState({ now: { kind: 'cancelled' } });
}

/**
 * The answer for a trip and a request, searched as soon as either is another than was asked; what was cancelled is
 * searched again when it is asked for.
 * @param request null where it cannot be searched
 */
export function useStockSearch(trip: Trip, request: StockRequest | null): StockSearch {
  useEffect(() => {
    const { asked } = search.getState();
    if (request === null || (asked?.trip === trip && asked.request === request)) return;
    void startSearch(trip, request);
  }, [trip, request]);
  return useStore(search);
}
