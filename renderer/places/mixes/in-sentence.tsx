import { useId, type ReactNode } from 'react';
import type { EditResult } from '../../actions/edit';
import type { Option } from '../../parts/choice';
import { RefusalLine } from '../../parts/refusal-line';
import { useDraft } from '../../parts/use-draft';
import type { Parsed } from '../../figures/parse';
import styles from './in-sentence.module.css';

/** A choice among a few, as a word of a sentence. */
export function WordChoice<Value extends string>(props: {
  readonly label: string;
  readonly value: Value;
  readonly options: readonly Option<Value>[];
  readonly commit: (value: Value) => void;
}): ReactNode {
  return (
    <select
      className={styles.word}
      aria-label={props.label}
      value={props.value}
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
  );
}

/** What is typed, as a word of a sentence; it holds once Enter is pressed or the field is left. */
export function WordField<T>(props: {
  readonly label: string;
  readonly value: T;
  readonly show: (value: T) => string;
  readonly parse: (text: string) => Parsed<T>;
  readonly commit: (value: T) => EditResult | void;
}): ReactNode {
  const { label, value, show, parse, commit } = props;
  const id = useId();
  const committed = show(value);
  const { typed, refusal, type, refuse, put, drop, onEscape } = useDraft(commit);
  const take = (): void => {
    if (typed === null || typed === committed) {
      drop();
      return;
    }
    const parsed = parse(typed);
    if (parsed.ok) put(parsed.value);
    else refuse(parsed);
  };
  return (
    <span className={styles.holder}>
      <input
        className={styles.word}
        aria-label={label}
        autoComplete="off"
        spellCheck={false}
        size={Math.max(3, (typed ?? committed).length)}
        value={typed ?? committed}
        aria-invalid={refusal !== null}
        {...(refusal ? { 'aria-describedby': `${id}-refusal` } : {})}
        onChange={(event) => type(event.target.value)}
        onFocus={(event) => event.target.select()}
        onBlur={take}
        onKeyDown={(event) => {
          onEscape(event);
          if (event.key === 'Enter') {
            event.preventDefault();
            take();
          }
        }}
      />
      <RefusalLine id={`${id}-refusal`} refusal={refusal} />
    </span>
  );
}
