import type { ReactNode } from 'react';
import type { AsDived, Dive, Diver, Id } from '../../../../core/document/types';
import { forgetAsDived, setAsDived } from '../../../actions/dive-rest';
import { tell, type EditResult } from '../../../actions/edit';
import { ClockField, MinutesField, ShareField, UnitField } from '../../../parts/number-field';
import { useDesk } from '../../../store/store';
import styles from './dive-fields.module.css';

function recordOf(dive: Dive, by: Id | null): AsDived | null {
  return dive.asDived?.find((each) => (each.by ?? null) === by) ?? null;
}

/** What was dived, for everybody and for each diver: a record, or the way to enter one. */
export function AsDivedRecords({
  dive,
  divers,
}: {
  readonly dive: Dive;
  readonly divers: readonly Diver[];
}): ReactNode {
  const holders: readonly (Diver | null)[] = divers.length > 1 ? [null, ...divers] : [null];
  return holders.map((diver) => {
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
  });
}

/** The fields of one record, of everybody or of one diver. */
function Record(props: {
  readonly dive: Dive;
  readonly diver: Diver | null;
  readonly record: AsDived;
}): ReactNode {
  const { dive, diver, record } = props;
  const by = diver?.id ?? null;
  const labelO2 = useDesk(({ trip }) => trip.mixes.find(({ id }) => id === dive.mix)?.o2 ?? null);
  const put = (patch: Partial<AsDived>): EditResult => {
    const { by: _, ...rest } = record;
    return setAsDived(dive.id, by, { ...rest, ...patch });
  };
  const takeOff = (): EditResult => {
    const { by: _, samples: __, ...rest } = record;
    return setAsDived(dive.id, by, rest);
  };
  const startsAt = record.startsAt ?? dive.startsAt;
  const o2 = record.o2 ?? labelO2;
  return (
    <div
      className={styles.pairs}
      role="group"
      aria-label={diver ? `As dived by ${diver.name}` : 'As dived by everybody'}
    >
      {diver ? <h3>{diver.name}</h3> : null}
      <ClockField
        label="In"
        value={startsAt.slice(11)}
        commit={(time) => put({ startsAt: `${startsAt.slice(0, 10)}T${time}` })}
      />
      <UnitField
        label="Deepest"
        kind="depth"
        value={record.depthM ?? dive.depthM}
        commit={(depthM) => put({ depthM })}
      />
      <MinutesField
        label="Bottom"
        value={record.bottomMin ?? dive.bottomMin}
        commit={(bottomMin) => put({ bottomMin })}
      />
      {o2 === null ? (
        <button type="button" className="linked" onClick={() => void tell(put({ o2: 0.21 }))}>
          Enter the analysed oxygen
        </button>
      ) : (
        <ShareField label="O2 as analysed" value={o2} commit={(next) => put({ o2: next })} />
      )}
      {record.samples ? (
        <p>
          As recorded, {record.samples.length} samples.{' '}
          <button type="button" className="linked" onClick={() => void tell(takeOff())}>
            Take the profile off
          </button>
        </p>
      ) : null}
      <button type="button" className="linked" onClick={() => void tell(forgetAsDived(dive.id, by))}>
        As planned
      </button>
    </div>
  );
}
