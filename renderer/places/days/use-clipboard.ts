import { useLayoutEffect } from 'react';
import { hasCopied, pasteDives, rememberChosen } from '../../actions/clipboard';
import { tell } from '../../actions/edit';
import { isUnderSheet } from '../../commands/registry';
import { selectChosenDives } from '../../store/selectors';
import { desk } from '../../store/store';

/** Whether the keys of copying belong to something else: a field, text that is marked, a sheet, a table. */
function isOthers(event: ClipboardEvent): boolean {
  const { target } = event;
  return (
    event.defaultPrevented ||
    isUnderSheet(desk.getState()) ||
    (target instanceof Element && target.closest('input, textarea, select, dialog, [role=grid]') !== null)
  );
}

function onCopy(event: ClipboardEvent): void {
  const hasText = (window.getSelection()?.toString() ?? '') !== '';
  if (isOthers(event) || hasText || selectChosenDives(desk.getState()).length === 0) return;
  event.clipboardData?.setData('text/plain', rememberChosen());
  event.preventDefault();
}

function onPaste(event: ClipboardEvent): void {
  if (isOthers(event) || !hasCopied()) return;
  event.preventDefault();
  tell(pasteDives());
}

/** Ctrl C and Ctrl V on Days are of the chosen dives, wherever nothing else has them. */
export function useClipboard(): void {
  // With the first frame, not behind it: the keys that follow a press may be there before the paint.
  useLayoutEffect(() => {
    document.addEventListener('copy', onCopy);
    document.addEventListener('paste', onPaste);
    return () => {
      document.removeEventListener('copy', onCopy);
      document.removeEventListener('paste', onPaste);
    };
  }, []);
}
