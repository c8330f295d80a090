/** Keys of the whole window, sent to the command that has them. */
import { COMMANDS } from '../commands/all';
import { commandForKey, isEnabled, isUnderSheet, type Command } from '../commands/registry';
import { closeOverlay } from '../actions/view';
import { desk, type Overlay } from '../store/store';
import { isDialogOpen } from '../parts/open-dialog';

const STEPPING: ReadonlySet<string> = new Set(['edit.undo', 'edit.redo']);

export function isMac(): boolean {
  return /Mac|iPhone|iPad/.test(navigator.userAgent);
}

function isTyping(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLElement &&
    (target.isContentEditable ||
      target.matches('input:not([type=checkbox], [type=radio], [type=button]), textarea, select'))
  );
}

/** In a field that holds what is kept nothing typed is there to take back, so undo is of the trip. */
function undoInKept(event: KeyboardEvent): Command | null {
  if (!(event.target instanceof Element) || !event.target.matches('[data-kept], select')) return null;
  const command = commandForKey(COMMANDS, event, false);
  return command && STEPPING.has(command.id) ? command : null;
}

/** A sheet that was asked for and is still on its way hears no Escape by itself. */
function takeBack(overlay: Overlay | null): void {
  if (overlay && overlay.kind !== 'changed' && overlay.kind !== 'unsaved') closeOverlay();
}

function onKeyDown(event: KeyboardEvent): void {
  if (event.defaultPrevented || event.isComposing) return;
  // While something lies over the window, its keys are its own.
  if (isDialogOpen()) return;
  const { overlay } = desk.getState();
  if (isUnderSheet(desk.getState())) {
    if (event.key === 'Escape') takeBack(overlay);
    return;
  }
  const { target } = event;
  const isInField = isTyping(target);
  const command = commandForKey(COMMANDS, event, isInField, isMac()) ?? undoInKept(event);
  if (!command) return;
  event.preventDefault();
  if (event.repeat && !STEPPING.has(command.id)) return;
  // What is being typed in a field is committed before a command looks at the trip.
  if (isInField && target instanceof HTMLElement) {
    target.blur();
    target.focus();
  }
  if (isEnabled(command, desk.getState())) command.run();
}

/** Listens until the returned function is called. */
export function listenForKeys(): () => void {
  document.addEventListener('keydown', onKeyDown);
  return () => document.removeEventListener('keydown', onKeyDown);
}
