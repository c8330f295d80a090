/** What the window and its search worker say to each other: types only. */
import type { RequestTroubleKind, StockRequest } from '../../../core/mixes/shares';
import type { StockAnswer } from '../../../core/mixes/stock';
import type { Result } from '../../../core/result';
import type { Trip } from '../../../core/document/types';

export interface StockAsk {
  readonly trip: Trip;
  readonly request: StockRequest;
}

export type StockReply =
  | { readonly kind: 'progress'; readonly done: number; readonly total: number }
  | { readonly kind: 'answer'; readonly result: Result<StockAnswer, RequestTroubleKind> }
  | { readonly kind: 'fault'; readonly message: string };
