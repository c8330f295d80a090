import type { ReactNode } from 'react';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { said } from '../../../../core/words/said';
import type { FigureId } from '../../../../core/workings/types';
import { showOverlay } from '../../../actions/view';
import { useWords } from '../../../parts/use-words';
import styles from './card.module.css';

/** A figure's name, which tells how it is worked out. */
export function Ask(props: {
  readonly entry: Entry;
  readonly figure: FigureId;
  readonly children: ReactNode;
}): ReactNode {
  const { entry, figure, children } = props;
  const words = useWords();
  return (
    <button
      type="button"
      className={styles.ask}
      title={words(said`How is this worked out?`)}
      onClick={() =>
        showOverlay({ kind: 'workings', figure, diveId: entry.dive.id, diverId: entry.diver.id })
      }
    >
      {children}
    </button>
  );
}
