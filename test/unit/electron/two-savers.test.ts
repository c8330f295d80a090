import { mkdir, mkdtemp, readdir, rm, utimes, writeFile } from 'node:fs/promises';
import * as fs from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { tripFiles } from '../../../electron/trip-files';
import { agedDisk } from '../../faults/aged-disk';
import { rival, rivalText } from '../../faults/rival';

const none = { list: () => [], remember: () => {}, forget: () => {} };

let folder: string;
let shared: string;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'carryover-two-'));
  await mkdir(join(folder, 'shared'));
  shared = join(folder, 'shared', 'Our week.carryover');
  await writeFile(shared, rivalText('start', 0));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

describe('two Carryovers on one file', () => {
  // That they never see half a trip, and none is saved over unseen: test/attack/disk-rivals.ts.
  it('leave nothing beside the file', async () => {
    await Promise.all(['one', 'two'].map((name) => rival(shared, join(folder, name), name, 3)));
    expect(await readdir(join(folder, 'shared'))).toEqual(['Our week.carryover']);
  });
});

describe('what a killed save left beside a file', () => {
  const left = '.carryover-0123456789abcdef.saving';

  it('stays while another may be at it, and is swept once nobody can', async () => {
    const trips = tripFiles({ folder: join(folder, 'mine'), recent: none });
    const trip = await trips.writeAt(shared, rivalText('mine', 1));
    await writeFile(join(folder, 'shared', left), 'half');
    await trips.writeAt(shared, rivalText('mine', 2));
    expect(await readdir(join(folder, 'shared'))).toContain(left);

    const later = tripFiles({ folder: join(folder, 'mine'), recent: none, fs: agedDisk() });
    await later.writeAt(shared, rivalText('mine', 3));
    expect(await readdir(join(folder, 'shared'))).toEqual(['Our week.carryover']);
    expect(trip.home).toBe('file');
  });

  it('is not what a person keeps under a name like it', async () => {
    const mine = [
      '.carryover-notes.saving',
      'carryover-0123456789abcdef.saving',
      '.Our week.carryover.saving',
    ];
    const long = new Date(Date.now() - 10_000_000);
    for (const name of mine) {
      await writeFile(join(folder, 'shared', name), 'mine');
      await utimes(join(folder, 'shared', name), long, long);
    }
    const trips = tripFiles({
      folder: join(folder, 'mine'),
      recent: none,
      fs: agedDisk(),
    });
    await trips.writeAt(shared, rivalText('mine', 1));
    expect((await readdir(join(folder, 'shared'))).toSorted()).toEqual(
      [...mine, 'Our week.carryover'].toSorted(),
    );
  });

  it('as a turn that nobody ends holds the next save up for ten seconds, not for ever', async () => {
    const trips = tripFiles({ folder: join(folder, 'mine'), recent: none });
    let turn = '';
    // A process that is killed in its turn never takes its name away.
    const killed = {
      ...fs,
      rename: async (from: string, to: string) => {
        if (to === shared) {
          const names = await readdir(join(folder, 'shared'));
          turn = names.find((name) => name.endsWith('.turn')) ?? '';
          throw Object.assign(new Error('EIO'), { code: 'EIO' });
        }
        return fs.rename(from, to);
      },
      rm: async (path: string, options: object) =>
        path.endsWith('.turn') ? undefined : fs.rm(path, options),
    } as unknown as typeof fs;
    const broken = tripFiles({ folder: join(folder, 'broken'), recent: none, fs: killed });
    await expect(broken.writeAt(shared, rivalText('broken', 1))).rejects.toThrow();
    expect(turn).not.toBe('');
    expect(await readdir(join(folder, 'shared'))).toContain(turn);
    vi.useFakeTimers({ toFake: ['setTimeout', 'Date'] });
    try {
      const startedMs = Date.now();
      const progress = { isSaved: false };
      const save = trips.writeAt(shared, rivalText('mine', 1)).then(() => (progress.isSaved = true));
      while (!progress.isSaved) {
        if (vi.getTimerCount() > 0) await vi.advanceTimersToNextTimerAsync();
        // The disk is the real one, and answers when it does.
        else await new Promise((done) => setImmediate(done));
      }
      await save;
      expect(Date.now() - startedMs).toBeGreaterThanOrEqual(10_000);
      expect(Date.now() - startedMs).toBeLessThan(11_000);
    } finally {
      vi.useRealTimers();
    }
    expect(await readdir(join(folder, 'shared'))).toEqual(['Our week.carryover']);
  });
});
