/**
 * A process that saves over and over, killed amid a save; then the next start reads what is left.
 *
 * What it found before: in 700 kills nothing acknowledged was lost, but what killed saves left among the past saves
 * stayed there for ever.
 */
import { spawn } from 'node:child_process';
import { mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { tripFiles } from '../../electron/trip-files';
import { agedDisk } from '../faults/aged-disk';
import { bundled } from '../faults/bundled';
import { dice } from '../faults/rounds';
import type { Attack, Outcome } from './attack';

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
    // Not at its end: what it wrote last may come after that.
    child.once('close', () => {
      // The last line may have been cut off by the kill; a whole one ends with its line break.
      const acknowledged = output.split('\n').slice(1, -1).map(Number);
      resolve(acknowledged.at(-1) ?? null);
    });
  });
}

async function run(times: number): Promise<Outcome> {
  const folder = await mkdtemp(join(tmpdir(), 'carryover-killed-'));
  const saver = await bundled('saver.ts', folder);
  const trips = tripFiles({ folder, recent: none });
  const { token } = await trips.write(null, tripText(0), 'Killed', null);
  const random = dice(19);
  const fell: string[] = [];
  let last = 0;
  let acknowledgedSaves = 0;
  let caughtMidSave = 0;
  let leftBefore = 0;
  let slowestMs = 0;
  // One process after the other: each goes on from what the one before left.
  /* oxlint-disable no-await-in-loop */
  // Where the machine is slow, the few kills of a short run may all fall between two saves: it goes on until one does not.
  const isTested = (): boolean => caughtMidSave > 0 && acknowledgedSaves > times / 10;
  let kills = 0;
  for (; kills < times || (!isTested() && kills < 20 * times); kills += 1) {
    const acknowledged = await killWhileSaving(saver, [folder, token, String(last + 1)], kills % 3, random());
    const left = (await readdir(trips.libraryFolder)).filter((name) => name.endsWith('.saving'));
    if (left.length > leftBefore) caughtMidSave += 1;
    leftBefore = left.length;
    const from = performance.now();
    const { text, changedOutside } = await trips.read(token);
    slowestMs = Math.max(slowestMs, performance.now() - from);
    const stored = numberIn(text);
    // What was acknowledged is there; the save under way may or may not have come through.
    const floor = acknowledged ?? last;
    if (stored !== floor && stored !== floor + 1) fell.push(`${stored} stands there after ${floor}`);
    if (changedOutside !== undefined) fell.push(`${stored} is taken for another's`);
    for (const { version } of await trips.versions(token)) {
      if (numberIn(await trips.version(token, version)) > floor + 1) fell.push(`a past save after ${floor}`);
    }
    acknowledgedSaves += stored - last;
    last = stored;
  }
  // Or nothing was tested: the kills must have come amid saves.
  if (acknowledgedSaves <= times / 10) fell.push(`only ${acknowledgedSaves} saves went before the kills`);
  if (caughtMidSave === 0) fell.push('no kill came amid a save');
  // Once nobody can be at them any more, what the kills left beside the trips and their versions is swept.
  const later = tripFiles({ folder, recent: none, fs: agedDisk() });
  await later.write(token, tripText(last + 1), 'Killed', null);
  /* oxlint-enable no-await-in-loop */
  const names = [
    ...(await readdir(trips.libraryFolder)),
    ...(await readdir(join(folder, 'versions', token))),
  ];
  const stays = names.filter((name) => name.startsWith('.'));
  if (stays.length > 0) fell.push(`left for ever: ${stays.join(', ')}`);
  await rm(folder, { recursive: true });
  return {
    tried: kills,
    told: [
      `killed ${kills} times over ${acknowledgedSaves} saves, ${caughtMidSave} amid a write`,
      `slowest read afterwards ${slowestMs.toFixed(0)} ms`,
    ],
    fell,
  };
}

export const killAttack: Attack = { title: 'Random kills (disk)', whole: 700, quick: 12, run };
