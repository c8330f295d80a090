import { useId, type ReactNode } from 'react';
import type { EditResult } from '../actions/edit';
import { RefusalLine } from './refusal-line';
import { useDraft } from './use-draft';
import field from './field.module.css';
import styles from './notes-field.module.css';

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
  const { typed, refusal, type, put, drop, onEscape } = useDraft(commit);
  const putTyped = (): void => {
    if (typed === null || typed.trim() === value) drop();
    else put(typed.trim());
  };
  return (
    <div className={`${field.field} ${styles.notes}`}>
      <label htmlFor={id}>{label}</label>
      <textarea
        id={id}
        rows={1}
        value={typed ?? value}
        data-kept={typed === null || typed === value || undefined}
        aria-invalid={refusal !== null}
        {...(refusal ? { 'aria-describedby': `${id}-refusal` } : {})}
        onChange={(event) => type(event.target.value)}
        onBlur={putTyped}
        onKeyDown={(event) => {
          onEscape(event);
          if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) {
            event.preventDefault();
            putTyped();
          }
        }}
      />
      <RefusalLine id={`${id}-refusal`} refusal={refusal} />
    </div>
  );
}
