import { useId, useState, type ReactNode } from 'react';
import { parseShare } from '../figures/parse';
import { RefusalLine } from './refusal-line';
import type { Refusal } from './use-draft';
import field from './field.module.css';

/** Asks for one share of oxygen and hands it on; what it cannot take is said beside the field until it is mended. */
export function ShareForm(props: {
  readonly className: string | undefined;
  readonly label: string;
  readonly action: string;
  /** @returns why the share is refused; null where it was taken */
  readonly take: (share: number, typed: string) => Refusal | null;
  /** Beside the button. */
  readonly children?: ReactNode;
}): ReactNode {
  const { className, label, action, take, children } = props;
  const id = useId();
  const [typed, setTyped] = useState('');
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const submit = (): void => {
    const share = parseShare(typed);
    const why = share.ok ? take(share.value, typed.trim()) : share;
    setRefusal(why);
    if (why === null) setTyped('');
  };
  return (
    <form
      className={className}
      onSubmit={(event) => {
        event.preventDefault();
        submit();
      }}
    >
      <div className={field.field}>
        <label htmlFor={id}>{label}</label>
        <input
          id={id}
          value={typed}
          inputMode="decimal"
          autoComplete="off"
          aria-invalid={refusal !== null}
          {...(refusal ? { 'aria-describedby': `${id}-refusal` } : {})}
          onChange={(event) => setTyped(event.target.value)}
        />
        <RefusalLine id={`${id}-refusal`} refusal={refusal} />
      </div>
      <button type="submit" className="button">
        {action}
      </button>
      {children}
    </form>
  );
}
