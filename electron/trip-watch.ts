/** Notices trips that someone else changed or removed: another program, a synchronising folder, a person. */
import { watch, type FSWatcher } from 'node:fs';
import { mkdir, realpath, stat } from 'node:fs/promises';
import { dirname, extname, join } from 'node:path';
import type { TripChange } from '../core/host';
import { TRIP_EXTENSION } from '../core/library';
import { stampOf } from './disk/disk';
import type { TripFiles } from './trip-files';

/** Programs write in several steps; only what stands when they are done is looked at. */
const SETTLE_MS = 150;

export interface TripWatch {
  /** Watches a file outside the library as well, and what a link leads to. */
  alsoFile(path: string): Promise<void>;
  close(): void;
}

/** Watches the library, and calls back for what this process did not write itself. */
export async function watchTripFiles(
  files: TripFiles,
  listener: (change: TripChange) => void,
): Promise<TripWatch> {
  const watchers = new Map<string, FSWatcher>();
  /** Names that are watched besides those of the library, and the trip that each of them is. */
  const outside = new Map<string, string>();
  const settling = new Map<string, NodeJS.Timeout>();

  const look = async (path: string): Promise<void> => {
    const savedAt = await stat(path).then(stampOf, () => null);
    if (files.isKnown(path, savedAt)) return;
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
        const isInLibrary = folder === files.libraryFolder && extname(name) === `.${TRIP_EXTENSION}`;
        const trip = outside.get(path) ?? (isInLibrary ? path : undefined);
        if (trip !== undefined) onEvent(trip);
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
    alsoFile: async (path) => {
      // A link changes where it leads to, and under that name.
      const target = await realpath(path).catch(() => path);
      for (const name of new Set([path, target])) {
        outside.set(name, path);
        watchFolder(dirname(name));
      }
    },
    close: () => {
      for (const watcher of watchers.values()) watcher.close();
      for (const timer of settling.values()) clearTimeout(timer);
      watchers.clear();
      settling.clear();
    },
  };
}
