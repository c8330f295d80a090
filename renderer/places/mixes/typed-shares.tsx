import { useId, useState, type ReactNode } from 'react';
import { parseShare } from '../../figures/parse';
import { chooseView, useMixesView } from './mixes-view';

/** A column for any share typed in: a question, so nothing of it goes into the trip. */
export function TypedShares(): ReactNode {
  const id = useId();
  const percents = useMixesView((view) => view.typedPercents);
  const [typed, setTyped] = useState('');
  const [refusal, setRefusal] = useState<string | null>(null);
  const add = (): void => {
    const share = parseShare(typed);
    const percent = share.ok ? Math.round(share.value * 1000) / 10 : Number.NaN;
    if (!share.ok) setRefusal(`${share.what} ${share.mend}`);
    else if (!(percent >= 21 && percent <= 100)) {
      setRefusal(`${typed.trim()} is no mix of oxygen and air. Type a percentage from 21 to 100.`);
    } else {
      if (!percents.includes(percent)) chooseView({ typedPercents: [...percents, percent] });
      setTyped('');
      setRefusal(null);
    }
  };
  return (
    <form
      className="typed-shares"
      onSubmit={(event) => {
        event.preventDefault();
        add();
      }}
    >
      <div className="field">
        <label htmlFor={id}>Ask about oxygen, %</label>
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
        Add column
      </button>
      {percents.map((percent) => (
        <button
          key={percent}
          type="button"
          className="plain"
          aria-label={`Take away the column of ${percent} %`}
          onClick={() => chooseView({ typedPercents: percents.filter((each) => each !== percent) })}
        >
          {percent} % ×
        </button>
      ))}
    </form>
  );
}
