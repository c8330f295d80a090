/** What the system shows of a window besides its title: the file it holds, whether a save is behind, how far work is. */
import type { BrowserWindow } from 'electron';

export interface WindowMarks {
  /** @param path of the open trip; undefined where it has no file yet */
  showTrip(path: string | undefined, isEdited: boolean): void;
  /** @param share of the work that is done, 0 to 1; null: none is under way */
  showWork(share: number | null): void;
}

/** Below 0 the runtime takes the bar away. Source: Electron's documentation, `win.setProgressBar`. */
const NO_BAR = -1;

type Marked = Pick<
  BrowserWindow,
  'isDestroyed' | 'setDocumentEdited' | 'setProgressBar' | 'setRepresentedFilename'
>;

/**
 * The marks of one window.
 * @param platform macOS alone marks the file and its edits in the title bar; elsewhere the runtime has no such marks
 * Source: Electron's documentation, "Representing Files in a BrowserWindow" and "Progress Bars".
 */
export function windowMarks(window: Marked, platform: NodeJS.Platform): WindowMarks {
  return {
    showTrip: (path, isEdited) => {
      if (platform !== 'darwin' || window.isDestroyed()) return;
      window.setRepresentedFilename(path ?? '');
      window.setDocumentEdited(isEdited);
    },
    showWork: (share) => {
      if (!window.isDestroyed()) window.setProgressBar(share ?? NO_BAR);
    },
  };
}
