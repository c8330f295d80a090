/**
 * A page that does not come, crashed or hangs. Of the last two the user is asked, once, and may have it back; what was
 * saved is on the disk.
 */
import { dialog, type BrowserWindow } from 'electron';

/** Loads a window's page. A fault is thrown, but where the window was closed meanwhile: then the user went, and nothing is at fault. */
export async function loadPage(
  window: Pick<BrowserWindow, 'loadURL' | 'isDestroyed'>,
  url: string,
): Promise<void> {
  try {
    await window.loadURL(url);
  } catch (error) {
    if (!window.isDestroyed()) throw error;
  }
}

/** Watches one window; `onLost` is called when its page is gone, and with it whoever could be asked to save. */
export function watchHealth(window: BrowserWindow, onLost: () => void): void {
  let isAsking = false;
  /** Why the page went while its user was still asked about something else. */
  let gone: string | null = null;
  /** The user gave a hung page up: that its process then ends is no news. */
  let isGivenUp = false;

  /** @returns whether the window is to be loaded again */
  const ask = async (message: string, detail: string, otherChoice: string): Promise<boolean> => {
    isAsking = true;
    const { response } = await dialog.showMessageBox(window, {
      type: 'warning',
      message,
      detail,
      buttons: ['Reload the window', otherChoice],
      defaultId: 0,
      cancelId: 1,
    });
    isAsking = false;
    return response === 0 && !window.isDestroyed();
  };

  const askGone = async (reason: string): Promise<void> => {
    gone = null;
    const detail = `Its process ended (${reason}). Every saved change is on the disk; reloading opens the trip again.`;
    if (await ask('The window stopped working.', detail, 'Close the window')) window.webContents.reload();
    else if (!window.isDestroyed()) window.destroy();
  };

  const askHung = async (): Promise<void> => {
    const detail = 'It may come back by itself. Every saved change is on the disk.';
    const isWanted = await ask('The window does not answer.', detail, 'Wait');
    if (gone !== null && !isWanted) return askGone(gone);
    if (!isWanted) return;
    onLost();
    if (gone === null) {
      isGivenUp = true;
      window.webContents.forcefullyCrashRenderer();
    }
    gone = null;
    window.webContents.reload();
  };

  window.webContents.on('render-process-gone', (_event, { reason }) => {
    onLost();
    if (reason === 'clean-exit' || isGivenUp) return;
    if (isAsking) gone = reason;
    else void askGone(reason);
  });
  window.webContents.on('did-finish-load', () => {
    isGivenUp = false;
  });
  window.on('unresponsive', () => {
    if (!isAsking) void askHung();
  });
}
