/** What the window asks of the worker that mends, and what comes back: types only. */
import type { Trip } from '../../../core/document/types';
import type { Mending } from '../../../core/proposal/mend/proposals';
import type { MendRequest } from '../../../core/proposal/mend/request';

export interface MendAsk {
  readonly trip: Trip;
  readonly request: MendRequest;
}

/** What is drafted again. */
export interface DraftAsk {
  readonly trip: Trip;
  readonly doneCount: number;
  /** In which depths are whole. */
  readonly depthUnit: 'm' | 'ft';
}

export type MendFound = Mending;
