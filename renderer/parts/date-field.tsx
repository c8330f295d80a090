import { useId, type ReactNode } from 'react';
import type { EditResult } from '../actions/edit';
import { dateText } from '../figures/format';
import { RefusalLine } from './refusal-line';
import { useDraft } from './use-draft';
import './field.css';

const NO_DATE = { what: 'There is no such date.', mend: 'Choose one, or press Escape for the one before.' };

/**
 * A calendar date, "2027-03-06", in the platform's own date field; what cannot be is said beside it. The platform
 * orders day and month as it is used to: in words it stands above, with its weekday, as everywhere else.
 */
export function DateField(props: {
  readonly label: string;
  readonly value: string;
  readonly commit: (value: string) => EditResult | void;
}): ReactNode {
  const { label, value, commit } = props;
  const id = useId();
  const { typed, refusal, type, refuse, put, drop, onEscape } = useDraft(commit);
  const putTyped = (): void => {
    if (typed === null || typed === value) drop();
    else if (typed === '') refuse(NO_DATE);
    else put(typed);
  };
  return (
    <div className="field">
      <div className="field-head">
        <label htmlFor={id}>{label}</label>
        <span id={`${id}-words`}>{dateText(value, true)}</span>
      </div>
      <input
        id={id}
        type="date"
        value={typed ?? value}
        data-kept={typed === null || typed === value || undefined}
        aria-invalid={refusal !== null}
        aria-describedby={refusal ? `${id}-words ${id}-refusal` : `${id}-words`}
        onChange={(event) => type(event.target.value)}
        onBlur={putTyped}
        onKeyDown={(event) => {
          onEscape(event);
          if (event.key === 'Enter') putTyped();
        }}
      />
      <RefusalLine id={`${id}-refusal`} refusal={refusal} />
    </div>
  );
}
