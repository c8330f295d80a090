import { useEffect, useRef, type ReactNode } from 'react';
import type { Dive, Diver } from '../../../../core/document/types';
import { said, type Said } from '../../../../core/words/said';
import { setOnDives } from '../../../actions/dives';
import { tell } from '../../../actions/edit';
import { Folded } from '../../../parts/folded';
import { useWords } from '../../../parts/use-words';
import { useDesk } from '../../../store/store';
import styles from './dive-party.module.css';

/** Who dives one dive, or several: ticks, out of the way until asked for. Each tick is one step, for all of the dives. */
export function DiveParty({ dives }: { readonly dives: readonly Dive[] }): ReactNode {
  const words = useWords();
  const party = useDesk(({ trip }) => trip.party);
  if (party.length < 2) return null;
  return (
    <Folded about={dives.map(({ id }) => id).join(' ')} summary={words(summarySaid(dives, party.length))}>
      {() => (
        <fieldset className={styles.ticks}>
          <legend className="unseen">{words(said`Who dives`)}</legend>
          {party.map((diver) => (
            <Tick key={diver.id} diver={diver} dives={dives} />
          ))}
        </fieldset>
      )}
    </Folded>
  );
}

function summarySaid(dives: readonly Dive[], partySize: number): Said {
  const sizes = dives.map(({ divers }) => divers?.length ?? partySize);
  const fewest = Math.min(...sizes);
  const most = Math.max(...sizes);
  if (fewest < most) return said`Dived by ${fewest} to ${most} of ${partySize}`;
  if (fewest < partySize) return said`Dived by ${fewest} of ${partySize}`;
  return dives.length === 1 ? said`The whole party dives it` : said`The whole party dives them`;
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
