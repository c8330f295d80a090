import { useId, useState, type ReactNode } from 'react';
import type { EditResult } from '../actions/edit';
import './field.css';

/** A calendar date, "2027-03-06", in the platform's own date field; what cannot be is said beside it. */
export function DateField(props: {
  readonly label: string;
  readonly value: string;
  readonly commit: (value: string) => EditResult | void;
}): ReactNode {
  const id = useId();
  const [refusal, setRefusal] = useState<string | null>(null);
  const [typed, setTyped] = useState<string | null>(null);
  const put = (text: string): void => {
    if (text === '') {
      setRefusal('There is no such date. Choose one, or press Escape for the one before.');
      return;
    }
    const result = props.commit(text);
    if (result && !result.ok) {
      setRefusal(`${result.troubles[0].what} ${result.troubles[0].mend}`);
      return;
    }
    setRefusal(null);
    setTyped(null);
  };
  return (
    <div className="field">
      <label htmlFor={id}>{props.label}</label>
      <input
        id={id}
        type="date"
        value={typed ?? props.value}
        aria-invalid={refusal !== null}
        {...(refusal ? { 'aria-describedby': `${id}-refusal` } : {})}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={() => {
          if (typed !== null && typed !== props.value) put(typed);
        }}
        onKeyDown={(event) => {
          if (event.key === 'Enter' && typed !== null) put(typed);
          if (event.key === 'Escape' && (typed !== null || refusal !== null)) {
            event.stopPropagation();
            event.preventDefault();
            setTyped(null);
            setRefusal(null);
          }
        }}
      />
      {refusal ? (
        <div className="field-refusal" id={`${id}-refusal`} role="alert">
          {refusal}
        </div>
      ) : null}
    </div>
  );
}
