/**
 * Everything the desktop does to trips on the real disk, each call of the system refused in turn, a write having
 * written half: what was there is there, and who asked is told in words.
 *
 * What it found before: in 586 kills and refused calls no acknowledged save was lost; a first save that was refused
 * late left a trip of which the window had no token, and would have made a second.
 */
import * as fs from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DiskTrouble } from '../../electron/disk/disk-trouble';
import { tripFiles, type TripFiles } from '../../electron/trip-files';
import { failingAt } from '../faults/failing-disk';
import { dice } from '../faults/rounds';
import type { Attack, Outcome } from './attack';

const CODES = ['ENOSPC', 'EDQUOT', 'EACCES', 'EROFS', 'EIO', 'EMFILE', 'ENOENT'] as const;
const DEEDS = ['begin', 'save', 'save over damage', 'save a copy', 'remove', 'list', 'read'] as const;
type Deed = (typeof DEEDS)[number];

const none = { list: () => [], remember: () => {}, forget: () => {} };

function tripText(title: string): string {
  return JSON.stringify({ format: 'carryover/trip', version: 1, title, notes: title.repeat(50) });
}

const [OLD, NEW, DAMAGED] = [tripText('Old'), tripText('New'), 'damaged'] as const;

/** Every text below a folder. */
async function textsIn(folder: string): Promise<ReadonlySet<string>> {
  const names = await fs.readdir(folder, { recursive: true, withFileTypes: true }).catch(() => []);
  const files = names.filter((each) => each.isFile());
  return new Set(
    await Promise.all(files.map((each) => fs.readFile(join(each.parentPath, each.name), 'utf8'))),
  );
}

function work(deed: Deed, trips: TripFiles, token: string, folder: string): Promise<unknown> {
  switch (deed) {
    case 'begin':
      return trips.write(null, NEW, 'New', null);
    case 'save':
    case 'save over damage':
      return trips.write(token, NEW, 'New', null);
    case 'save a copy':
      return trips.writeAt(join(folder, 'copy.carryover'), NEW);
    case 'remove':
      return trips.remove(token);
    case 'list':
      return trips.list();
    case 'read':
      return trips.read(token);
  }
}

/** What is wrong after a call was refused; empty where nothing is. */
async function faultsAfter(deed: Deed, outcome: unknown, folder: string): Promise<readonly string[]> {
  const texts = await textsIn(folder);
  const wrong: string[] = [];
  if (outcome instanceof DiskTrouble) {
    const { what, where, mend } = outcome.trouble;
    if (![what, where, mend].every((each) => each !== '') || /undefined|\n +at /.test(what))
      wrong.push(`said "${what}"`);
  } else if (outcome instanceof Error) wrong.push(`threw ${outcome.stack}`);
  const isDone = !(outcome instanceof Error);
  if (!texts.has(OLD)) wrong.push('the trip is nowhere');
  // Past saves are a second net, and not where a removed trip is looked for.
  const [inLibrary, inBin] = await Promise.all(['trips', 'bin'].map((name) => textsIn(join(folder, name))));
  if (deed === 'remove' && !inLibrary!.has(OLD) && !inBin!.has(OLD))
    wrong.push('the trip is in neither place');
  if (deed === 'save over damage' && !texts.has(DAMAGED)) wrong.push('the damaged file is nowhere');
  const isSave = deed === 'begin' || deed.startsWith('save');
  if (isDone && isSave && !texts.has(NEW)) wrong.push('a save that was acknowledged is nowhere');
  return wrong;
}

async function run(times: number): Promise<Outcome> {
  const random = dice(23);
  const seen = { refused: 0, told: 0, slowestMs: 0 };
  const fell: string[] = [];
  const whole = await fs.mkdtemp(join(tmpdir(), 'carryover-errors-'));
  // One after the other, in a folder of its own: each needs the disk as the one before never was.
  /* oxlint-disable no-await-in-loop */
  for (let turn = 0; seen.refused < times; turn += 1) {
    const deed = DEEDS[turn % DEEDS.length]!;
    const code = CODES[Math.floor(random() * CODES.length)]!;
    for (let step = 1; seen.refused < times; step += 1) {
      const folder = join(whole, `${turn}-${step}`);
      const before = tripFiles({ folder, recent: none });
      const { token } = await before.write(null, OLD, 'Old', null);
      const path = (await before.pathOf(token)) ?? '';
      if (deed === 'save over damage') await fs.writeFile(path, DAMAGED);
      const { system, hasFailed } = failingAt(step, code);
      const from = performance.now();
      const outcome = await work(deed, tripFiles({ folder, recent: none, fs: system }), token, folder).catch(
        (error: unknown) => error,
      );
      seen.slowestMs = Math.max(seen.slowestMs, performance.now() - from);
      // Past the last call of this deed.
      if (!hasFailed()) break;
      seen.refused += 1;
      if (outcome instanceof DiskTrouble) seen.told += 1;
      for (const each of await faultsAfter(deed, outcome, folder))
        fell.push(`${deed}, call ${step} refused by ${code}: ${each}`);
      await fs.rm(folder, { recursive: true });
    }
  }
  /* oxlint-enable no-await-in-loop */
  await fs.rm(whole, { recursive: true });
  return {
    tried: seen.refused,
    told: [
      `${seen.refused} calls of the system refused, of which ${seen.told} were told and the others got over`,
      `slowest ${seen.slowestMs.toFixed(0)} ms`,
    ],
    fell: fell.slice(0, 20),
  };
}

export const errorAttack: Attack = { title: 'Errors of single calls (disk)', whole: 1200, quick: 120, run };
