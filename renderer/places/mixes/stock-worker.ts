/** Searches what to stock beside the window, so that nothing stutters; the window ends it to cancel. */
import { searchStock } from '../../../core/mixes/stock';
import type { StockAsk, StockReply } from './stock-job';

function say(reply: StockReply): void {
  self.postMessage(reply, { transfer: [] });
}

self.addEventListener('message', (event: MessageEvent<StockAsk>) => {
  const { trip, request } = event.data;
  try {
    const result = searchStock(trip, request, (done, total) => say({ kind: 'progress', done, total }));
    say({ kind: 'answer', result });
  } catch (error) {
    say({ kind: 'fault', message: error instanceof Error ? error.message : String(error) });
  }
});
