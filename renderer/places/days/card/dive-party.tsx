import type { ReactNode } from 'react';
import type { Dive } from '../../../../core/document/types';
import { setDiveParty } from '../../../actions/dives';
import { tell } from '../../../actions/edit';
import { Folded } from '../../../parts/folded';
import { useDesk } from '../../../store/store';
import styles from './dive-party.module.css';

/** Who dives it: ticks, out of the way until asked for. */
export function DiveParty({ dive }: { readonly dive: Dive }): ReactNode {
  const party = useDesk(({ trip }) => trip.party);
  if (party.length < 2) return null;
  const ids = dive.divers ?? party.map(({ id }) => id);
  const toggle = (diverId: string): void => {
    const next = party.map(({ id }) => id).filter((id) => (id === diverId) !== ids.includes(id));
    tell(setDiveParty(dive.id, next.length === party.length ? null : next));
  };
  return (
    <Folded
      about={dive.id}
      summary={dive.divers ? `Dived by ${ids.length} of ${party.length}` : 'The whole party dives it'}
    >
      {() => (
        <fieldset className={styles.ticks}>
          <legend className="unseen">Who dives it</legend>
          {party.map(({ id, name }) => (
            <label key={id}>
              <input type="checkbox" checked={ids.includes(id)} onChange={() => toggle(id)} />
              {name}
            </label>
          ))}
        </fieldset>
      )}
    </Folded>
  );
}
