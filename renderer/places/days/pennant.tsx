import type { ReactNode } from 'react';
import styles from './pennant.module.css';

/** What stands for "past a limit" without its colour. */
export function Pennant(): ReactNode {
  return (
    <svg className={styles.pennant} viewBox="0 0 12 14" aria-hidden="true">
      <path d="M1.5 0.5v13M1.5 1.5 11 4.5 1.5 7.5z" />
    </svg>
  );
}
