/** What lies over the window: the platform's own modal dialog, so focus, Escape and the rest behave as anywhere. */
import { useId, useLayoutEffect, useRef, type ReactNode } from 'react';
import styles from './dialog.module.css';

export interface DialogProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
  /** Buttons at the foot; a close button stands at the head in any case unless `mustAnswer`. */
  readonly foot?: ReactNode;
  /** No way out but an answer. */
  readonly mustAnswer?: boolean;
  /** "side" leaves what lies beside it in sight. */
  readonly width?: 'narrow' | 'wide' | 'full' | 'side';
  /** Read out as the label only; the content has its own heading. */
  readonly hideTitle?: boolean;
  /** A sheet to be filled in begins in its first field; any other at its head. */
  readonly startsInFields?: boolean;
}

const FIRST_FIELD = 'input:enabled, select:enabled, textarea:enabled';

export function Dialog(props: DialogProps): ReactNode {
  const { title, onClose, children, foot, mustAnswer = false, width = 'narrow', hideTitle = false } = props;
  const { startsInFields = false } = props;
  const ref = useRef<HTMLDialogElement>(null);
  const body = useRef<HTMLDivElement>(null);
  const titleId = useId();

  // While it is still in the document: only then does the platform give the focus back.
  useLayoutEffect(() => {
    const dialog = ref.current;
    if (dialog && !dialog.open) {
      dialog.showModal();
      if (startsInFields) body.current?.querySelector<HTMLElement>(FIRST_FIELD)?.focus();
    }
    return () => dialog?.close();
  }, [startsInFields]);

  return (
    <dialog
      ref={ref}
      className={styles.dialog}
      data-width={width}
      aria-labelledby={titleId}
      onCancel={(event) => {
        event.preventDefault();
        if (!mustAnswer) onClose();
      }}
      onMouseDown={(event) => {
        // The backdrop is the dialog element itself; its content lies in the inner box.
        if (event.target === ref.current && !mustAnswer) onClose();
      }}
    >
      <div className={styles.sheet}>
        <div className={hideTitle ? 'unseen' : styles.head}>
          <h2 id={titleId}>{title}</h2>
          {mustAnswer || hideTitle ? null : (
            <button type="button" className="plain" onClick={onClose}>
              Close
            </button>
          )}
        </div>
        {/* Focusable, so that a sheet longer than the window can be scrolled by keys. */}
        <div ref={body} className={styles.body} {...(hideTitle ? {} : { tabIndex: 0 })}>
          {children}
        </div>
        {foot ? <div className={styles.foot}>{foot}</div> : null}
      </div>
    </dialog>
  );
}
