import { useState, type ReactNode } from 'react';
import type { Diver, EarlierDive } from '../../../core/document/types';
import { capital } from '../../../core/words/reader';
import { BEST_MIX } from '../../../core/words/terms';
import { tell } from '../../actions/edit';
import { addEarlierDive, changeEarlierDive, removeEarlierDive } from '../../actions/party';
import { clockText, countText, dateText, depthText, minutesText, mixText } from '../../figures/format';
import { todayText } from '../../figures/local-time';
import { Choice } from '../../parts/choice';
import { MomentFields } from '../../parts/moment-fields';
import { MinutesField, ShareField, UnitField } from '../../parts/number-field';
import { RefusalLine } from '../../parts/refusal-line';
import type { Refusal } from '../../parts/use-draft';
import { useWords } from '../../parts/use-words';
import { useDesk } from '../../store/store';
import styles from './earlier-dives.module.css';

/** Dives already done on arrival: what they left behind is carried into the trip. */
export function EarlierDives({ diver }: { readonly diver: Diver }): ReactNode {
  const { before = [] } = diver;
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const add = (): void => {
    const result = addEarlierDive(diver.id, todayText());
    setRefusal(result.ok ? null : result.troubles[0]);
  };
  return (
    <details {...(before.length > 0 ? { open: true } : {})}>
      <summary>
        {before.length === 0
          ? 'No dives before the trip'
          : `${before.length === 1 ? 'One dive' : `${capital(countText(before.length))} dives`} before the trip`}
      </summary>
      {before.map((dive) => (
        <Earlier key={dive.id} diver={diver} dive={dive} />
      ))}
      {diver.loop === undefined || before.length === 0 ? null : (
        <p className="soft">Counted as open circuit: there is no loop before the trip.</p>
      )}
      <p>
        <button type="button" className="linked" onClick={add}>
          Add a dive before the trip
        </button>
      </p>
      <RefusalLine refusal={refusal} />
    </details>
  );
}

function Earlier({ diver, dive }: { readonly diver: Diver; readonly dive: EarlierDive }): ReactNode {
  const words = useWords();
  const mixes = useDesk(({ trip }) => trip.mixes);
  const units = useDesk(({ settings }) => settings.units);
  const clock = useDesk(({ settings }) => settings.clock);
  const date = dive.startsAt.slice(0, 10);
  const change = (patch: Parameters<typeof changeEarlierDive>[2]) =>
    changeEarlierDive(diver.id, dive.id, patch);
  const gas = dive.o2 === undefined ? dive.mix : 'other';
  const about = `${dateText(date)}, ${clockText(dive.startsAt, clock)}, ${depthText(dive.depthM, units)}, ${minutesText(dive.bottomMin, 'near')}`;
  return (
    <div className={styles.dive} role="group" aria-label={`Earlier dive, ${about}`}>
      <MomentFields
        dayLabel="Day"
        timeLabel="Start"
        value={dive.startsAt}
        commit={(startsAt) => change({ startsAt })}
      />
      {dive.legs ? (
        <p className={`soft ${styles.levels}`}>
          {dive.legs.length} levels to {depthText(dive.depthM, units)}, {minutesText(dive.bottomMin, 'near')}
        </p>
      ) : (
        <>
          <UnitField label="Depth" kind="depth" value={dive.depthM} commit={(depthM) => change({ depthM })} />
          <MinutesField
            label="Bottom time"
            value={dive.bottomMin}
            commit={(bottomMin) => change({ bottomMin })}
          />
        </>
      )}
      <Choice
        label="Breathed"
        value={gas}
        options={[
          ...mixes.map(({ id, o2 }) => ({ value: id, label: mixText(o2) })),
          { value: 'auto', label: words(BEST_MIX) },
          { value: 'other', label: 'Another mix' },
        ]}
        commit={(mix) => void tell(change({ gas: mix === 'other' ? { o2: dive.o2 ?? 0.21 } : { mix } }))}
      />
      {dive.o2 === undefined ? (
        <span />
      ) : (
        <ShareField label="Oxygen" value={dive.o2} commit={(o2) => change({ gas: { o2 } })} />
      )}
      <button
        type="button"
        className="linked"
        aria-label={`Remove the earlier dive of ${dateText(date)}`}
        onClick={(event) => {
          // The button goes with the dive; the list's own heading takes the focus.
          event.currentTarget.closest('details')?.querySelector('summary')?.focus();
          tell(removeEarlierDive(diver.id, dive.id));
        }}
      >
        Remove
      </button>
    </div>
  );
}
