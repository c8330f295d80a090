/** What the window asks of its search worker, and what comes back: types only. */
import type { RequestTroubleKind, StockRequest } from '../../../core/mixes/shares';
import type { StockAnswer } from '../../../core/mixes/stock';
import type { Result } from '../../../core/result';
import type { Trip } from '../../../core/document/types';

export interface StockAsk {
  readonly trip: Trip;
  readonly request: StockRequest;
}

export type StockFound = Result<StockAnswer, RequestTroubleKind>;
