/**
 * What the list of trips says of each file. A file is read for it once and not again until it has changed, one after
 * the other: a library may hold more than memory does.
 */
import { createHash } from 'node:crypto';
import type { Stats } from 'node:fs';
import { basename } from 'node:path';
import type { TripSummary } from '../core/host';
import { peekTrip } from '../core/library';
import { readWhole, stampOf, type FileSystem } from './disk/disk';
import { DiskTrouble } from './disk/disk-trouble';
import type { TripPlace } from './trip-places';

/** Lists what stands at places; what is gone is left out. */
export type ListTrips = (places: readonly TripPlace[]) => Promise<readonly TripSummary[]>;

interface Known {
  readonly mark: string;
  readonly summary: TripSummary;
}

/** Any write changes it, also one that puts the old time back. */
function markOf({ ino, size, mtimeMs, ctimeMs }: Stats): string {
  return `${ino} ${size} ${mtimeMs} ${ctimeMs}`;
}

/** Summaries of files, those of the last list remembered. */
export function tripSummaries(fs: FileSystem): ListTrips {
  let known: ReadonlyMap<string, Known> = new Map();
  return async (places) => {
    const now = new Map<string, Known>();
    const summaries: TripSummary[] = [];
    for (const place of places) {
      // One text at a time.
      /* oxlint-disable no-await-in-loop */
      const mark = await fs.stat(place.path).then(markOf, () => null);
      const before = known.get(place.path);
      const summary = mark !== null && before?.mark === mark ? before.summary : await summaryOf(fs, place);
      /* oxlint-enable no-await-in-loop */
      if (summary === null) continue;
      summaries.push(summary);
      if (mark !== null) now.set(place.path, { mark, summary });
    }
    known = now;
    return summaries;
  };
}

async function summaryOf(fs: FileSystem, { token, home, path }: TripPlace): Promise<TripSummary | null> {
  try {
    const { text, savedAt } = await readWhole(fs, path);
    const peek = peekTrip(text);
    return peek.ok
      ? { token, home, savedAt, title: peek.title || basename(path) }
      : { token, home, savedAt, title: basename(path), unreadable: peek.reason };
  } catch (error) {
    if (!(error instanceof DiskTrouble)) throw error;
    if (error.trouble.kind === 'not-found') return null;
    const savedAt = await fs.stat(path).then(stampOf, () => new Date(0).toISOString());
    return { token, home, savedAt, title: basename(path), unreadable: error.trouble.what };
  }
}

/** A file of the library whose name no text can be given for: told, and passed over. */
export function unnamedSummary(name: Buffer): TripSummary {
  return {
    token: `library-${createHash('sha256').update(name).digest('hex').slice(0, 32)}`,
    home: 'library',
    savedAt: new Date(0).toISOString(),
    title: name.toString('utf8'),
    unreadable: 'The name of the file is not text in UTF-8. Give it another name.',
  };
}
