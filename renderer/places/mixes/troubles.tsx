import type { ReactNode } from 'react';
import type { Trouble } from '../../../core/result';
import styles from './troubles.module.css';

/** Why a question cannot be answered as it is asked, and what to change. */
export function Troubles({ troubles }: { readonly troubles: readonly Trouble[] }): ReactNode {
  return (
    <div className={styles.troubles} role="alert">
      {troubles.map(({ what, mend }) => (
        <p key={what}>
          <strong>{what}</strong> {mend}
        </p>
      ))}
    </div>
  );
}
