import type { ReactNode } from 'react';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { said } from '../../../../core/words/said';
import { HEADS, mixSaid } from '../../../../core/words/terms';
import { useWords } from '../../../parts/use-words';
import { Ask } from './ask';
import { groupsOf, levelRowsOf, type CardGroup, type CardSource } from './card-figures';
import styles from './outcome.module.css';

/** What comes of a dive for one diver beyond the figures at its head: levels, nitrogen, oxygen, gas, a second opinion. */
export function Outcome({ source }: { readonly source: CardSource }): ReactNode {
  return (
    <>
      <Levels source={source} />
      <Groups source={source} />
    </>
  );
}

function Levels({ source }: { readonly source: CardSource }): ReactNode {
  const words = useWords();
  const rows = levelRowsOf(source);
  if (rows.length === 0) return null;
  return (
    <table className={styles.levels}>
      <thead>
        <tr>
          <th scope="col">{words(said`Levels`)}</th>
          {[HEADS.time, HEADS.noStop, HEADS.left].map((head) => (
            <th key={words(head)} scope="col">
              {words(head)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ figure, label, time, noStop, left, care }) => (
          <tr key={figure} className={care ? 'care' : undefined} data-outcome={figure}>
            <th scope="row">
              <Ask entry={source.entry} figure={figure}>
                {words(label)}
              </Ask>
            </th>
            <td>{words(said`${time}`)}</td>
            <td data-figure>{words(said`${noStop}`)}</td>
            <td className={styles.figure}>{words(said`${left}`)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Groups({ source }: { readonly source: CardSource }): ReactNode {
  const { entry } = source;
  const words = useWords();
  const caption = said`What comes of it for ${entry.diver.name}`;
  return (
    <table className={styles.groups}>
      <caption className="unseen">
        {words(entry.o2 === null ? caption : said`${caption} on ${mixSaid(entry.o2)}`)}
      </caption>
      {groupsOf(source).map((group) => (
        <Group key={words(group.name)} group={group} entry={entry} />
      ))}
    </table>
  );
}

function Group({ group, entry }: { readonly group: CardGroup; readonly entry: Entry }): ReactNode {
  const words = useWords();
  return (
    <tbody>
      {group.rows.map(({ figure, label, value, aside, care }, at) => (
        <tr key={figure} className={care ? styles.care : undefined} data-outcome={figure}>
          {at === 0 ? (
            <th scope="rowgroup" rowSpan={group.rows.length}>
              {words(group.name)}
            </th>
          ) : null}
          <th scope="row">
            <Ask entry={entry} figure={figure}>
              {words(label)}
            </Ask>
          </th>
          <td className={styles.figure} data-figure>
            {words(said`${value}`)}
          </td>
          <td className={styles.aside}>{words(aside)}</td>
        </tr>
      ))}
    </tbody>
  );
}
