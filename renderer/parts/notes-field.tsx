import { useId, useState, type ReactNode } from 'react';
import type { EditResult } from '../actions/edit';
import './field.css';

/**
 * A text of several lines. As any field it holds what is typed apart from what is kept: leaving it keeps it,
 * Escape brings back what was there; Enter is a line of its own, with Ctrl it keeps.
 */
export function NotesField(props: {
  readonly label: string;
  readonly value: string;
  readonly commit: (value: string) => EditResult | void;
}): ReactNode {
  const { label, value, commit } = props;
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [refusal, setRefusal] = useState<string | null>(null);
  const put = (): void => {
    if (typed === null || typed.trim() === value) {
      setTyped(null);
      setRefusal(null);
      return;
    }
    const result = commit(typed.trim());
    if (result && !result.ok) setRefusal(`${result.troubles[0].what} ${result.troubles[0].mend}`);
    else {
      setTyped(null);
      setRefusal(null);
    }
  };
  return (
    <div className="field notes-field">
      <label htmlFor={id}>{label}</label>
      <textarea
        id={id}
        rows={1}
        value={typed ?? value}
        aria-invalid={refusal !== null}
        {...(refusal ? { 'aria-describedby': `${id}-refusal` } : {})}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={put}
        onKeyDown={(event) => {
          if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) {
            event.preventDefault();
            put();
          } else if (event.key === 'Escape' && (typed !== null || refusal !== null)) {
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
