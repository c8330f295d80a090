/**
 * Past saves of each trip, one file a save in a folder a trip. The name bears when it was saved and
 * what it weighs, `2027-03-06T07-30-00-123Z-<digest>`, so that a damaged one betrays itself.
 */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import type { TripVersion } from '../core/host';
import { TRIP_EXTENSION, versionsToKeep } from '../core/library';
import { writeAtomically } from './disk/atomic-write';
import { makeFolder, namesIn, readWhole, stampOf, type FileSystem } from './disk/disk';
import { DiskTrouble } from './disk/disk-trouble';

const NAME = /^(\d{4}-\d\d-\d\dT\d\d-\d\d-\d\d-\d{3}Z)-([0-9a-f]{32})$/;

/** No clock of today says so: a damaged name, and every save after it would have to bear a later time. */
const NO_TIME_AFTER = '2200-01-01T00:00:00.000Z';

interface Named {
  readonly version: string;
  readonly savedAt: string;
  readonly digest: string;
}

export interface VersionStore {
  /** Newest first; what stands among them and is none says so. */
  list(token: string): Promise<readonly TripVersion[]>;
  /** When the newest was saved; undefined where there is none. */
  newest(token: string): Promise<string | undefined>;
  /** The text of a version that is whole; throws a DiskTrouble otherwise. */
  read(token: string, version: string): Promise<string>;
  add(token: string, text: string, savedAt: string): Promise<void>;
  /** Lets go of those that `versionsToKeep` does not keep; failing at it loses nothing. */
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

  /** The names in the folder of a trip that end as a version's does, without that ending. */
  const namesOf = async (token: string): Promise<readonly string[]> => {
    const files = await namesIn(fs, folderOf(token));
    return files
      .filter((file) => file.endsWith(`.${TRIP_EXTENSION}`))
      .map((file) => file.slice(0, -TRIP_EXTENSION.length - 1));
  };

  const named = async (token: string): Promise<readonly Named[]> =>
    (await namesOf(token)).flatMap(parse).toSorted((a, b) => (a.savedAt < b.savedAt ? 1 : -1));

  /** A file among the versions that is none of ours, or whose name was damaged: told, and passed over. */
  const foreign = async (token: string, version: string): Promise<TripVersion> => {
    const savedAt = await fs.stat(fileOf(token, version)).then(stampOf, () => new Date(0).toISOString());
    return { version, savedAt, unreadable: `Its name says no time that it was saved at: ${version}` };
  };

  return {
    list: async (token) => {
      const others = (await namesOf(token)).filter((name) => parse(name).length === 0);
      return [
        ...(await named(token)).map(({ version, savedAt }) => ({ version, savedAt })),
        ...(await Promise.all(others.map((name) => foreign(token, name)))),
      ].toSorted((a, b) => (a.savedAt < b.savedAt ? 1 : -1));
    },

    newest: async (token) => (await named(token))[0]?.savedAt,

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

/** The parts of a version's name; none where it is another name, or says a time that never was. */
function parse(version: string): readonly Named[] {
  const [, time, digest] = NAME.exec(version) ?? [];
  if (time === undefined || digest === undefined) return [];
  const savedAt = time.replace(/T(\d\d)-(\d\d)-(\d\d)-(\d{3})Z$/, 'T$1:$2:$3.$4Z');
  const savedMs = Date.parse(savedAt);
  if (Number.isNaN(savedMs) || new Date(savedMs).toISOString() !== savedAt || savedAt >= NO_TIME_AFTER)
    return [];
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
