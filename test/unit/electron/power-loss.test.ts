/**
 * Power is lost at every step of everything the desktop does to trips, on a disk that forgets what was not
 * flushed; then the same functions read what is left.
 */
import { afterAll, describe, expect, it } from 'vitest';
import { tripFiles, type TripFiles } from '../../../electron/trip-files';
import { dice, ROUNDS } from '../../faults/rounds';
import { ForgetfulDisk, type DiskModel } from '../../support/forgetful-disk';

const none = { list: () => [], remember: () => {}, forget: () => {} };
const FOLDER = '/home/guide/carryover';
const DRAWN = Math.ceil((4 * ROUNDS) / 25);

function tripText(title: string): string {
  return JSON.stringify({ format: 'carryover/trip', version: 1, title });
}

let losses = 0;
afterAll(() => console.log(`power lost in ${losses} ways: nothing acknowledged was lost`));

/** The trips of a disk, as a start after the loss finds them. */
function tripsOn(disk: ForgetfulDisk): TripFiles {
  return tripFiles({
    folder: FOLDER,
    recent: none,
    fs: disk.fs,
    nowMs: () => Date.parse('2027-03-01T09:00:00Z'),
  });
}

/** Does the work, and holds `check` to what is left wherever the power fails; `isDone` once it was acknowledged. */
async function losingPower(
  disk: ForgetfulDisk,
  work: () => Promise<unknown>,
  check: (after: ForgetfulDisk, isDone: boolean) => Promise<void>,
): Promise<void> {
  const random = dice(17);
  const left: ForgetfulDisk[] = [...disk.afterPowerLoss(random, DRAWN)];
  disk.onStep = () => void left.push(...disk.afterPowerLoss(random, DRAWN));
  await work();
  disk.onStep = undefined;
  const acknowledged = disk.afterPowerLoss(random, DRAWN);
  losses += left.length + acknowledged.length;
  for (const after of left) await check(after, false);
  for (const after of acknowledged) await check(after, true);
}

/** Every text of the trip that can still be had: the file, and its past saves. */
async function textsOf(disk: ForgetfulDisk, token: string): Promise<readonly string[]> {
  const trips = tripsOn(disk);
  const stored = await trips.read(token).catch(() => null);
  const versions = await trips.versions(token);
  const past = await Promise.all(
    versions.map(({ version }) => trips.version(token, version).catch(() => 'damaged')),
  );
  return [...(stored === null ? [] : [stored.text]), ...past];
}

describe.each<DiskModel>(['journalled', 'strict'])('power lost on a %s disk', (model) => {
  const start = async (): Promise<{ disk: ForgetfulDisk; trips: TripFiles }> => {
    const disk = new ForgetfulDisk(model);
    return { disk, trips: tripsOn(disk) };
  };

  it('in the first save of all leaves it whole once it was acknowledged', async () => {
    const { disk, trips } = await start();
    let token = '';
    await losingPower(
      disk,
      async () => ({ token } = await trips.write(null, tripText('First'), 'First', null)),
      async (after, isDone) => {
        const listed = await tripsOn(after).list();
        for (const each of listed) expect(each).not.toHaveProperty('unreadable');
        if (isDone) expect(await textsOf(after, token)).toEqual([tripText('First'), tripText('First')]);
      },
    );
  });

  it('in a save leaves the old trip or the new one, and the new once it was acknowledged', async () => {
    const { disk, trips } = await start();
    const { token } = await trips.write(null, tripText('Old'), 'Old', null);
    await losingPower(
      disk,
      () => trips.write(token, tripText('New'), 'New', null),
      async (after, isDone) => {
        const { text, changedOutside } = await tripsOn(after).read(token);
        expect(isDone ? [tripText('New')] : [tripText('Old'), tripText('New')]).toContain(text);
        expect(changedOutside).toBeUndefined();
        expect(await textsOf(after, token)).toContain(tripText('Old'));
      },
    );
  });

  it('in a save over a file that is no trip leaves that file in its place or set aside', async () => {
    const { disk, trips } = await start();
    const { token } = await trips.write(null, tripText('Old'), 'Old', null);
    const [name = ''] = disk.texts(`${FOLDER}/trips`).keys();
    disk.put(`${FOLDER}/trips/${name}`, 'damaged');
    await losingPower(
      disk,
      () => trips.write(token, tripText('New'), 'New', null),
      async (after, isDone) => {
        const places = [
          ...after.texts(`${FOLDER}/trips`).values(),
          ...after.texts(`${FOLDER}/set-aside`).values(),
        ];
        expect(places).toContain('damaged');
        if (isDone) expect(places).toContain(tripText('New'));
      },
    );
  });

  it('in a save over what another program left keeps theirs in its place or among the past saves', async () => {
    const { disk, trips } = await start();
    const { token } = await trips.write(null, tripText('Old'), 'Old', null);
    const [name = ''] = disk.texts(`${FOLDER}/trips`).keys();
    disk.put(`${FOLDER}/trips/${name}`, tripText('Theirs'));
    await losingPower(
      disk,
      () => trips.write(token, tripText('New'), 'New', null),
      async (after, isDone) => {
        const texts = await textsOf(after, token);
        expect(texts).toContain(tripText('Theirs'));
        if (isDone) expect(texts).toContain(tripText('New'));
      },
    );
  });

  it('in a removal leaves the trip in the library or in the bin', async () => {
    const { disk, trips } = await start();
    const { token } = await trips.write(null, tripText('Removed'), 'Removed', null);
    await losingPower(
      disk,
      () => trips.remove(token),
      async (after, isDone) => {
        const inBin = [...after.texts(`${FOLDER}/bin`).values()];
        const inLibrary = [...after.texts(`${FOLDER}/trips`).values()];
        expect([...inBin, ...inLibrary]).toContain(tripText('Removed'));
        if (isDone) {
          expect(inBin).toEqual([tripText('Removed')]);
          expect(inLibrary).toEqual([]);
        }
      },
    );
  });

  it('while past saves are thinned leaves every one that is to stay', async () => {
    const { disk, trips } = await start();
    const { token } = await trips.write(null, tripText('Save 0'), 'Save', null);
    for (let save = 1; save < 10; save += 1) await trips.write(token, tripText(`Save ${save}`), 'Save', null);
    await losingPower(
      disk,
      () => trips.write(token, tripText('Save 10'), 'Save', null),
      async (after, isDone) => {
        const texts = await textsOf(after, token);
        const least = Array.from({ length: 9 }, (_, index) => tripText(`Save ${index + 1}`));
        expect(texts).toEqual(expect.arrayContaining(isDone ? [...least, tripText('Save 10')] : least));
      },
    );
  });

  it('in a save after an earlier start made the folders and was killed before it flushed them', async () => {
    const { disk, trips } = await start();
    await disk.fs.mkdir(`${FOLDER}/trips`, { recursive: true });
    let token = '';
    await losingPower(
      disk,
      async () => ({ token } = await trips.write(null, tripText('First'), 'First', null)),
      async (after, isDone) => {
        if (isDone) expect(await textsOf(after, token)).toContain(tripText('First'));
      },
    );
  });
});
