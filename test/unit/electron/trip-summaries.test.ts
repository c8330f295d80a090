import * as fs from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { FileSystem } from '../../../electron/disk/disk';
import { tripFiles, type TripFiles } from '../../../electron/trip-files';

let folder: string;
let trips: TripFiles;
/** Files opened so far, and how many at a time. */
let opened: string[];
let mostAtOnce: number;

function tripText(title: string): string {
  return JSON.stringify({ format: 'carryover/trip', version: 1, title });
}

/** The real disk, which counts the files that are open. */
function countingDisk(): FileSystem {
  let atOnce = 0;
  const open = async (...args: Parameters<typeof fs.open>) => {
    const file = await fs.open(...args);
    opened.push(String(args[0]));
    atOnce += 1;
    mostAtOnce = Math.max(mostAtOnce, atOnce);
    const close = file.close.bind(file);
    file.close = async () => {
      atOnce -= 1;
      await close();
    };
    return file;
  };
  return { ...fs, open } as unknown as FileSystem;
}

beforeEach(async () => {
  folder = await fs.mkdtemp(join(tmpdir(), 'carryover-list-'));
  const none = { list: () => [], remember: () => {}, forget: () => {} };
  await fs.mkdir(join(folder, 'trips'));
  for (const name of ['a', 'b', 'c'])
    await fs.writeFile(join(folder, 'trips', `${name}.carryover`), tripText(name));
  trips = tripFiles({ folder, recent: none, fs: countingDisk() });
  [opened, mostAtOnce] = [[], 0];
});
afterEach(() => fs.rm(folder, { recursive: true }));

const titles = async (): Promise<readonly string[]> =>
  (await trips.list()).map(({ title }) => title).toSorted();

describe('the list of trips', () => {
  it('reads each file once, one after the other', async () => {
    expect(await titles()).toEqual(['a', 'b', 'c']);
    expect(await titles()).toEqual(['a', 'b', 'c']);
    expect(opened).toHaveLength(3);
    expect(mostAtOnce).toBe(1);
  });

  it('reads a file again that was written, also where its old time was put back', async () => {
    const path = join(folder, 'trips', 'b.carryover');
    await titles();
    const { atime, mtime } = await fs.stat(path);
    await fs.writeFile(path, tripText('x'));
    await fs.utimes(path, atime, mtime);
    opened = [];
    expect(await titles()).toEqual(['a', 'c', 'x']);
    expect(opened).toEqual([path]);
  });

  it('forgets a file that is gone, and knows one that is new', async () => {
    await titles();
    await fs.rm(join(folder, 'trips', 'a.carryover'));
    await fs.writeFile(join(folder, 'trips', 'd.carryover'), tripText('d'));
    expect(await titles()).toEqual(['b', 'c', 'd']);
  });
});
