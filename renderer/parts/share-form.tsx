import { useId, useState, type ReactNode } from 'react';
import { parseShare } from '../figures/parse';
import './field.css';

/** Asks for one share of oxygen and hands it on; what it cannot take is said beside the field until it is mended. */
export function ShareForm(props: {
  readonly className: string;
  readonly label: string;
  readonly action: string;
  /** @returns why the share is refused; null where it was taken */
  readonly take: (share: number, typed: string) => string | null;
  /** Beside the button. */
  readonly children?: ReactNode;
}): ReactNode {
  const { className, label, action, take, children } = props;
  const id = useId();
  const [typed, setTyped] = useState('');
  const [refusal, setRefusal] = useState<string | null>(null);
  const submit = (): void => {
    const share = parseShare(typed);
    const why = share.ok ? take(share.value, typed.trim()) : `${share.what} ${share.mend}`;
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
      <div className="field">
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
        {refusal ? (
          <div className="field-refusal" id={`${id}-refusal`} role="alert">
            {refusal}
          </div>
        ) : null}
      </div>
      <button type="submit" className="button">
        {action}
      </button>
      {children}
    </form>
  );
}
