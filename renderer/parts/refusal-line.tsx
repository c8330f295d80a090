import type { ReactNode } from 'react';
import type { Refusal } from './use-draft';
import styles from './refusal-line.module.css';

/** Why something is not taken, told at once to who cannot see it; with an id where a field is described by it. */
export function RefusalLine({
  id,
  refusal,
}: {
  readonly id?: string;
  readonly refusal: Refusal | null;
}): ReactNode {
  return refusal === null ? null : (
    <div className={styles.refusal} id={id} role="alert">
      {refusal.what} {refusal.mend}
    </div>
  );
}
