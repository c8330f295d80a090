import * as fs from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { TripChange } from '../../../core/host';
import { tripFiles } from '../../../electron/trip-files';
import { watchTripFiles, type TripWatch } from '../../../electron/trip-watch';
import { saveOutside } from '../../support/save-outside';

const none = { list: () => [] as string[], remember: () => {}, forget: () => {} };

function tripText(title: string): string {
  return JSON.stringify({ format: 'carryover/trip', version: 1, title });
}

let folder: string;
let elsewhere: string;
let watch: TripWatch | undefined;
let changes: TripChange[];
const listen = (change: TripChange): void => void changes.push(change);

beforeEach(async () => {
  folder = await fs.mkdtemp(join(tmpdir(), 'carryover-watch-'));
  elsewhere = await fs.mkdtemp(join(tmpdir(), 'carryover-watch-files-'));
  changes = [];
});
afterEach(async () => {
  watch?.close();
  await fs.rm(folder, { recursive: true, force: true });
  await fs.rm(elsewhere, { recursive: true, force: true });
});

async function told(token: string): Promise<void> {
  await vi.waitFor(() => expect(changes).toEqual([{ token, kind: 'changed' }]), { timeout: 5000 });
}

describe('watchTripFiles', () => {
  it('says nothing of a save of our own whose flush outlasts the watch', async () => {
    let isSlow = false;
    /** A disk that takes its time to flush a folder: other writers keep it busy. */
    const busy = {
      ...fs,
      open: async (...args: Parameters<typeof fs.open>) => {
        const file = await fs.open(...args);
        if (!isSlow || String(args[0]) !== join(folder, 'trips')) return file;
        const sync = async (): Promise<void> => {
          await new Promise((done) => setTimeout(done, 1000));
          await file.sync();
        };
        return new Proxy(file, {
          get: (target, name) => {
            if (name === 'sync') return sync;
            const member: unknown = Reflect.get(target, name);
            return typeof member === 'function' ? member.bind(target) : member;
          },
        });
      },
    } as unknown as typeof fs;
    const trips = tripFiles({ folder, recent: none, fs: busy });
    const { token, savedAt } = await trips.write(null, tripText('One'), 'One', null);
    watch = await watchTripFiles(trips, listen);
    isSlow = true;
    await trips.write(token, tripText('Two'), 'Two', savedAt);
    expect(changes).toEqual([]);
    // Another's change comes through afterwards: had ours been told, it would be there by now.
    await saveOutside(trips.placeAt(await trips.pathOf(token).then(String)).path, tripText('Theirs'));
    await told(token);
  });

  it('takes a save that took its place and could not be flushed for our own, in watch and guard', async () => {
    let isBroken = false;
    const breaking = {
      ...fs,
      open: async (...args: Parameters<typeof fs.open>) => {
        if (isBroken && String(args[0]) === join(folder, 'trips'))
          throw Object.assign(new Error('EIO'), { code: 'EIO' });
        return fs.open(...args);
      },
    } as unknown as typeof fs;
    const trips = tripFiles({ folder, recent: none, fs: breaking });
    const { token, savedAt } = await trips.write(null, tripText('One'), 'One', null);
    watch = await watchTripFiles(trips, listen);
    isBroken = true;
    for (const title of ['Two', 'Three']) {
      await expect(trips.write(token, tripText(title), title, savedAt)).rejects.toThrow(
        /could not be written/,
      );
    }
    isBroken = false;
    const kept = await trips.write(token, tripText('Four'), 'Four', savedAt);
    expect((await trips.read(token)).text).toBe(tripText('Four'));
    expect(changes).toEqual([]);
    // Somebody else's is asked about all the same.
    await saveOutside(String(await trips.pathOf(token)), tripText('Theirs'));
    await told(token);
    await expect(trips.write(token, tripText('Five'), 'Five', kept.savedAt)).rejects.toThrow(
      /by someone else/,
    );
  });

  it('watches what a link leads to, under the name of the link', async () => {
    const trips = tripFiles({ folder, recent: none });
    await fs.mkdir(join(elsewhere, 'deep'));
    const [target, link] = [join(elsewhere, 'deep', 'week.carryover'), join(elsewhere, 'link.carryover')];
    await fs.writeFile(target, tripText('One'));
    await fs.symlink(target, link);
    watch = await watchTripFiles(trips, listen);
    const { token } = await trips.openAt(link);
    await watch.alsoFile(link);
    await saveOutside(target, tripText('Theirs'));
    await told(token);
  });
});
