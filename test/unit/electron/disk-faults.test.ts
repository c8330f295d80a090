import * as fs from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { DiskTrouble } from '../../../electron/disk/disk-trouble';
import { tripFiles, type TripFiles } from '../../../electron/trip-files';
import { failingAt } from '../../faults/failing-disk';
import { dice, ROUNDS } from '../../faults/rounds';
import { closeDisk, MAY_MOUNT, mountDisk, unmountDisk } from '../../support/own-disk';

const none = { list: () => [], remember: () => {}, forget: () => {} };
const SLOW_MS = 60_000 + ROUNDS * 200;

function tripText(title: string): string {
  return JSON.stringify({
    format: 'carryover/trip',
    version: 1,
    title,
    dives: [{ depthM: 18.5, bottomMin: 42 }],
  });
}

let folder: string;
let trips: TripFiles;

beforeEach(async () => {
  folder = await fs.mkdtemp(join(tmpdir(), 'carryover-faults-'));
  trips = tripFiles({ folder, recent: none });
});
afterEach(() => fs.rm(folder, { recursive: true, force: true }));

/** The trouble that a piece of work ends in; where it ends well, or in anything else, the test fails. */
async function troubleOf(work: Promise<unknown>): Promise<DiskTrouble['trouble']> {
  try {
    await work;
  } catch (error) {
    if (error instanceof DiskTrouble) return error.trouble;
    throw error;
  }
  throw new Error('no trouble came');
}

/** The file of the only trip there is. */
async function onlyFile(): Promise<string> {
  const [name = ''] = (await fs.readdir(trips.libraryFolder)).filter((each) => !each.startsWith('.'));
  return join(trips.libraryFolder, name);
}

describe('a save of which any one step fails', () => {
  it.each([
    ['the disk is full', 'ENOSPC', 'full'],
    ['the quota is used up', 'EDQUOT', 'full'],
    ['the folder may not be written to', 'EACCES', 'not-writable'],
    ['the disk is mounted read-only', 'EROFS', 'not-writable'],
    ['the disk breaks', 'EIO', 'not-writable'],
  ])('says so where %s, and leaves the old trip or the new one, whole', async (_what, code, kind) => {
    const { token, savedAt } = await trips.write(null, tripText('Old'), 'Old', null);
    let failures = 0;
    for (let step = 1; ; step += 1) {
      const { system, hasFailed } = failingAt(step, code);
      const broken = tripFiles({ folder, recent: none, fs: system });
      const outcome = await broken
        .write(token, tripText('New'), 'New', null)
        .catch((error: unknown) => error);
      // Past the last step: this save went through, and every step before it has failed once.
      if (!hasFailed()) break;
      failures += 1;
      if (outcome instanceof Error) {
        expect(outcome, `step ${step}`).toBeInstanceOf(DiskTrouble);
        const { trouble } = outcome as DiskTrouble;
        expect([kind, 'not-readable']).toContain(trouble.kind);
        expect(trouble.where).toContain(folder);
        expect(trouble.mend).toMatch(/^[A-Z].*\.$/);
      }
      const left = await fs.readdir(trips.libraryFolder);
      expect(
        left.filter((name) => name.endsWith('.turn')),
        `step ${step}`,
      ).toEqual([]);
      const stored = await trips.read(token);
      expect([tripText('Old'), tripText('New')]).toContain(stored.text);
      expect(stored.changedOutside).toBeUndefined();
      const texts = await Promise.all(
        (await trips.versions(token)).map(({ version }) => trips.version(token, version)),
      );
      expect(texts).toContain(stored.text);
      if (stored.text !== tripText('Old')) await trips.write(token, tripText('Old'), 'Old', null);
    }
    expect(failures).toBeGreaterThan(15);
    expect((await trips.read(token)).text).toBe(tripText('New'));
    expect((await trips.read(token)).savedAt > savedAt).toBe(true);
  });
});

describe('a real disk that is full, or read-only', () => {
  // Where none may be mounted the failing file system above stands for it.
  it.skipIf(!MAY_MOUNT)(
    `refuses saves by "full" and loses nothing, ${ROUNDS} times`,
    async () => {
      mountDisk(folder, 'size=512k');
      try {
        const random = dice(7);
        const { token } = await trips.write(null, tripText('Start'), 'Start', null);
        let [stored, refusals] = [tripText('Start'), 0];
        for (let round = 0; round < ROUNDS; round += 1) {
          const text = tripText('x'.repeat(Math.floor(random() * 400_000)));
          const outcome = await trips.write(token, text, 'Large', null).catch((error: unknown) => error);
          if (outcome instanceof Error) {
            expect((outcome as DiskTrouble).trouble.kind).toBe('full');
            refusals += 1;
          } else {
            stored = text;
          }
          expect((await trips.read(token)).text).toBe(stored);
        }
        expect(refusals).toBeGreaterThan(ROUNDS / 10);
      } finally {
        unmountDisk(folder);
      }
    },
    SLOW_MS,
  );

  it.skipIf(!MAY_MOUNT)('refuses saves by "not-writable" where it was made read-only', async () => {
    mountDisk(folder, 'size=512k');
    try {
      const { token } = await trips.write(null, tripText('Start'), 'Start', null);
      closeDisk(folder);
      const trouble = await troubleOf(trips.write(token, tripText('New'), 'New', null));
      expect(trouble).toMatchObject({ kind: 'not-writable', what: expect.stringContaining('does not let') });
      expect((await trips.read(token)).text).toBe(tripText('Start'));
    } finally {
      unmountDisk(folder);
    }
  });
});

describe('a file where a folder should be', () => {
  it.each(['trips', 'versions'])('is named and left alone: %s', async (name) => {
    await fs.writeFile(join(folder, name), 'mine');
    const trouble = await troubleOf(trips.write(null, tripText('New'), 'New', null));
    expect(trouble).toMatchObject({ what: 'A file stands where the folder should be.' });
    expect(trouble.where).toContain(join(folder, name));
    expect(await fs.readFile(join(folder, name), 'utf8')).toBe('mine');
  });

  it.each(['bin', 'set-aside'])('stops what would go there, and nothing is lost: %s', async (name) => {
    const { token } = await trips.write(null, tripText('Mine'), 'Mine', null);
    await fs.writeFile(join(folder, name), 'mine');
    if (name === 'set-aside') await fs.writeFile(await onlyFile(), 'damaged');
    const work = name === 'bin' ? trips.remove(token) : trips.write(token, tripText('New'), 'New', null);
    expect((await troubleOf(work)).what).toBe('A file stands where the folder should be.');
    expect(await fs.readFile(await onlyFile(), 'utf8')).toBe(name === 'bin' ? tripText('Mine') : 'damaged');
  });

  it('and a folder where a file should be are told apart', async () => {
    const { token } = await trips.write(null, tripText('Mine'), 'Mine', null);
    const file = await onlyFile();
    await fs.rm(file);
    await fs.mkdir(file);
    expect((await troubleOf(trips.read(token))).what).toBe('There is a folder where a file should be.');
    expect(await trips.list()).toMatchObject([{ unreadable: 'There is a folder where a file should be.' }]);
  });
});

describe('a damaged trip file', () => {
  const whole = tripText('Whole');

  /** Damages the stored file, and holds what a person then meets to the promise. */
  async function meets(damaged: Buffer): Promise<'refused' | 'told'> {
    const { token } = await trips.write(null, whole, 'Whole', null);
    const file = await onlyFile();
    await fs.writeFile(file, damaged);
    const [summary] = await trips.list();
    const outcome = await trips.read(token).catch((error: unknown) => error);
    const versions = await trips.versions(token);
    expect(await trips.version(token, versions[0]?.version ?? '')).toBe(whole);
    // The next save keeps the damaged file aside, byte for byte, or as a version where it still is a trip.
    await trips.write(token, tripText('Next'), 'Next', null);
    const aside = await fs.readdir(join(folder, 'set-aside')).catch(() => [] as string[]);
    if (outcome instanceof Error) {
      expect((outcome as DiskTrouble).trouble.kind).toBe('not-readable');
      expect(summary?.unreadable).toMatch(/^The file /);
      expect(aside).toHaveLength(1);
      expect(await fs.readFile(join(folder, 'set-aside', aside[0] ?? ''))).toEqual(damaged);
    } else {
      expect(outcome).toMatchObject({ changedOutside: true });
      const texts = await Promise.all(
        (await trips.versions(token)).map(({ version }) => trips.version(token, version)),
      );
      expect(texts).toContain(damaged.toString('utf8'));
    }
    await fs.rm(folder, { recursive: true });
    return outcome instanceof Error ? 'refused' : 'told';
  }

  it(
    `that was cut short is refused and kept aside, ${ROUNDS} times`,
    async () => {
      const random = dice(11);
      for (let round = 0; round < ROUNDS; round += 1) {
        expect(await meets(Buffer.from(whole).subarray(0, Math.floor(random() * whole.length)))).toBe(
          'refused',
        );
      }
    },
    SLOW_MS,
  );

  it(
    `with one bit turned is never taken for what was saved, ${ROUNDS} times`,
    async () => {
      const random = dice(13);
      const seen = { refused: 0, told: 0 };
      for (let round = 0; round < ROUNDS; round += 1) {
        const damaged = Buffer.from(whole);
        const at = Math.floor(random() * damaged.length);
        damaged[at] = (damaged[at] ?? 0) ^ (1 << Math.floor(random() * 8));
        seen[await meets(damaged)] += 1;
      }
      // Both happen: a broken bracket is no trip any more, a turned digit still is one.
      expect(seen.refused).toBeGreaterThan(0);
      expect(seen.told).toBeGreaterThan(0);
    },
    SLOW_MS,
  );

  it('among the versions is refused, not handed out', async () => {
    const { token } = await trips.write(null, whole, 'Whole', null);
    const versions = join(folder, 'versions', token);
    const [name = ''] = await fs.readdir(versions);
    await fs.writeFile(join(versions, name), whole.replace('18.5', '18.7'));
    const [version] = await trips.versions(token);
    expect(await troubleOf(trips.version(token, version?.version ?? ''))).toMatchObject({
      kind: 'not-readable',
      what: expect.stringContaining('damaged'),
    });
  });
});

describe('names from outside', () => {
  it.each(['../../etc', 'library-../x', '/etc/passwd', '', `library-${'g'.repeat(32)}`])(
    'lead nowhere as a token: %s',
    async (token) => {
      for (const work of [
        () => trips.read(token),
        () => trips.remove(token),
        () => trips.write(token, tripText('x'), 'x', null),
        () => trips.versions(token),
      ]) {
        expect((await troubleOf(work())).kind).toBe('not-found');
      }
    },
  );

  it('lead nowhere as a version', async () => {
    const { token } = await trips.write(null, tripText('x'), 'x', null);
    expect((await troubleOf(trips.version(token, '../../../secret'))).kind).toBe('not-found');
  });
});
