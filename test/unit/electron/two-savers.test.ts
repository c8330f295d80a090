import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, readdir, rm, utimes, writeFile } from 'node:fs/promises';
import * as fs from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { tripFiles } from '../../../electron/trip-files';
import { agedDisk } from '../../faults/aged-disk';
import { bundled } from '../../faults/bundled';
import { rival, rivalText, type RivalOutcome } from '../../faults/rival';
import { ROUNDS } from '../../faults/rounds';

const none = { list: () => [], remember: () => {}, forget: () => {} };
const SAVES = Math.ceil(ROUNDS / 4);

let folder: string;
let shared: string;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'carryover-two-'));
  await mkdir(join(folder, 'shared'));
  shared = join(folder, 'shared', 'Our week.carryover');
  await writeFile(shared, rivalText('start', 0));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

/** Every save stands on the one before it, whoever made that: none went over one that its saver did not know. */
function expectOneLine(outcomes: readonly RivalOutcome[]): void {
  expect(outcomes.flatMap(({ faults }) => faults)).toEqual([]);
  const saves = outcomes
    .flatMap((outcome) => outcome.saves)
    .toSorted((a, b) => (a.savedAt < b.savedAt ? -1 : 1));
  expect(saves).toHaveLength(SAVES * outcomes.length);
  for (const [index, { savedAt }] of saves.slice(0, -1).entries())
    expect(saves[index + 1]?.over).toBe(savedAt);
}

function say(what: string, outcomes: readonly RivalOutcome[]): void {
  const overtaken = outcomes.reduce((sum, outcome) => sum + outcome.overtaken, 0);
  console.log(`${what}: ${SAVES * outcomes.length} saves, ${overtaken} asked about, no half trip, none lost`);
  // Or nothing was tested: they must have met.
  expect(overtaken).toBeGreaterThan(0);
}

describe('two Carryovers on one file', { timeout: 60_000 + ROUNDS * 500 }, () => {
  it('never see half a trip, and who is late is asked, as of any change by others', async () => {
    const names = ['one', 'two'];
    const outcomes = await Promise.all(names.map((name) => rival(shared, join(folder, name), name, SAVES)));
    expectOneLine(outcomes);
    say('two at once', outcomes);
  });

  it('in processes of their own either', async () => {
    const script = await bundled('rival-process.ts', folder);
    const outcomes = await Promise.all(
      ['one', 'two', 'three'].map(async (name) => {
        const args = [script, shared, join(folder, name), name, String(SAVES)];
        const { stdout } = await promisify(execFile)(process.execPath, args);
        return JSON.parse(stdout) as RivalOutcome;
      }),
    );
    expectOneLine(outcomes);
    say('three processes', outcomes);
  });

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
