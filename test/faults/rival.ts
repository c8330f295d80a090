/**
 * One of two Carryovers that save the same file: `rival.js FILE FOLDER NAME SAVES`. It saves over what it knows,
 * reads again where it is told that another was quicker, and prints what came of each save.
 */
import { DiskTrouble } from '../../electron/disk/disk-trouble';
import { tripFiles } from '../../electron/trip-files';

export interface RivalOutcome {
  /** Each save that was acknowledged: the one it went over, and its own stamp. */
  readonly saves: readonly { readonly over: string; readonly savedAt: string }[];
  /** How often another was quicker. */
  readonly overtaken: number;
  /** Refusals for any other reason, and half trips read. */
  readonly faults: readonly string[];
}

export function rivalText(name: string, number: number): string {
  return JSON.stringify({
    format: 'carryover/trip',
    version: 1,
    title: name,
    number,
    notes: name.repeat(20_000),
  });
}

/** Saves a shared file so many times, from a data folder of its own. */
export async function rival(
  path: string,
  folder: string,
  name: string,
  count: number,
): Promise<RivalOutcome> {
  const trips = tripFiles({
    folder,
    recent: { list: () => [path], remember: () => {}, forget: () => {} },
  });
  const saves: { over: string; savedAt: string }[] = [];
  const faults: string[] = [];
  let overtaken = 0;
  let known = await trips.openAt(path);
  // One after the other is the point: each save stands on the one before.
  /* oxlint-disable no-await-in-loop */
  for (let number = 0; saves.length < count && faults.length === 0; number += 1) {
    try {
      const { savedAt } = await trips.write(known.token, rivalText(name, number), name, known.savedAt);
      saves.push({ over: known.savedAt, savedAt });
      known = { ...known, savedAt };
    } catch (error) {
      const trouble = error instanceof DiskTrouble ? error.trouble : { kind: 'fault', what: String(error) };
      if (trouble.kind === 'changed') overtaken += 1;
      else faults.push(`${trouble.kind}: ${trouble.what}`);
      known = await trips.openAt(path);
      const { notes, title } = JSON.parse(known.text) as { notes?: string; title: string };
      if (notes !== title.repeat(20_000)) faults.push(`half a trip of ${known.text.length} letters was read`);
    }
  }
  /* oxlint-enable no-await-in-loop */
  return { saves, overtaken, faults };
}
