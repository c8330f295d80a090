import type { ReactNode } from 'react';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { shown } from '../../../../core/words/reader';
import { useReader, useWords } from '../../../parts/use-words';
import { Ask } from './ask';
import { heroOf, type CardSource, type HeroFigure } from './card-figures';
import { Pennant } from '../pennant';
import styles from './hero.module.css';

/** What is read at arm's length: no-stop time, room and its limit, pressure left. */
export function Hero({ source }: { readonly source: CardSource }): ReactNode {
  const figures = heroOf(source);
  const isPast = figures.some((each) => each.isPast);
  return (
    <dl className={isPast ? `${styles.hero} ${styles.past}` : styles.hero}>
      {figures.map((each) => (
        <HeroPart key={each.figure} of={each} entry={source.entry} />
      ))}
    </dl>
  );
}

function HeroPart({ of, entry }: { readonly of: HeroFigure; readonly entry: Entry }): ReactNode {
  const words = useWords();
  return (
    <div className={of.care ? styles.care : undefined} data-outcome={of.figure}>
      <dt>
        {of.isPast ? <Pennant /> : null}
        <Ask entry={entry} figure={of.figure}>
          {words(of.label)}
        </Ask>
      </dt>
      <dd data-figure>
        <Number value={of.value} />
      </dd>
      <dd className={styles.aside}>{words(of.aside)}</dd>
    </div>
  );
}

/** The number large and its unit small; words, where there is no number, in between. */
function Number({ value }: { readonly value: HeroFigure['value'] }): ReactNode {
  const reader = useReader();
  const words = useWords();
  if (value.is === 'said') return <span className={styles.words}>{words(value)}</span>;
  const [one] = shown(value, reader);
  return (
    <>
      <span className={styles.number}>{one!.value}</span>
      {one!.unit === '' ? null : <span className={styles.unit}> {one!.unit}</span>}
    </>
  );
}
