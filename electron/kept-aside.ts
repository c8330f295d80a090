/** The bin and the set-aside folder: where what leaves its place is kept, whole whatever happens meanwhile. */
import { basename, dirname, extname, join } from 'node:path';
import { copyFlushed, flushFolder, makeFolder, type FileSystem } from './disk/disk';
import { codeOf, DiskTrouble, writeTrouble } from './disk/disk-trouble';

/** What a name may weigh on every disk of today. */
const NAME_BYTES = 255;

export interface KeptAside {
  /** Copies a file that is no trip out of the way of a save; it stays where it is as well. */
  setAside(path: string): Promise<void>;
  /** Moves a trip to the bin. */
  toBin(path: string): Promise<void>;
}

/** The two folders under a user's data folder, made when the first file comes. */
export function keptAside(fs: FileSystem, folder: string, nowMs: () => number): KeptAside {
  const placeIn = async (name: string, path: string): Promise<string> => {
    await makeFolder(fs, join(folder, name));
    return join(folder, name, datedName(new Date(nowMs()).toISOString(), basename(path)));
  };
  return {
    setAside: async (path) => {
      const aside = await placeIn('set-aside', path);
      await withWords(path, () => copyFlushed(fs, path, aside));
    },

    toBin: async (path) => {
      const kept = await placeIn('bin', path);
      await withWords(path, async () => {
        const about = await fs.lstat(path);
        if (about.isFile() || about.isSymbolicLink()) {
          // In the bin first, and known to be there, before it leaves the library: never in neither of the two.
          await intoBin(fs, path, kept, about.isSymbolicLink());
          await fs.rm(path);
        } else {
          await fs.rename(path, kept);
          await flushFolder(fs, dirname(kept));
        }
        await flushFolder(fs, dirname(path));
      });
    },
  };
}

/** A second name of the same file, which a full disk has room for; a copy where a disk knows no such names. */
async function intoBin(fs: FileSystem, path: string, kept: string, isLink: boolean): Promise<void> {
  // Of a link what it leads to is kept: moved away, it might lead nowhere.
  if (isLink) return copyFlushed(fs, path, kept);
  try {
    await fs.link(path, kept);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') throw error;
    return copyFlushed(fs, path, kept);
  }
  await flushFolder(fs, dirname(kept));
}

/** A name with the time in front, cut in its middle where the two together are longer than a disk allows. */
function datedName(time: string, name: string): string {
  const ending = extname(name);
  const front = `${time.replace(/[:.]/g, '-')}-`;
  const letters = Array.from(name.slice(0, name.length - ending.length));
  while (Buffer.byteLength(`${front}${letters.join('')}${ending}`) > NAME_BYTES && letters.length > 0)
    letters.pop();
  return `${front}${letters.join('')}${ending}`;
}

async function withWords(path: string, work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (error) {
    throw error instanceof DiskTrouble ? error : new DiskTrouble(writeTrouble(error, path, 0));
  }
}
