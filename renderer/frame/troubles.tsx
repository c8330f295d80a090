import type { ReactNode } from 'react';
import type { NoticeLine } from '../store/store';
import styles from './troubles.module.css';

/** A file with more has one cause for most of them; the first are mended first. */
const TOLD = 20;

/** What is wrong with a file: so many in full, and that there are more. */
export function Troubles({ lines }: { readonly lines: readonly NoticeLine[] }): ReactNode {
  const told = lines.slice(0, TOLD);
  return (
    <ul className={styles.troubles}>
      {told.map((line, at) => (
        <li key={`${at} ${line.where}`}>
          <p>{line.what}</p>
          {line.where === '' ? null : <p className="soft">{line.where}</p>}
          <p>{line.mend}</p>
        </li>
      ))}
      {lines.length > told.length ? <li>And more; mend these first.</li> : null}
    </ul>
  );
}
