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
  /** Puts a file into one of the two; where its name is taken, by one of the same millisecond, under the next. */
  const put = async (into: string, path: string, work: (kept: string) => Promise<void>): Promise<void> => {
    await makeFolder(fs, join(folder, into));
    const time = new Date(nowMs()).toISOString();
    for (let twin = 1; ; twin += 1) {
      const name = datedName(twin === 1 ? time : `${time}-${twin}`, basename(path));
      try {
        // A name is known to be taken only once it was tried.
        // oxlint-disable-next-line no-await-in-loop
        return await work(join(folder, into, name));
      } catch (error) {
        if (codeOf(error) !== 'EEXIST') throw error;
      }
    }
  };
  return {
    setAside: (path) => withWords(path, () => put('set-aside', path, (kept) => copyFlushed(fs, path, kept))),

    toBin: (path) =>
      withWords(path, async () => {
        await put('bin', path, async (kept) => {
          const about = await fs.lstat(path);
          if (about.isFile() || about.isSymbolicLink()) {
            // In the bin first, and known to be there, before it leaves the library: never in neither of the two.
            await intoBin(fs, path, kept, about.isSymbolicLink());
            await fs.rm(path);
          } else {
            await moveIntoBin(fs, path, kept);
          }
        });
        await flushFolder(fs, dirname(path));
      }),
  };
}

/** What is no file, a folder or a pipe: moved, as it can be neither copied nor given a second name. */
async function moveIntoBin(fs: FileSystem, path: string, kept: string): Promise<void> {
  const isFree = await fs.lstat(kept).then(
    () => false,
    () => true,
  );
  // A move would go over what bears the name.
  if (!isFree) throw Object.assign(new Error('the name is taken'), { code: 'EEXIST' });
  await fs.rename(path, kept);
  await flushFolder(fs, dirname(kept));
}

/** A second name of the same file, which a full disk has room for; a copy where a disk knows no such names. */
async function intoBin(fs: FileSystem, path: string, kept: string, isLink: boolean): Promise<void> {
  // Of a link what it leads to is kept: moved away, it might lead nowhere.
  if (isLink) return copyFlushed(fs, path, kept);
  try {
    await fs.link(path, kept);
  } catch (error) {
    if (codeOf(error) === 'ENOENT' || codeOf(error) === 'EEXIST') throw error;
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
