/**
 * The trips of the desktop: a library folder and files anywhere else, every save atomic and kept as a
 * version, nothing unreadable ever written over. Plain Node; the dialogs are in `desktop-host`.
 */
import { randomBytes } from 'node:crypto';
import * as nodeFs from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { StoredTrip, TripSummary, TripToken, TripVersion } from '../core/host';
import { changedTrouble, MAX_TRIP_BYTES, noTripTrouble, notFoundTrouble, peekTrip } from '../core/library';
import { slugOf, tooLargeTrouble } from '../core/library';
import {
  codeOf,
  DiskTrouble,
  makeFolder,
  readWhole,
  stampOf,
  writeAtomically,
  writeTrouble,
  type FileSystem,
} from './disk';
import { tripPlaces, type RecentFiles, type TripPlace } from './trip-places';
import { versionStore } from './version-store';

export interface TripFilesOptions {
  /** The user's data folder; trips, versions, bin and set-aside are made in it. */
  readonly folder: string;
  readonly recent: RecentFiles;
  readonly nowMs?: () => number;
  readonly fs?: FileSystem;
}

export interface TripFiles {
  readonly libraryFolder: string;
  list(): Promise<readonly TripSummary[]>;
  read(token: TripToken): Promise<StoredTrip>;
  write(
    token: TripToken | null,
    text: string,
    title: string,
    expectedSavedAt: string | null,
  ): Promise<StoredTrip>;
  remove(token: TripToken): Promise<void>;
  versions(token: TripToken): Promise<readonly TripVersion[]>;
  version(token: TripToken, version: string): Promise<string>;
  /** Opens a file the user chose, and remembers it. */
  openAt(path: string): Promise<StoredTrip>;
  /** Writes a copy where the user said, and remembers it. */
  writeAt(path: string, text: string): Promise<StoredTrip>;
  /** What this process last saw of a file: its stamp, or null for "not there". */
  lastSeen(path: string): string | null | undefined;
  saw(path: string, savedAt: string | null): void;
  placeAt(path: string): TripPlace;
}

/** The trips under a user's data folder. All methods throw DiskTrouble for what the world gets wrong. */
export function tripFiles(options: TripFilesOptions): TripFiles {
  const { folder, recent, fs = nodeFs, nowMs = Date.now } = options;
  const libraryFolder = join(folder, 'trips');
  const places = tripPlaces(fs, libraryFolder, recent);
  const versions = versionStore(fs, join(folder, 'versions'));
  const seen = new Map<string, string | null>();
  const inTurn = queues();

  const placeOf = async (token: TripToken): Promise<TripPlace> => {
    const place = await places.find(token);
    if (place === undefined) throw new DiskTrouble(notFoundTrouble('the library'));
    return place;
  };

  const readAt = async (place: TripPlace): Promise<StoredTrip> => {
    const { text, savedAt } = await readWhole(fs, place.path);
    const peek = peekTrip(text);
    if (!peek.ok) throw new DiskTrouble(noTripTrouble(place.path, peek.reason));
    seen.set(place.path, savedAt);
    const stored: StoredTrip = { token: place.token, home: place.home, text, savedAt };
    return (await versions.knows(place.token, text)) === false ? { ...stored, changedOutside: true } : stored;
  };

  const summaryAt = async (place: TripPlace): Promise<TripSummary | null> => {
    const { token, home, path } = place;
    try {
      const { text, savedAt } = await readWhole(fs, path);
      const peek = peekTrip(text);
      return peek.ok
        ? { token, home, savedAt, title: peek.title }
        : { token, home, savedAt, title: basename(path), unreadable: peek.reason };
    } catch (error) {
      if (!(error instanceof DiskTrouble)) throw error;
      if (error.trouble.kind === 'not-found') return null;
      const savedAt = await fs.stat(path).then(stampOf, () => new Date(0).toISOString());
      return { token, home, savedAt, title: basename(path), unreadable: error.trouble.what };
    }
  };

  /** What stands where a save will go: kept as a version, or aside where it is no trip, before it goes. */
  const keepWhatStands = async (place: TripPlace): Promise<string | null> => {
    let standing: { text: string; savedAt: string };
    try {
      standing = await readWhole(fs, place.path);
    } catch (error) {
      if (!(error instanceof DiskTrouble)) throw error;
      if (error.trouble.kind === 'not-found') return null;
      return setAside(place);
    }
    if (!peekTrip(standing.text).ok) return setAside(place);
    const isKnown = (await versions.knows(place.token, standing.text)) ?? false;
    if (!isKnown) await versions.add(place.token, standing.text, standing.savedAt);
    return standing.savedAt;
  };

  const setAside = async (place: TripPlace): Promise<string> => {
    const aside = join(folder, 'set-aside');
    const time = new Date(nowMs()).toISOString().replace(/[:.]/g, '-');
    try {
      const stat = await fs.stat(place.path);
      await makeFolder(fs, aside);
      await fs.copyFile(place.path, join(aside, `${time}-${basename(place.path)}`));
      return stampOf(stat);
    } catch (error) {
      throw asDiskTrouble(error, place.path);
    }
  };

  const saveAt = async (place: TripPlace, text: string): Promise<StoredTrip> => {
    const standing = await keepWhatStands(place);
    const [newest] = await versions.list(place.token);
    const savedAt = await writeAtomically(fs, {
      path: place.path,
      content: text,
      nowMs: nowMs(),
      // Later than both: a file put back from a backup may be older than our own last save.
      laterThan: [standing ?? '', newest?.savedAt ?? ''].toSorted().at(-1),
      // The version first: a process killed in between leaves one save more, never one less.
      beforeRename: (stamp) => versions.add(place.token, text, stamp),
    });
    seen.set(place.path, savedAt);
    await versions.prune(place.token).catch(() => {});
    return { token: place.token, home: place.home, text, savedAt };
  };

  const stampAt = async (path: string): Promise<string> => {
    try {
      return stampOf(await fs.stat(path));
    } catch (error) {
      const isGone = codeOf(error) === 'ENOENT';
      throw isGone ? new DiskTrouble(notFoundTrouble(path)) : asDiskTrouble(error, path);
    }
  };

  return {
    libraryFolder,

    list: async () => {
      const all = [...(await places.inLibrary()), ...places.outside()];
      const summaries = await Promise.all(all.map(summaryAt));
      return summaries
        .filter((summary) => summary !== null)
        .toSorted((a, b) => b.savedAt.localeCompare(a.savedAt));
    },

    read: async (token) => readAt(await placeOf(token)),

    write: async (token, text, title, expectedSavedAt) => {
      checkText(text, title);
      if (token === null) {
        await makeFolder(fs, libraryFolder);
        const place = places.fresh(slugOf(title), randomBytes(4).toString('hex'));
        return inTurn(place.token, () => saveAt(place, text));
      }
      return inTurn(token, async () => {
        const place = await placeOf(token);
        const standing = await stampAt(place.path);
        if (expectedSavedAt !== null && standing !== expectedSavedAt) {
          throw new DiskTrouble(changedTrouble(place.path));
        }
        return saveAt(place, text);
      });
    },

    remove: (token) =>
      inTurn(token, async () => {
        const place = await placeOf(token);
        // A file outside the library is its owner's: it leaves the list and stays where it is.
        if (place.home === 'file') return recent.forget(place.path);
        const bin = join(folder, 'bin');
        const time = new Date(nowMs()).toISOString().replace(/[:.]/g, '-');
        await makeFolder(fs, bin);
        try {
          seen.set(place.path, null);
          await fs.rename(place.path, join(bin, `${time}-${basename(place.path)}`));
        } catch (error) {
          throw asDiskTrouble(error, place.path);
        }
      }),

    versions: async (token) => versions.list(checkedToken(token)),
    version: async (token, version) => versions.read(checkedToken(token), version),

    openAt: async (path) => {
      const place = places.at(path);
      // Handed out even where it is no trip: whoever reads it can then say what is wrong, and in which line.
      const { text, savedAt } = await readWhole(fs, place.path);
      seen.set(place.path, savedAt);
      if (place.home === 'file' && peekTrip(text).ok) recent.remember(place.path);
      return { token: place.token, home: place.home, text, savedAt };
    },

    writeAt: async (path, text) => {
      checkText(text, path);
      const place = places.at(path);
      const trip = await inTurn(place.token, () => saveAt(place, text));
      if (place.home === 'file') recent.remember(place.path);
      return trip;
    },

    lastSeen: (path) => seen.get(path),
    saw: (path, savedAt) => void seen.set(path, savedAt),
    placeAt: (path) => places.at(path),
  };
}

/** Nothing is kept as a trip that could not be opened as one again. */
function checkText(text: string, where: string): void {
  const bytes = Buffer.byteLength(text);
  if (bytes > MAX_TRIP_BYTES) throw new DiskTrouble(tooLargeTrouble(where, bytes));
  const peek = peekTrip(text);
  if (!peek.ok) throw new DiskTrouble(noTripTrouble(where, peek.reason));
}

function asDiskTrouble(error: unknown, path: string): DiskTrouble {
  return error instanceof DiskTrouble ? error : new DiskTrouble(writeTrouble(error, path, 0));
}

/** A token names a folder of versions: nothing but what was handed out may do so. */
function checkedToken(token: TripToken): TripToken {
  if (!/^(library|file)-[0-9a-f]{32}$/.test(token)) throw new DiskTrouble(notFoundTrouble('the library'));
  return token;
}

/** One piece of work at a time for each trip, in the order in which they were asked for. */
function queues(): <T>(token: TripToken, work: () => Promise<T>) => Promise<T> {
  const tails = new Map<string, Promise<unknown>>();
  return async (token, work) => {
    const before = tails.get(token) ?? Promise.resolve();
    const mine = before.then(work, work);
    const tail = mine.catch(() => {});
    tails.set(token, tail);
    try {
      return await mine;
    } finally {
      if (tails.get(token) === tail) tails.delete(token);
    }
  };
}
