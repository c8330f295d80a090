import { rounded } from '../../../core/words/quantity';
import type { ReactNode } from 'react';
import { shareText } from '../../figures/format';
import { ShareForm } from '../../parts/share-form';
import type { Refusal } from '../../parts/use-draft';
import { chooseView, useMixesView } from './mixes-view';
import styles from './typed-shares.module.css';

/** A column for any share typed in: a question, so nothing of it goes into the trip. */
export function TypedShares(): ReactNode {
  const percents = useMixesView((view) => view.typedPercents);
  const take = (share: number, typed: string): Refusal | null => {
    const percent = rounded(share * 100, 1, 'near');
    if (!(percent >= 21 && percent <= 100)) {
      return { what: `${typed} is no mix of oxygen and air.`, mend: 'Type a percentage from 21 to 100.' };
    }
    if (!percents.includes(percent)) chooseView({ typedPercents: [...percents, percent] });
    return null;
  };
  return (
    <details className={styles.typed}>
      <summary>Try another mix</summary>
      <ShareForm className={styles.shares} label="Oxygen, %" action="Add column" take={take}>
        {percents.map((percent) => (
          <button
            key={percent}
            type="button"
            className="plain"
            aria-label={`Take away the column of ${shareText(percent / 100)}`}
            onClick={() => chooseView({ typedPercents: percents.filter((each) => each !== percent) })}
          >
            {shareText(percent / 100)} ×
          </button>
        ))}
      </ShareForm>
    </details>
  );
}
