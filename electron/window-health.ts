/** A page that crashed or hangs: the user is told, and may have it back; what was saved is on the disk. */
import { dialog, type BrowserWindow } from 'electron';

/** Watches one window; `onLost` is called when its page is gone, and with it whoever could be asked to save. */
export function watchHealth(window: BrowserWindow, onLost: () => void): void {
  let isAsking = false;
  const ask = async (message: string, detail: string, otherChoice: string): Promise<boolean> => {
    if (isAsking) return false;
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
    return response === 0;
  };

  window.webContents.on('render-process-gone', (_event, { reason }) => {
    onLost();
    if (reason === 'clean-exit') return;
    void (async () => {
      const detail = `Its process ended (${reason}). Every saved change is on the disk; reloading opens the trip again.`;
      if (await ask('The window stopped working.', detail, 'Close the window')) window.webContents.reload();
      else window.destroy();
    })();
  });

  window.on('unresponsive', () => {
    void (async () => {
      const detail = 'It may come back by itself. Every saved change is on the disk.';
      if (!(await ask('The window does not answer.', detail, 'Wait'))) return;
      onLost();
      window.webContents.forcefullyCrashRenderer();
      window.webContents.reload();
    })();
  });
}
