/**
 * Random histories of trips on a disk that forgets what was not flushed, the power lost at every step of the last
 * thing done; then a new start reads what is left.
 *
 * What it found before: of 14 such histories 9 lost a trip, all for want of a flush: of new folders, of the copy set
 * aside, of the bin.
 */
import { posix } from 'node:path';
import { tripFiles, type TripFiles } from '../../electron/trip-files';
import { dice } from '../faults/rounds';
import { ForgetfulDisk, type DiskModel } from '../support/forgetful-disk';
import type { Attack, Outcome } from './attack';

const FOLDER = '/home/guide/carryover';
const SHARED = '/home/guide/shared';
const PLACES = ['trips', 'set-aside', 'bin'].map((name) => `${FOLDER}/${name}`).concat(SHARED);
/** Outcomes drawn of each loss besides the extremes. */
const DRAWN = 2;

type Deed = 'begin' | 'save' | 'save over theirs' | 'save over damage' | 'save a copy' | 'remove';
const DEEDS: readonly Deed[] = [
  'begin',
  'save',
  'save over theirs',
  'save over damage',
  'save a copy',
  'remove',
];

interface Kept {
  readonly token: string;
  readonly path: string;
  readonly text: string;
}

/** What a person may count on. */
interface Belief {
  /** The last text of each trip that was acknowledged. */
  readonly kept: readonly Kept[];
  /** Texts that must be somewhere, the past saves included: damaged, or another program's. */
  readonly somewhere: readonly string[];
  /** Texts of trips that were removed: in the bin. */
  readonly removed: readonly string[];
}

function tripText(title: string): string {
  return JSON.stringify({ format: 'carryover/trip', version: 1, title });
}

/** A start of the desktop; the file that was saved elsewhere is among its recent ones. */
function startOn(disk: ForgetfulDisk): TripFiles {
  return tripFiles({
    folder: FOLDER,
    recent: { list: () => [`${SHARED}/week.carryover`], remember: () => {}, forget: () => {} },
    fs: disk.fs,
    // Within an hour of the disk's own clock: later ones would thin what others saved long ago.
    nowMs: () => Date.parse('2027-03-01T08:00:30Z'),
  });
}

/** Does one thing, and gives what may be counted on once it was acknowledged. */
async function done(
  deed: Deed,
  title: string,
  trip: Kept | undefined,
  { kept, somewhere, removed }: Belief,
  trips: TripFiles,
): Promise<Belief> {
  const text = tripText(title);
  const others = kept.filter((each) => each.token !== trip?.token);
  if (deed === 'begin' || trip === undefined) {
    const { token } = await trips.write(null, text, title, null);
    return { kept: [...kept, { token, path: (await trips.pathOf(token)) ?? '', text }], somewhere, removed };
  }
  switch (deed) {
    case 'save a copy': {
      const path = `${SHARED}/week.carryover`;
      const { token } = await trips.writeAt(path, text);
      return {
        kept: [...kept.filter((each) => each.token !== token), { token, path, text }],
        somewhere,
        removed,
      };
    }
    case 'remove':
      await trips.remove(trip.token);
      // A file elsewhere is its owner's: it stays where it is.
      if (trip.path.startsWith(SHARED)) return { kept, somewhere, removed };
      return { kept: others, somewhere, removed: [...removed, trip.text] };
    case 'save':
    case 'save over theirs':
    case 'save over damage':
      await trips.write(trip.token, text, title, null);
      return { kept: [...others, { ...trip, text }], somewhere, removed };
  }
}

/** Every text on a disk, the past saves included, also those of removed trips. */
async function textsOn(disk: ForgetfulDisk): Promise<ReadonlySet<string>> {
  const versions = await disk.fs.readdir(`${FOLDER}/versions`).catch(() => []);
  const places = [...PLACES, ...versions.map((token) => `${FOLDER}/versions/${token}`)];
  return new Set(places.flatMap((place) => [...disk.texts(place).values()]));
}

/** What is not as may be counted on; empty where all is. @param before what held before the last thing was begun */
async function missing(disk: ForgetfulDisk, now: Belief, before: Belief): Promise<readonly string[]> {
  const wrong: string[] = [];
  const trips = startOn(disk);
  const texts = await textsOn(disk);
  for (const text of before.somewhere) if (!texts.has(text)) wrong.push(`${text} is nowhere`);
  const inBin = new Set(disk.texts(`${FOLDER}/bin`).values());
  for (const text of before.removed) if (!inBin.has(text)) wrong.push(`${text} is not in the bin`);
  for (const { token, path, text } of before.kept) {
    const later = now.kept.find((each) => each.token === token);
    if (later?.text === text) {
      const read = await trips.read(token).then(
        (stored) => stored.text,
        () => null,
      );
      if (read !== text) wrong.push(`${text} became ${read}`);
    } else {
      // Under way when the power went: the old or the new in its place, or the old on its way to the bin.
      const standing = disk.texts(posix.dirname(path)).get(posix.basename(path));
      const isThere = standing === text || (later === undefined ? inBin.has(text) : standing === later.text);
      if (!isThere || !texts.has(text)) wrong.push(`${text} became ${standing}`);
    }
  }
  return wrong;
}

interface Seen {
  losses: number;
  slowestMs: number;
  readonly fell: string[];
}

/** One history; its last deed loses the power at every step. */
async function history(seed: number, seen: Seen): Promise<void> {
  const random = dice(seed);
  const among = <T>(items: readonly T[]): T | undefined => items[Math.floor(random() * items.length)];
  const model: DiskModel = seed % 2 === 0 ? 'journalled' : 'strict';
  const disk = new ForgetfulDisk(model);
  await disk.fs.mkdir(SHARED, { recursive: true });
  const trips = startOn(disk);
  let belief: Belief = { kept: [], somewhere: [], removed: [] };
  const count = 1 + Math.floor(random() * 6);
  for (let step = 1; step <= count; step += 1) {
    const deed = among(DEEDS) ?? 'save';
    const trip = among(belief.kept);
    let before = belief;
    if (trip && (deed === 'save over theirs' || deed === 'save over damage')) {
      const text = deed === 'save over theirs' ? tripText(`Theirs ${step}`) : `damaged ${step}`;
      disk.put(trip.path, text);
      const kept = belief.kept.map((each) => (each === trip ? { ...each, text } : each));
      // A trip of its own from now on, which the next save may go over and must keep.
      before = { ...belief, kept, somewhere: [...belief.somewhere, text] };
    }
    const left: ForgetfulDisk[] = [];
    if (step === count) disk.onStep = () => void left.push(...disk.afterPowerLoss(random, DRAWN));
    belief = await done(deed, `Trip ${step}`, trip, before, trips);
    disk.onStep = undefined;
    if (step < count) continue;
    const acknowledged = disk.afterPowerLoss(random, DRAWN);
    for (const [after, held] of [
      ...left.map((each) => [each, before] as const),
      ...acknowledged.map((each) => [each, belief] as const),
    ]) {
      const from = performance.now();
      const wrong = await missing(after, belief, held);
      seen.slowestMs = Math.max(seen.slowestMs, performance.now() - from);
      seen.losses += 1;
      if (wrong.length > 0)
        seen.fell.push(`history ${seed}, ${deed} on a ${model} disk: ${wrong.join('; ')}`);
    }
  }
}

async function run(times: number): Promise<Outcome> {
  const seen: Seen = { losses: 0, slowestMs: 0, fell: [] };
  // One history after the other, so that the slowest is the slowest of one.
  // oxlint-disable-next-line no-await-in-loop
  for (let seed = 1; seed <= times; seed += 1) await history(seed, seen);
  return {
    tried: seen.losses,
    told: [
      `${seen.losses} losses in ${times} histories, on a journalled disk and a strict one by turns`,
      `slowest look at what was left ${seen.slowestMs.toFixed(1)} ms`,
    ],
    fell: seen.fell.slice(0, 20),
  };
}

export const powerAttack: Attack = { title: 'Losses of power (disk)', whole: 400, quick: 12, run };
