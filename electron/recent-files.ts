import type { App } from 'electron';
import type { RecentFiles } from './trip-places';

/**
 * Files that are opened are also told to the system, whose own lists (of the Dock, of the task bar) have them.
 * @param recent the list of this program @param app whose files they are @param platform as `process.platform` has it
 * Source: Electron's documentation, `app.addRecentDocument`: macOS and Windows.
 */
export function knownToSystem(
  recent: RecentFiles,
  app: Pick<App, 'addRecentDocument'>,
  platform: NodeJS.Platform,
): RecentFiles {
  return {
    ...recent,
    remember: (path) => {
      recent.remember(path);
      if (platform === 'darwin' || platform === 'win32') app.addRecentDocument(path);
    },
  };
}
