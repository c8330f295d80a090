/**
 * A field whose typed text and committed value are two things: typing changes nothing until Enter or leaving
 * the field; Escape brings the committed value back; what cannot be is refused beside the field, not clamped.
 */
import { useId, type KeyboardEvent, type ReactNode } from 'react';
import type { EditResult } from '../actions/edit';
import type { Parsed } from '../figures/parse';
import { RefusalLine } from './refusal-line';
import { useDraft } from './use-draft';
import styles from './field.module.css';

export interface FieldProps<T> {
  readonly label: string;
  readonly value: T;
  /** The committed value as text. */
  readonly show: (value: T) => string;
  readonly parse: (text: string) => Parsed<T>;
  /** Makes the change; what it refuses is shown beside the field. */
  readonly commit: (value: T) => EditResult | void;
  /** The value a step up or down from this one; the arrow keys take it. */
  readonly step?: (value: T, by: 1 | -1, large: boolean) => T;
  readonly hint?: ReactNode;
  readonly wide?: boolean;
  readonly name?: string;
  /** What the text is read by, as "metric": a draft does not outlive it. */
  readonly words?: string;
  /** Texts that are often typed, offered by the platform while one types. */
  readonly offers?: readonly string[];
}

export function Field<T>(props: FieldProps<T>): ReactNode {
  const { label, value, show, parse, commit, step, hint, wide, name, words, offers } = props;
  const id = useId();
  const committed = show(value);
  const { typed, refusal, type, refuse, put, drop, onEscape } = useDraft(commit, words);

  /**
   * Hands a value on, its text written ahead: a browser lays out the page to move the caret of the field in
   * focus, which is cheap while the page is as it was. Where the value is refused the old text comes back.
   */
  const putFrom = (field: HTMLInputElement, next: T): void => {
    field.value = show(next);
    if (!put(next)) field.value = typed ?? committed;
  };

  const commitTyped = (field: HTMLInputElement): void => {
    if (typed === null || typed === committed) {
      drop();
      return;
    }
    const parsed = parse(typed);
    if (parsed.ok) putFrom(field, parsed.value);
    else refuse(parsed);
  };

  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    onEscape(event);
    if (event.key === 'Enter') {
      event.preventDefault();
      commitTyped(event.currentTarget);
    } else if (step && (event.key === 'ArrowUp' || event.key === 'ArrowDown') && !event.altKey) {
      event.preventDefault();
      const parsed = typed === null ? null : parse(typed);
      if (parsed && !parsed.ok) {
        refuse(parsed);
        return;
      }
      const next = step(parsed ? parsed.value : value, event.key === 'ArrowUp' ? 1 : -1, event.shiftKey);
      putFrom(event.currentTarget, next);
    }
  };

  const hintId = `${id}-hint`;
  const refusalId = `${id}-refusal`;
  const describedBy = [refusal ? refusalId : '', hint ? hintId : ''].filter(Boolean).join(' ');
  return (
    <div className={wide ? `${styles.field} ${styles.wide}` : styles.field}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        name={name}
        type="text"
        autoComplete="off"
        spellCheck={false}
        value={typed ?? committed}
        data-kept={typed === null || typed === committed || undefined}
        aria-invalid={refusal !== null}
        {...(offers ? { list: `${id}-offers` } : {})}
        {...(describedBy ? { 'aria-describedby': describedBy } : {})}
        onChange={(event) => type(event.target.value)}
        onFocus={(event) => event.target.select()}
        onBlur={(event) => commitTyped(event.currentTarget)}
        onKeyDown={onKeyDown}
      />
      {offers ? (
        <datalist id={`${id}-offers`}>
          {offers.map((text) => (
            <option key={text} value={text} />
          ))}
        </datalist>
      ) : null}
      {hint ? (
        <div className={styles.hint} id={hintId}>
          {hint}
        </div>
      ) : null}
      <RefusalLine id={refusalId} refusal={refusal} />
    </div>
  );
}

/** A text that may be anything, an empty one where `required` is false. */
export function TextField(props: {
  readonly label: string;
  readonly value: string;
  readonly commit: (value: string) => EditResult | void;
  readonly required?: boolean;
  readonly wide?: boolean;
}): ReactNode {
  const parse = (text: string): Parsed<string> =>
    props.required && text.trim() === ''
      ? { ok: false, what: 'Nothing is typed.', mend: 'Type a name, or press Escape for the one before.' }
      : { ok: true, value: text.trim() };
  return (
    <Field
      label={props.label}
      value={props.value}
      show={(text) => text}
      parse={parse}
      commit={props.commit}
      wide={props.wide ?? false}
    />
  );
}
