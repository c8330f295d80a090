/**
 * Past saves of each trip, one file a save in a folder a trip. The name bears when it was saved and
 * what it weighs, `2027-03-06T07-30-00-123Z-<digest>`, so that a damaged one betrays itself.
 */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import type { TripVersion } from '../core/host';
import { TRIP_EXTENSION, versionsToKeep } from '../core/library';
import { DiskTrouble, makeFolder, namesIn, readWhole, writeAtomically, type FileSystem } from './disk';

const NAME = /^(\d{4}-\d\d-\d\dT\d\d-\d\d-\d\d-\d{3}Z)-([0-9a-f]{32})$/;

interface Named {
  readonly version: string;
  readonly savedAt: string;
  readonly digest: string;
}

export interface VersionStore {
  /** Newest first. */
  list(token: string): Promise<readonly TripVersion[]>;
  /** The text of a version that is whole; throws a DiskTrouble otherwise. */
  read(token: string, version: string): Promise<string>;
  add(token: string, text: string, savedAt: string): Promise<void>;
  /** Lets go of those past the ten latest and the ten days before; failing at it loses nothing. */
  prune(token: string): Promise<void>;
  /** Whether this very text is one that was saved; undefined where no save of the trip is known. */
  knows(token: string, text: string): Promise<boolean | undefined>;
}

/** The first 32 hexadecimal digits of a text's SHA-256. */
export function digestOf(text: string): string {
  return createHash('sha256').update(text).digest('hex').slice(0, 32);
}

/** The store under a folder, which is made when the first version comes. */
export function versionStore(fs: FileSystem, folder: string): VersionStore {
  const folderOf = (token: string): string => join(folder, token);
  const fileOf = (token: string, version: string): string =>
    join(folderOf(token), `${version}.${TRIP_EXTENSION}`);

  const named = async (token: string): Promise<readonly Named[]> => {
    const files = await namesIn(fs, folderOf(token));
    return files
      .filter((file) => file.endsWith(`.${TRIP_EXTENSION}`))
      .flatMap((file) => parse(file.slice(0, -TRIP_EXTENSION.length - 1)))
      .toSorted((a, b) => (a.savedAt < b.savedAt ? 1 : -1));
  };

  return {
    list: async (token) => (await named(token)).map(({ version, savedAt }) => ({ version, savedAt })),

    read: async (token, version) => {
      const [name] = parse(version);
      if (name === undefined) throw new DiskTrouble(noSuchVersion(version));
      const { text } = await readWhole(fs, fileOf(token, version));
      if (digestOf(text) !== name.digest) throw new DiskTrouble(damagedVersion(fileOf(token, version)));
      return text;
    },

    add: async (token, text, savedAt) => {
      await makeFolder(fs, folderOf(token));
      const version = `${savedAt.replace(/[:.]/g, '-')}-${digestOf(text)}`;
      await writeAtomically(fs, { path: fileOf(token, version), content: text, nowMs: Date.parse(savedAt) });
    },

    prune: async (token) => {
      const all = await named(token);
      const kept = new Set(versionsToKeep(all.map(({ savedAt }) => savedAt)));
      for (const { version, savedAt } of all) {
        if (!kept.has(savedAt)) await fs.rm(fileOf(token, version), { force: true });
      }
    },

    knows: async (token, text) => {
      const all = await named(token);
      return all.length === 0 ? undefined : all.some(({ digest }) => digest === digestOf(text));
    },
  };
}

function parse(version: string): readonly Named[] {
  const [, time, digest] = NAME.exec(version) ?? [];
  if (time === undefined || digest === undefined) return [];
  const savedAt = time.replace(/T(\d\d)-(\d\d)-(\d\d)-(\d{3})Z$/, 'T$1:$2:$3.$4Z');
  return [{ version, savedAt, digest }];
}

function noSuchVersion(version: string) {
  return {
    kind: 'not-found',
    what: 'There is no such earlier save.',
    where: version,
    mend: 'Choose one from the list of earlier saves.',
  } as const;
}

function damagedVersion(path: string) {
  return {
    kind: 'not-readable',
    what: 'This earlier save was damaged on the disk; it is not what was saved.',
    where: path,
    mend: 'Choose another of the earlier saves; this one is left as it is.',
  } as const;
}
