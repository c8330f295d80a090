/** The window closes once the page has saved all; where it cannot, the user decides. */
import { dialog, type BrowserWindow } from 'electron';

/** A page that has not answered by now hangs, or its disk does. */
const ANSWER_MS = 10_000;

export interface CloseGuard {
  setGuarded(isGuarded: boolean): void;
  /** The page's answer: null when all is saved, else why it is not. */
  answered(failure: string | null): Promise<void>;
  /** The page is gone or new: there is nobody to ask. */
  forget(): void;
}

/**
 * Guards a window's closing.
 * @param ask sends the page the question
 */
export function guardClose(window: BrowserWindow, ask: () => void): CloseGuard {
  let isGuarded = false;
  let isAllowed = false;
  let waiting: NodeJS.Timeout | undefined;

  const close = (): void => {
    isAllowed = true;
    window.close();
  };

  const askUser = async (what: string): Promise<void> => {
    const { response } = await dialog.showMessageBox(window, {
      type: 'warning',
      message: what,
      detail:
        'What was saved before is safe. The changes since then come back at the next start only if this machine ' +
        'could note them down.',
      buttons: ['Keep the window open', 'Close without saving'],
      defaultId: 0,
      cancelId: 0,
    });
    if (response === 1) close();
  };

  const stopWaiting = (): void => {
    clearTimeout(waiting);
    waiting = undefined;
  };

  window.on('close', (event) => {
    if (isAllowed || !isGuarded) return;
    event.preventDefault();
    if (waiting !== undefined) return;
    waiting = setTimeout(() => {
      waiting = undefined;
      void askUser('The trip is still not saved.');
    }, ANSWER_MS);
    ask();
  });

  return {
    setGuarded: (guarded) => {
      isGuarded = guarded;
    },
    answered: async (failure) => {
      // A late answer, after the user was asked already.
      if (waiting === undefined) return;
      stopWaiting();
      if (failure === null) close();
      else await askUser(`The trip could not be saved: ${failure}`);
    },
    forget: () => {
      isGuarded = false;
      stopWaiting();
    },
  };
}
