import { useState, type ReactNode } from 'react';
import { siteOf } from '../../../core/document/site-of';
import type { Diver } from '../../../core/document/types';
import { setOnDives } from '../../actions/dive-rest';
import { clockText, dateText } from '../../figures/format';
import { RefusalLine } from '../../parts/refusal-line';
import type { Refusal } from '../../parts/use-draft';
import { diveNumber } from '../../store/selectors';
import { useDesk } from '../../store/store';
import styles from './diver-dives.module.css';

/** Which dives a diver makes: a tick for each, out of the way until asked for. */
export function DiverDives({ diver }: { readonly diver: Diver }): ReactNode {
  const trip = useDesk((state) => state.trip);
  const clock = useDesk(({ settings }) => settings.clock);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  if (trip.dives.length === 0) return null;
  const isOn = (divers: readonly string[] | undefined): boolean => divers?.includes(diver.id) ?? true;
  const made = trip.dives.filter(({ divers }) => isOn(divers)).length;
  return (
    <details>
      <summary>
        {made === trip.dives.length ? 'On every dive' : `On ${made} of ${trip.dives.length} dives`}
      </summary>
      <RefusalLine refusal={refusal} />
      <fieldset className={styles.dives}>
        <legend className="unseen">Dives of {diver.name}</legend>
        {trip.dives.map((dive) => (
          <label key={dive.id}>
            <input
              type="checkbox"
              checked={isOn(dive.divers)}
              onChange={(event) => {
                const result = setOnDives(diver.id, [dive.id], event.target.checked);
                setRefusal(result.ok ? null : result.troubles[0]);
              }}
            />
            <span>
              {diveNumber(trip, dive.id)}, {dateText(dive.startsAt)} {clockText(dive.startsAt, clock)},{' '}
              {siteOf(trip, dive)?.name}
            </span>
          </label>
        ))}
      </fieldset>
    </details>
  );
}
