/**
 * Tokens for places: the window never names a path, it holds a token that this table alone can read.
 * A token is made from its path, so that it stays the same from one start to the next.
 */
import { createHash } from 'node:crypto';
import { dirname, extname, join, resolve } from 'node:path';
import type { TripToken } from '../core/host';
import { TRIP_EXTENSION } from '../core/library';
import { isText, rawNamesIn, type FileSystem } from './disk/disk';

export interface TripPlace {
  readonly token: TripToken;
  readonly path: string;
  readonly home: 'library' | 'file';
}

/** Where the files outside the library that were opened lately are written down. */
export interface RecentFiles {
  list(): readonly string[];
  remember(path: string): void;
  forget(path: string): void;
}

export interface TripPlaces {
  /** The place of a token, or undefined where none was ever handed out. */
  find(token: TripToken): Promise<TripPlace | undefined>;
  at(path: string): TripPlace;
  /** A place in the library that is still free, named after the trip. */
  fresh(slug: string, unique: string): TripPlace;
  inLibrary(): Promise<readonly TripPlace[]>;
  /** Names of trips in the library that are not text, as the disk holds them. */
  notText(): Promise<readonly Buffer[]>;
  outside(): readonly TripPlace[];
}

/** The places of a library folder and of the recent files. */
export function tripPlaces(fs: FileSystem, library: string, recent: RecentFiles): TripPlaces {
  const at = (path: string): TripPlace => {
    const whole = resolve(path);
    const home = dirname(whole) === resolve(library) ? 'library' : 'file';
    return { token: tokenOf(home, whole), path: whole, home };
  };

  const inLibrary = async (): Promise<readonly TripPlace[]> => {
    const names = (await rawNamesIn(fs, library)).filter(isText).map(String);
    return names
      .filter(isTripName)
      .toSorted()
      .map((name) => at(join(library, name)));
  };

  const outside = (): readonly TripPlace[] => recent.list().map(at);

  return {
    at,
    inLibrary,
    notText: async () =>
      (await rawNamesIn(fs, library)).filter((name) => !isText(name) && isTripName(name.toString('utf8'))),
    outside,
    fresh: (slug, unique) => at(join(library, `${slug}-${unique}.${TRIP_EXTENSION}`)),
    find: async (token) => [...outside(), ...(await inLibrary())].find((place) => place.token === token),
  };
}

function isTripName(name: string): boolean {
  return extname(name) === `.${TRIP_EXTENSION}` && !name.startsWith('.');
}

function tokenOf(home: TripPlace['home'], path: string): TripToken {
  return `${home}-${createHash('sha256').update(path).digest('hex').slice(0, 32)}`;
}
