import { useId, type ReactNode } from 'react';
import styles from './field.module.css';

export interface Option<Value extends string> {
  readonly value: Value;
  readonly label: string;
}

/** A choice among a few, as a field. */
export function Choice<Value extends string>(props: {
  readonly label: string;
  readonly value: Value;
  readonly options: readonly Option<Value>[];
  readonly commit: (value: Value) => void;
  readonly wide?: boolean;
  /** One more class, for a place that draws it its own way. */
  readonly className?: string;
  readonly hint?: ReactNode;
}): ReactNode {
  const id = useId();
  return (
    <div
      className={[styles.field, props.wide ? styles.wide : '', props.className ?? '']
        .filter(Boolean)
        .join(' ')}
    >
      <label htmlFor={id}>{props.label}</label>
      <select
        id={id}
        value={props.value}
        {...(props.hint ? { 'aria-describedby': `${id}-hint` } : {})}
        onChange={(event) => {
          const chosen = props.options.find(({ value }) => value === event.target.value);
          if (chosen) props.commit(chosen.value);
        }}
      >
        {props.options.map(({ value, label }) => (
          <option key={value} value={value}>
            {label}
          </option>
        ))}
      </select>
      {props.hint ? (
        <div className={styles.hint} id={`${id}-hint`}>
          {props.hint}
        </div>
      ) : null}
    </div>
  );
}
