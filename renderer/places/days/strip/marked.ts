/** Which dives of the trip are marked beside the others: those with the least room, and those with cautions. */
import type { Caution } from '../../../../core/cautions/caution';
import type { Id } from '../../../../core/document/types';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { isSame } from '../../../../core/same';
import { takingUp } from '../../../store/memo';
import { selectCautions, selectTight, selectTightOfDays } from '../../../store/selectors';
import type { Desk } from '../../../store/store';

/** What the gravest caution of a dive asks for. */
export type Care = 'stop' | 'change';

export interface Marked {
  /** The least room of all dives that keep every limit. */
  readonly tightestOfTrip: readonly Id[];
  /** The least room of each day. */
  readonly tightestOfDays: readonly Id[];
  readonly care: readonly (readonly [Id, Care])[];
}

function idsOf(entries: readonly Entry[]): readonly Id[] {
  return [...new Set(entries.map(({ dive }) => dive.id))];
}

function careOf(cautions: readonly Caution[], diverId: Id | null): Marked['care'] {
  const byDive = new Map<Id, Care>();
  for (const { diveId, severity, diverId: whose } of cautions) {
    if (diveId === null || severity === 'know') continue;
    if (diverId !== null && whose !== null && whose !== diverId) continue;
    if (severity === 'stop' || !byDive.has(diveId)) byDive.set(diveId, severity);
  }
  return [...byDive];
}

/** Most edits mark the same dives as before: then it is the same object, and nothing is drawn for it. */
const markedOf = takingUp(
  (
    previous: Marked | undefined,
    cautions: readonly Caution[],
    diverId: Id | null,
    tight: readonly Entry[],
    tightOfDays: readonly Entry[],
  ): Marked => {
    const marked = {
      tightestOfTrip: idsOf(tight),
      tightestOfDays: idsOf(tightOfDays),
      care: careOf(cautions, diverId),
    };
    return previous && isSame(previous, marked) ? previous : marked;
  },
);

/** The dives marked for the chosen diver, or for everybody. */
export function selectMarked(state: Desk): Marked {
  return markedOf(
    selectCautions(state),
    state.selection.diverId,
    selectTight(state),
    selectTightOfDays(state),
  );
}
