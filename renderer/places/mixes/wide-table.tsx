import type { ReactNode } from 'react';
import styles from './wide-table.module.css';

/** A table wider than the window scrolls in itself, by pointer and by keys. */
export function WideTable({
  label,
  children,
}: {
  readonly label: string;
  readonly children: ReactNode;
}): ReactNode {
  return (
    // What scrolls must be reachable by keys; a table without a field in it is not otherwise.
    // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex
    <div className={styles.wide} role="region" aria-label={label} tabIndex={0}>
      {children}
    </div>
  );
}
