import type { ReactNode } from 'react';
import styles from './ticks.module.css';

/** Several out of a list, all of them where none is picked out. */
export function Ticks<Value extends string>(props: {
  readonly legend: string;
  readonly all: string;
  readonly options: readonly { readonly value: Value; readonly label: string }[];
  readonly chosen: readonly Value[] | null;
  readonly commit: (chosen: readonly Value[] | null) => void;
}): ReactNode {
  const { options, chosen, commit } = props;
  const toggle = (value: Value): void => {
    const before = chosen ?? [];
    const after = options
      .map((option) => option.value)
      .filter((each) => before.includes(each) !== (each === value));
    commit(after.length === 0 || after.length === options.length ? null : after);
  };
  return (
    <fieldset className={styles.ticks}>
      <legend>{props.legend}</legend>
      <label>
        <input type="checkbox" checked={chosen === null} onChange={() => commit(null)} />
        {props.all}
      </label>
      {options.map(({ value, label }) => (
        <label key={value}>
          <input type="checkbox" checked={chosen?.includes(value) ?? false} onChange={() => toggle(value)} />
          {label}
        </label>
      ))}
    </fieldset>
  );
}
