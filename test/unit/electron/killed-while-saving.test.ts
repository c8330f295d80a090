import { spawn } from 'node:child_process';
import { mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { tripFiles } from '../../../electron/trip-files';
import { agedDisk } from '../../faults/aged-disk';
import { bundled } from '../../faults/bundled';
import { dice, ROUNDS } from '../../faults/rounds';

/** Each starts a process, which takes as long as a dozen saves. */
const KILLS = Math.ceil(ROUNDS / 4);
const none = { list: () => [], remember: () => {}, forget: () => {} };
const tripText = (number: number): string =>
  JSON.stringify({ format: 'carryover/trip', version: 1, title: 'Killed', number });
const numberIn = (text: string): number => (JSON.parse(text) as { number: number }).number;

/**
 * Lets the saver save, kills it amid the save after so many, and returns the last number it acknowledged. When
 * amid it goes by how long its saves took: a disk may be busy with others'.
 */
function killWhileSaving(
  saver: string,
  args: readonly string[],
  saves: number,
  share: number,
): Promise<number | null> {
  const child = spawn(process.execPath, [saver, ...args], { stdio: ['ignore', 'pipe', 'inherit'] });
  let output = '';
  let lastMs = 0;
  child.stdout.on('data', (chunk: Buffer) => {
    output += chunk.toString();
    const nowMs = performance.now();
    const saveMs = lastMs === 0 ? 40 : nowMs - lastMs;
    lastMs = nowMs;
    if (output.split('\n').length - 2 >= saves) setTimeout(() => child.kill('SIGKILL'), share * saveMs);
  });
  return new Promise((resolve) => {
    child.once('exit', () => {
      // The last line may have been cut off by the kill; a whole one ends with its line break.
      const acknowledged = output.split('\n').slice(1, -1).map(Number);
      resolve(acknowledged.at(-1) ?? null);
    });
  });
}

describe('a process killed while it saves', () => {
  it(
    `leaves every trip whole and at most the last edit missing, ${KILLS} times`,
    async () => {
      const folder = await mkdtemp(join(tmpdir(), 'carryover-killed-'));
      const saver = await bundled('saver.ts', folder);
      const trips = tripFiles({ folder, recent: none });
      const { token } = await trips.write(null, tripText(0), 'Killed', null);
      const random = dice(19);
      let last = 0;
      let acknowledgedSaves = 0;
      let caughtMidSave = 0;
      let leftBefore = 0;
      for (let round = 0; round < KILLS; round += 1) {
        const acknowledged = await killWhileSaving(
          saver,
          [folder, token, String(last + 1)],
          round % 3,
          random(),
        );
        const left = (await readdir(trips.libraryFolder)).filter((name) => name.endsWith('.saving'));
        if (left.length > leftBefore) caughtMidSave += 1;
        leftBefore = left.length;
        const { text, changedOutside } = await trips.read(token);
        const stored = numberIn(text);
        // What was acknowledged is there; the save under way may or may not have come through.
        const floor = acknowledged ?? last;
        expect(stored === floor || stored === floor + 1, `${stored} after ${floor}`).toBe(true);
        expect(changedOutside).toBeUndefined();
        for (const { version } of await trips.versions(token)) {
          expect(numberIn(await trips.version(token, version))).toBeLessThanOrEqual(floor + 1);
        }
        acknowledgedSaves += stored - last;
        last = stored;
      }
      // Or nothing was tested: the kills must have come amid saves.
      expect(acknowledgedSaves).toBeGreaterThan(KILLS / 10);
      expect(caughtMidSave).toBeGreaterThan(0);
      console.log(
        `killed ${KILLS} times over ${acknowledgedSaves} saves, ${caughtMidSave} amid a write: none lost`,
      );
      // Once nobody can be at them any more, what the kills left beside the trips and their versions is swept.
      const later = tripFiles({ folder, recent: none, fs: agedDisk() });
      await later.write(token, tripText(last + 1), 'Killed', null);
      const versions = join(folder, 'versions', token);
      const names = [...(await readdir(trips.libraryFolder)), ...(await readdir(versions))];
      expect(names.filter((name) => name.startsWith('.'))).toEqual([]);
      await rm(folder, { recursive: true });
    },
    KILLS * 6000,
  );
});
