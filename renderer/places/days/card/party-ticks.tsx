import { useEffect, useRef, type ReactNode } from 'react';
import type { Dive, Diver } from '../../../../core/document/types';
import { said } from '../../../../core/words/said';
import { setOnDives } from '../../../actions/dive-rest';
import { tell } from '../../../actions/edit';
import { useWords } from '../../../parts/use-words';
import styles from './party-ticks.module.css';

/** Who dives the dives given: a tick for each diver, each one step for all of the dives. */
export function PartyTicks(props: {
  readonly dives: readonly Dive[];
  readonly party: readonly Diver[];
}): ReactNode {
  const words = useWords();
  return (
    <fieldset className={styles.ticks}>
      <legend className="unseen">{words(said`Who dives`)}</legend>
      {props.party.map((diver) => (
        <Tick key={diver.id} diver={diver} dives={props.dives} />
      ))}
    </fieldset>
  );
}

function Tick({ diver, dives }: { readonly diver: Diver; readonly dives: readonly Dive[] }): ReactNode {
  const words = useWords();
  const box = useRef<HTMLInputElement>(null);
  const on = dives.filter(({ divers }) => divers?.includes(diver.id) ?? true).length;
  const isOnSome = on > 0 && on < dives.length;
  useEffect(() => {
    // There is no attribute for it.
    if (box.current) box.current.indeterminate = isOnSome;
  }, [isOnSome]);
  const ids = dives.map(({ id }) => id);
  return (
    <label>
      <input
        ref={box}
        type="checkbox"
        checked={on === dives.length}
        onChange={() => tell(setOnDives(diver.id, ids, on < dives.length))}
      />
      {diver.name}
      {isOnSome ? <span className="soft">{words(said`on ${on} of ${dives.length}`)}</span> : null}
    </label>
  );
}
