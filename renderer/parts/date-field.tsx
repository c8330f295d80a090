import { useId, type KeyboardEvent, type ReactNode } from 'react';
import { wallDate, wallMin } from '../../core/words/calendar';
import type { EditResult } from '../actions/edit';
import { dateText } from '../figures/format';
import { dateFieldText, parseDate } from '../figures/parse-date';
import { useDesk } from '../store/store';
import { RefusalLine } from './refusal-line';
import { useDraft } from './use-draft';
import styles from './field.module.css';

const DAY_MIN = 1440;

/** So many days further; an arrow takes one, with Shift a week. */
function further(date: string, days: number): string {
  return wallDate(wallMin(`${date}T00:00`) + days * DAY_MIN);
}

/**
 * A calendar date, "2027-03-06", typed in the order of the settings or with its month by name; what cannot be is said
 * beside it. In words it stands above, with its weekday, so that nobody takes the day for the month. The platform's own
 * field orders the two as the platform does, whatever the window is set to.
 */
export function DateField(props: {
  readonly label: string;
  readonly value: string;
  readonly commit: (value: string) => EditResult | void;
}): ReactNode {
  const { label, value, commit } = props;
  const id = useId();
  const order = useDesk(({ settings }) => settings.dates);
  const shown = dateFieldText(value, order);
  const { typed, refusal, type, refuse, put, drop, onEscape } = useDraft(commit, order);
  const putTyped = (): void => {
    if (typed === null || typed === shown) {
      drop();
      return;
    }
    const parsed = parseDate(typed, order, value);
    if (!parsed.ok) refuse(parsed);
    else if (parsed.value === value) drop();
    else put(parsed.value);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    onEscape(event);
    if (event.key === 'Enter') putTyped();
    else if ((event.key === 'ArrowUp' || event.key === 'ArrowDown') && typed === null && !event.altKey) {
      event.preventDefault();
      put(further(value, (event.key === 'ArrowUp' ? 1 : -1) * (event.shiftKey ? 7 : 1)));
    }
  };
  return (
    <div className={styles.field}>
      <div className={styles.head}>
        <label htmlFor={id}>{label}</label>
        <span id={`${id}-words`}>{dateText(value, true)}</span>
      </div>
      <input
        id={id}
        type="text"
        autoComplete="off"
        spellCheck={false}
        value={typed ?? shown}
        data-kept={typed === null || typed === shown || undefined}
        aria-invalid={refusal !== null}
        aria-describedby={refusal ? `${id}-words ${id}-refusal` : `${id}-words`}
        onChange={(event) => type(event.target.value)}
        onFocus={(event) => event.target.select()}
        onBlur={putTyped}
        onKeyDown={onKeyDown}
      />
      <RefusalLine id={`${id}-refusal`} refusal={refusal} />
    </div>
  );
}
