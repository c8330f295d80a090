/** The search under way or answered: one at a time, ended by its worker's end. */
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { StockRequest } from '../../../core/mixes/shares';
import type { StockAnswer } from '../../../core/mixes/stock';
import type { Trouble } from '../../../core/result';
import type { Trip } from '../../../core/document/types';
import type { StockAsk, StockReply } from './stock-job';

export type StockSearch =
  | { readonly kind: 'idle' }
  | { readonly kind: 'searching'; readonly done: number; readonly total: number }
  | { readonly kind: 'cancelled' }
  | { readonly kind: 'troubles'; readonly troubles: readonly Trouble[] }
  /** Holds for `trip` alone: once another stands on the desk, the answer is old. */
  | { readonly kind: 'answer'; readonly answer: StockAnswer; readonly trip: Trip };

const search = createStore<{ readonly now: StockSearch }>()(() => ({ now: { kind: 'idle' } }));

let worker: Worker | null = null;

export function useStockSearch(): StockSearch {
  return useStore(search, ({ now }) => now);
}

function settle(now: StockSearch): void {
  worker?.terminate();
  worker = null;
  search.setState({ now });
}

function fault(message: string): void {
  const what = `The search stopped${message ? `: ${message}` : '.'}`;
  const mend = 'Try again; the trip is not touched.';
  settle({ kind: 'troubles', troubles: [{ kind: 'fault', what, where: '', mend }] });
}

/** Starts a search; one under way is ended first. */
export function startSearch(trip: Trip, request: StockRequest): void {
  worker?.terminate();
  search.setState({ now: { kind: 'searching', done: 0, total: 0 } });
  const mine = new Worker(new URL('./stock-worker.ts', import.meta.url), { type: 'module' });
  worker = mine;
  mine.addEventListener('message', ({ data: reply }: MessageEvent<StockReply>) => {
    // What an ended worker had already sent is of a search nobody waits for.
    if (worker !== mine) return;
    if (reply.kind === 'progress') {
      search.setState({ now: { kind: 'searching', done: reply.done, total: reply.total } });
    } else if (reply.kind === 'fault') fault(reply.message);
    else if (reply.result.ok) settle({ kind: 'answer', answer: reply.result.value, trip });
    else settle({ kind: 'troubles', troubles: reply.result.troubles });
  });
  mine.addEventListener('error', ({ message }) => {
    if (worker === mine) fault(message);
  });
  // A worker has no origin to name: it is this program's own file.
  // oxlint-disable-next-line unicorn/require-post-message-target-origin
  mine.postMessage({ trip, request } satisfies StockAsk);
}

/** Ends the search under way; the trip was never touched. */
export function cancelSearch(): void {
  settle({ kind: 'cancelled' });
}
