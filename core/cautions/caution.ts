import type { Id } from '../document/types';
import type { Said } from '../words/said';

export type Severity = 'stop' | 'change' | 'know';

/** A finding: something to change, or to know. */
export interface Caution {
  readonly code: string;
  readonly severity: Severity;
  /** null: the whole party. */
  readonly diverId: Id | null;
  /** null: the whole trip. */
  readonly diveId: Id | null;
  /** A plain sentence that says what to do. */
  readonly says: Said;
  /** Where the limit was published, or "common practice". */
  readonly source: Said;
}
