import type { ReactNode } from 'react';
import type { Dive, Diver } from '../../../../core/document/types';
import { Folded } from '../../../parts/folded';
import { lazily } from '../../../parts/lazily';
import { STAND_IN } from '../stand-in';

/** In the evening, and not at the start; whole, so that the focus finds a record where it was entered. */
const AsDivedRecords = lazily(
  () => import('./as-dived-records'),
  (part) => part.AsDivedRecords,
  STAND_IN,
);

/** What was dived, for the whole dive or for one diver; figures follow it instead of the plan. */
export function AsDivedSheet({
  dive,
  divers,
}: {
  readonly dive: Dive;
  readonly divers: readonly Diver[];
}): ReactNode {
  // Once open it stays so: with the last record taken back, the way to enter one is where the hand is.
  return (
    <Folded about={dive.id} summary="As dived" opens={(dive.asDived ?? []).length > 0}>
      {() => <AsDivedRecords dive={dive} divers={divers} />}
    </Folded>
  );
}
