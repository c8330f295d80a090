import type { ReactNode } from 'react';
import { SAFETY_SENTENCES } from '../../core/words/safety-line';
import { useWords } from '../parts/use-words';
import styles from './safety-sentences.module.css';

/** What the program does not do for a diver: accepted at the first start, and told again whenever it is asked. */
export function SafetySentences(): ReactNode {
  const words = useWords();
  return (
    <ul className={styles.sentences}>
      {SAFETY_SENTENCES.map(words).map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
