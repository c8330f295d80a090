/** Files as other programs, other disks and their owners leave them: kept as they are, told, passed over. */
import { spawnSync } from 'node:child_process';
import * as fs from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { findProgram } from '../../../build/find-browser';
import { DiskTrouble } from '../../../electron/disk/disk-trouble';
import { tripFiles, type TripFiles } from '../../../electron/trip-files';

const none = { list: () => [], remember: () => {}, forget: () => {} };

function tripText(title: string): string {
  return JSON.stringify({ format: 'carryover/trip', version: 1, title });
}

let folder: string;
let elsewhere: string;
let trips: TripFiles;

beforeEach(async () => {
  folder = await fs.mkdtemp(join(tmpdir(), 'carryover-odd-'));
  elsewhere = await fs.mkdtemp(join(tmpdir(), 'carryover-odd-files-'));
  trips = tripFiles({ folder, recent: none });
});
afterEach(async () => {
  await fs.rm(folder, { recursive: true, force: true });
  await fs.rm(elsewhere, { recursive: true, force: true });
});

async function troubleOf(work: Promise<unknown>): Promise<DiskTrouble['trouble']> {
  const outcome = await work.then(
    () => null,
    (error: unknown) => error,
  );
  if (outcome instanceof DiskTrouble) return outcome.trouble;
  throw new Error(`no trouble came, but ${String(outcome)}`);
}

describe('a save keeps what is not text', () => {
  it('follows a link, and leaves it one', async () => {
    const [file, link] = [join(elsewhere, 'week.carryover'), join(elsewhere, 'link.carryover')];
    await fs.mkdir(join(elsewhere, 'deeper'));
    await fs.writeFile(file, tripText('Old'));
    await fs.symlink('../week.carryover', join(elsewhere, 'deeper', 'inner.carryover'));
    await fs.symlink(join('deeper', 'inner.carryover'), link);
    await trips.writeAt(link, tripText('New'));
    expect((await fs.lstat(link)).isSymbolicLink()).toBe(true);
    expect(await fs.readFile(file, 'utf8')).toBe(tripText('New'));
  });

  it('follows a link to nothing yet, and a trip of the library that is one', async () => {
    const target = join(elsewhere, 'not there yet.carryover');
    await fs.symlink(target, join(elsewhere, 'link.carryover'));
    await trips.writeAt(join(elsewhere, 'link.carryover'), tripText('New'));
    expect(await fs.readFile(target, 'utf8')).toBe(tripText('New'));

    await trips.write(null, tripText('Any'), 'Any', null);
    await fs.symlink(target, join(trips.libraryFolder, 'linked.carryover'));
    const token = trips.placeAt(join(trips.libraryFolder, 'linked.carryover')).token;
    await trips.write(token, tripText('Through the library'), 'x', null);
    expect(await fs.readFile(target, 'utf8')).toBe(tripText('Through the library'));
  });

  it('says so where links lead round in a circle', async () => {
    await fs.symlink('b.carryover', join(elsewhere, 'a.carryover'));
    await fs.symlink('a.carryover', join(elsewhere, 'b.carryover'));
    const trouble = await troubleOf(trips.writeAt(join(elsewhere, 'a.carryover'), tripText('x')));
    expect(trouble.kind).toMatch(/^not-/);
  });

  it.each([0o600, 0o640, 0o664, 0o755])('keeps the mode %o', async (mode) => {
    const file = join(elsewhere, 'week.carryover');
    await fs.writeFile(file, tripText('Old'));
    await fs.chmod(file, mode);
    await trips.writeAt(file, tripText('New'));
    expect((await fs.stat(file)).mode & 0o7777).toBe(mode);
  });

  it.skipIf(process.getuid?.() !== 0)(
    'keeps owner and group, where this user may give files away',
    async () => {
      const file = join(elsewhere, 'week.carryover');
      await fs.writeFile(file, tripText('Old'));
      await fs.chown(file, 1234, 5678);
      await trips.writeAt(file, tripText('New'));
      expect(await fs.stat(file)).toMatchObject({ uid: 1234, gid: 5678 });
    },
  );

  it('refuses a read-only file, also from a user who may do anything', async () => {
    const file = join(elsewhere, 'week.carryover');
    await fs.writeFile(file, tripText('Closed'));
    await fs.chmod(file, 0o444);
    const trouble = await troubleOf(trips.writeAt(file, tripText('New')));
    expect(trouble).toMatchObject({ kind: 'not-writable', what: 'The file is read-only.', where: file });
    expect(await fs.readFile(file, 'utf8')).toBe(tripText('Closed'));
    expect(await fs.readdir(elsewhere)).toEqual(['week.carryover']);
  });

  it('removes a link from the library, and leaves what it leads to', async () => {
    await trips.write(null, tripText('Any'), 'Any', null);
    const target = join(elsewhere, 'week.carryover');
    await fs.writeFile(target, tripText('Theirs'));
    const link = join(trips.libraryFolder, 'linked.carryover');
    await fs.symlink(target, link);
    await trips.remove(trips.placeAt(link).token);
    expect(await fs.readFile(target, 'utf8')).toBe(tripText('Theirs'));
    const [kept = ''] = await fs.readdir(join(folder, 'bin'));
    expect(await fs.readFile(join(folder, 'bin', kept), 'utf8')).toBe(tripText('Theirs'));
  });
});

describe('names', () => {
  it.each([247, 248, 250, 255])(
    'of %i bytes are saved, set aside and removed as any other',
    async (bytes) => {
      await trips.write(null, tripText('Any'), 'Any', null);
      const name = `${'\u00e4'.repeat((bytes - 11) >> 1)}${(bytes - 11) % 2 === 1 ? 'x' : ''}.carryover`;
      const path = join(
        trips.libraryFolder,
        name.padStart(name.length + (bytes - Buffer.byteLength(name)), 'y'),
      );
      expect(Buffer.byteLength(path.slice(trips.libraryFolder.length + 1))).toBe(bytes);
      await fs.writeFile(path, tripText('Long'));
      const { token } = trips.placeAt(path);
      await trips.write(token, tripText('Longer'), 'x', null);
      expect((await trips.read(token)).text).toBe(tripText('Longer'));
      await fs.writeFile(path, 'damaged');
      await trips.write(token, tripText('Again'), 'x', null);
      expect(await fs.readdir(join(folder, 'set-aside'))).toHaveLength(1);
      await trips.remove(token);
      const [kept = ''] = await fs.readdir(join(folder, 'bin'));
      expect(kept.endsWith('.carryover')).toBe(true);
      expect(await fs.readFile(join(folder, 'bin', kept), 'utf8')).toBe(tripText('Again'));
    },
  );

  it('longer than the disk allows are told as that', async () => {
    const trouble = await troubleOf(
      trips.writeAt(join(elsewhere, `${'x'.repeat(300)}.carryover`), tripText('x')),
    );
    expect(trouble.what).toBe('The name is longer than the disk allows.');
  });

  it.skipIf(process.platform !== 'linux')('that are not UTF-8 are told, and passed over', async () => {
    const { token } = await trips.write(null, tripText('Mine'), 'Mine', null);
    const name = Buffer.concat([
      Buffer.from(`${trips.libraryFolder}/W\u00f6che `),
      Buffer.from([0xe4, 0xff]),
      Buffer.from('.carryover'),
    ]);
    await fs.writeFile(name, tripText('Theirs'));
    const listed = await trips.list();
    expect(listed).toHaveLength(2);
    expect(listed[0]).toMatchObject({ token, title: 'Mine' });
    expect(listed[1]).toMatchObject({ unreadable: expect.stringContaining('not text in UTF-8') });
    expect(await fs.readFile(name, 'utf8')).toBe(tripText('Theirs'));
  });
});

describe('what is no file', () => {
  it.skipIf(findProgram('mkfifo') === null)(
    'a pipe in the library is told, and nobody waits for it',
    async () => {
      const { token } = await trips.write(null, tripText('Mine'), 'Mine', null);
      const pipe = join(trips.libraryFolder, 'pipe.carryover');
      expect(spawnSync('mkfifo', [pipe]).status).toBe(0);
      const listed = await trips.list();
      expect(listed).toHaveLength(2);
      expect(listed.find((each) => each.token !== token)?.unreadable).toContain('pipe or a device');
      const pipeToken = trips.placeAt(pipe).token;
      expect((await troubleOf(trips.read(pipeToken))).what).toContain('pipe or a device');
      expect((await troubleOf(trips.write(pipeToken, tripText('x'), 'x', null))).kind).toBe('not-writable');
      await trips.remove(pipeToken);
      expect(await trips.list()).toHaveLength(1);
    },
  );

  it.skipIf(process.platform === 'win32')(
    'a link to a device is told, and nothing is written to it',
    async () => {
      const link = join(elsewhere, 'endless.carryover');
      await fs.symlink('/dev/zero', link);
      expect((await troubleOf(trips.openAt(link))).what).toContain('pipe or a device');
      expect((await troubleOf(trips.writeAt(link, tripText('x')))).what).toContain('pipe or a device');
    },
  );
});

describe('times that cannot be', () => {
  const digest = '0'.repeat(32);

  it.each([
    '2027-13-45T99-99-99-999Z',
    '2027-02-30T10-00-00-000Z',
    '0000-00-00T00-00-00-000Z',
    '9999-12-31T23-59-59-999Z',
  ])('in the name of a past save block no save: %s', async (time) => {
    const { token } = await trips.write(null, tripText('One'), 'One', null);
    const versions = join(folder, 'versions', token);
    await fs.writeFile(join(versions, `${time}-${digest}.carryover`), tripText('Planted'));
    for (const title of ['Two', 'Three']) await trips.write(token, tripText(title), title, null);
    expect((await trips.read(token)).text).toBe(tripText('Three'));
    const texts = await Promise.all(
      (await trips.versions(token)).map(({ version }) =>
        trips.version(token, version).catch(() => 'damaged'),
      ),
    );
    expect(texts).toEqual(expect.arrayContaining([tripText('Three'), tripText('Two')]));
  });

  it.each([-5_000, 253_402_300_900, 1e12])('on a file block neither list nor save: %i s', async (seconds) => {
    const { token } = await trips.write(null, tripText('One'), 'One', null);
    const [name = ''] = (await fs.readdir(trips.libraryFolder)).filter((each) => !each.startsWith('.'));
    await fs.utimes(join(trips.libraryFolder, name), seconds, seconds);
    // Not every disk can hold such a time; the next best is as good.
    const [listed] = await trips.list();
    expect(listed).toMatchObject({ token, title: 'One' });
    const second = await trips.write(token, tripText('Two'), 'Two', listed?.savedAt ?? null);
    const third = await trips.write(token, tripText('Three'), 'Three', second.savedAt);
    expect((await trips.read(token)).text).toBe(tripText('Three'));
    expect(third.savedAt).not.toBe(second.savedAt);
  });
});

describe('two of one name that leave in the same millisecond', () => {
  const atOneMoment = (): TripFiles =>
    tripFiles({ folder, recent: none, nowMs: () => Date.parse('2027-03-06T07:30:00.000Z') });

  async function textsKept(into: string): Promise<readonly string[]> {
    const names = await fs.readdir(join(folder, into));
    return Promise.all(names.toSorted().map((name) => fs.readFile(join(folder, into, name), 'utf8')));
  }

  it('both stay in the bin', async () => {
    const removing = atOneMoment();
    const path = join(removing.libraryFolder, 'week.carryover');
    await fs.mkdir(removing.libraryFolder, { recursive: true });
    for (const text of ['One', 'Two', 'Three']) {
      await fs.writeFile(path, tripText(text));
      await removing.remove(removing.placeAt(path).token);
    }
    expect((await textsKept('bin')).toSorted()).toEqual(['One', 'Three', 'Two'].map(tripText));
  });

  it('both are set aside', async () => {
    const saving = atOneMoment();
    const path = join(elsewhere, 'week.carryover');
    for (const text of ['damaged', 'damaged again']) {
      await fs.writeFile(path, text);
      await saving.writeAt(path, tripText('Mine'));
    }
    expect((await textsKept('set-aside')).toSorted()).toEqual(['damaged', 'damaged again']);
  });

  it('both stay in the bin where they are folders', async () => {
    const removing = atOneMoment();
    const path = join(removing.libraryFolder, 'week.carryover');
    for (const text of ['one', 'two']) {
      await fs.mkdir(path, { recursive: true });
      await fs.writeFile(join(path, text), text);
      await removing.remove(removing.placeAt(path).token);
    }
    const kept = await fs.readdir(join(folder, 'bin'), { recursive: true });
    expect(kept.filter((name) => /(one|two)$/.test(name))).toHaveLength(2);
  });
});
