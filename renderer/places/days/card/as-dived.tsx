import type { ReactNode } from 'react';
import type { AsDived, Dive, Diver, Id } from '../../../../core/document/types';
import { setAsDived } from '../../../actions/dives';
import { tell } from '../../../actions/edit';
import { Folded } from '../../../parts/folded';
import { lazily } from '../../../parts/lazily';
import { STAND_IN } from '../stand-in';

/** In the evening, and not at the start. */
const Record = lazily(async () => (await import('./as-dived-record')).AsDivedRecord, STAND_IN);

function recordOf(dive: Dive, by: Id | null): AsDived | null {
  return dive.asDived?.find((each) => (each.by ?? null) === by) ?? null;
}

/** What was dived, for the whole dive or for one diver; figures follow it instead of the plan. */
export function AsDivedSheet({
  dive,
  divers,
}: {
  readonly dive: Dive;
  readonly divers: readonly Diver[];
}): ReactNode {
  const holders: readonly (Diver | null)[] = divers.length > 1 ? [null, ...divers] : [null];
  // Once open it stays so: with the last record taken back, the way to enter one is where the hand is.
  return (
    <Folded summary="As dived" opens={(dive.asDived ?? []).length > 0}>
      {() =>
        holders.map((diver) => {
          const record = recordOf(dive, diver?.id ?? null);
          return record ? (
            <Record key={diver?.id ?? ''} dive={dive} diver={diver} record={record} />
          ) : (
            <p key={diver?.id ?? ''}>
              <button
                type="button"
                className="linked"
                onClick={() =>
                  tell(
                    setAsDived(dive.id, diver?.id ?? null, {
                      startsAt: dive.startsAt,
                      depthM: dive.depthM,
                      bottomMin: dive.bottomMin,
                    }),
                  )
                }
              >
                {diver ? `${diver.name} differed` : 'Enter it, starting from the plan'}
              </button>
            </p>
          );
        })
      }
    </Folded>
  );
}
