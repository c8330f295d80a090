import { useId, useState, type FormEvent, type ReactNode } from 'react';
import type { DayDate } from '../../../../core/document/types';
import { addDived, divesOfDay } from '../../../actions/log';
import { parseClock, parseFigure, parseMinutes } from '../../../figures/parse';
import { RefusalLine } from '../../../parts/refusal-line';
import type { Refusal } from '../../../parts/use-draft';
import { useDesk } from '../../../store/store';
import { unitOf } from '../../../../core/words/quantity';
import styles from './evening.module.css';

/** Asked for at the foot of the log, which may be higher than the window. */
function intoView(form: HTMLFormElement | null): void {
  form?.scrollIntoView({ block: 'nearest' });
}

/** A dive that nobody had planned: nothing of it is guessed, so all of it is asked for. */
export function AddDived({
  date,
  onDone,
}: {
  readonly date: DayDate;
  readonly onDone: () => void;
}): ReactNode {
  const trip = useDesk((state) => state.trip);
  const { units, clock } = useDesk(({ settings }) => settings);
  const [siteId, setSiteId] = useState(
    () => divesOfDay(trip, date).at(-1)?.siteId ?? trip.sites[0]?.id ?? '',
  );
  const [typed, setTyped] = useState({ time: '', depth: '', min: '' });
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const id = useId();

  const add = (event: FormEvent): void => {
    event.preventDefault();
    const time = parseClock(typed.time, clock);
    const depthM = parseFigure(typed.depth, 'depth', units);
    const min = parseMinutes(typed.min);
    for (const each of [time, depthM, min]) if (!each.ok) return setRefusal(each);
    if (!time.ok || !depthM.ok || !min.ok) return;
    const result = addDived({
      siteId,
      startsAt: `${date}T${time.value}`,
      depthM: depthM.value,
      bottomMin: min.value,
    });
    if (result.ok) onDone();
    else setRefusal(result.troubles[0]);
  };
  const field = (key: keyof typeof typed, label: string): ReactNode => (
    <label>
      {label}
      <input
        type="text"
        size={6}
        value={typed[key]}
        onChange={(event) => setTyped({ ...typed, [key]: event.target.value })}
      />
    </label>
  );
  return (
    <form
      ref={intoView}
      className={styles.add}
      onSubmit={add}
      aria-label="Dive that was not planned"
      aria-describedby={id}
    >
      <label>
        Site
        <select value={siteId} autoFocus onChange={(event) => setSiteId(event.target.value)}>
          {trip.sites.map((site) => (
            <option key={site.id} value={site.id}>
              {site.name}
            </option>
          ))}
        </select>
      </label>
      {field('time', 'In')}
      {field('depth', `Deepest, ${unitOf('depth', units).sign}`)}
      {field('min', 'Bottom, min')}
      <button type="submit" className="button first">
        Add
      </button>
      <button type="button" className="plain" onClick={onDone}>
        Cancel
      </button>
      <RefusalLine id={id} refusal={refusal} />
    </form>
  );
}
