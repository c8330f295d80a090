import { useLayoutEffect, useRef, type ReactNode } from 'react';
import { SAFETY_LINE } from '../../../core/words/safety-line';
import { useWords } from '../../parts/use-words';
import styles from './class-room.module.css';

/** The class as it is thrown on a wall: the whole window, in type that the back row reads. Escape leaves it. */
export function ClassLarge(props: {
  readonly title: string;
  readonly note: string;
  readonly leave: () => void;
  readonly children: ReactNode;
}): ReactNode {
  const { title, note, leave, children } = props;
  const words = useWords();
  const ref = useRef<HTMLDialogElement>(null);
  useLayoutEffect(() => {
    const dialog = ref.current;
    if (dialog && !dialog.open) dialog.showModal();
    return () => dialog?.close();
  }, []);
  return (
    <dialog
      ref={ref}
      className={styles.large}
      aria-label="In class, large type"
      onCancel={(event) => {
        event.preventDefault();
        leave();
      }}
    >
      <header>
        <h2>{title}</h2>
        <span className="soft">{note}</span>
        <button type="button" className="linked" onClick={leave}>
          Usual type
        </button>
      </header>
      {children}
      <footer>{words(SAFETY_LINE)}</footer>
    </dialog>
  );
}
