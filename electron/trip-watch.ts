/** Notices trips that someone else changed or removed: another program, a synchronising folder, a person. */
import { watch, type FSWatcher } from 'node:fs';
import { mkdir, stat } from 'node:fs/promises';
import { dirname, extname, join } from 'node:path';
import type { TripChange } from '../core/host';
import { TRIP_EXTENSION } from '../core/library';
import { stampOf } from './disk';
import type { TripFiles } from './trip-files';

/** Programs write in several steps; only what stands when they are done is looked at. */
const SETTLE_MS = 150;

export interface TripWatch {
  /** Watches the folder of a file outside the library as well. */
  alsoFile(path: string): void;
  close(): void;
}

/** Watches the library, and calls back for what this process did not write itself. */
export async function watchTripFiles(
  files: TripFiles,
  listener: (change: TripChange) => void,
): Promise<TripWatch> {
  const watchers = new Map<string, FSWatcher>();
  const outside = new Set<string>();
  const settling = new Map<string, NodeJS.Timeout>();

  const look = async (path: string): Promise<void> => {
    const savedAt = await stat(path).then(stampOf, () => null);
    if (files.lastSeen(path) === savedAt) return;
    if (savedAt === null && files.lastSeen(path) === undefined) return;
    files.saw(path, savedAt);
    listener({ token: files.placeAt(path).token, kind: savedAt === null ? 'removed' : 'changed' });
  };

  const onEvent = (path: string): void => {
    clearTimeout(settling.get(path));
    settling.set(
      path,
      setTimeout(() => {
        settling.delete(path);
        void look(path);
      }, SETTLE_MS),
    );
  };

  const watchFolder = (folder: string): void => {
    if (watchers.has(folder)) return;
    try {
      const watcher = watch(folder, (_event, name) => {
        if (name === null || name.startsWith('.')) return;
        const path = join(folder, name);
        const isOurs =
          folder === files.libraryFolder ? extname(name) === `.${TRIP_EXTENSION}` : outside.has(path);
        if (isOurs) onEvent(path);
      });
      // A folder that vanishes ends its watching; saving there will say so.
      watcher.on('error', () => watchers.delete(folder));
      watchers.set(folder, watcher);
    } catch {
      // Not every disk can be watched (network shares): the guard at the next save still notices.
    }
  };

  try {
    await mkdir(files.libraryFolder, { recursive: true });
    watchFolder(files.libraryFolder);
  } catch {
    // A file where the folder should be: the first listing or save says so.
  }

  return {
    alsoFile: (path) => {
      outside.add(path);
      watchFolder(dirname(path));
    },
    close: () => {
      for (const watcher of watchers.values()) watcher.close();
      for (const timer of settling.values()) clearTimeout(timer);
      watchers.clear();
      settling.clear();
    },
  };
}
