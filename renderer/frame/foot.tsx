import type { ReactNode } from 'react';
import { SAFETY_LINE } from '../../core/words/safety-line';
import { useWords } from '../parts/use-words';
import { CommandButton } from '../parts/command-button';
import styles from './foot.module.css';

/** The line that stands on every page of this product. */
export function Foot(): ReactNode {
  const words = useWords();
  return (
    <footer className={styles.foot}>
      <span>{words(SAFETY_LINE)}</span>
      <CommandButton id="help.about" className="plain">
        About
      </CommandButton>
    </footer>
  );
}
