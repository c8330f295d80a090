/**
 * What both hosts must agree on when they keep trips: how to tell a trip from another file without
 * reading it wholly, how large one may be, and which past saves stay.
 */
import type { HostTrouble } from './host';
import { LARGEST_FILE } from './document/read-trip';

/** The bound that reading a trip has, held to before a file is read. */
export const MAX_TRIP_BYTES = LARGEST_FILE;

/** The ending of trip files, without the dot. */
export const TRIP_EXTENSION = 'carryover';

export const TRIP_MEDIA_TYPE = 'application/json';

/** How many of the latest saves stay, and of how many days before those the last one does. */
const LATEST_KEPT = 10;
const DAYS_KEPT = 10;

export type TripPeek =
  | { readonly ok: true; readonly title: string }
  | { readonly ok: false; readonly reason: string };

/**
 * Tells whether a text is a trip document at all, and its title; `readTrip` alone judges what is in it.
 * @param text the content of a file
 * @returns the title, or the reason why this is no trip
 */
export function peekTrip(text: string): TripPeek {
  if (text.trim() === '') return { ok: false, reason: 'The file is empty.' };
  let document: unknown;
  try {
    document = JSON.parse(text);
  } catch {
    return { ok: false, reason: 'The file is not JSON: it was cut short or damaged, or never was a trip.' };
  }
  if (typeof document !== 'object' || document === null || Array.isArray(document)) {
    return { ok: false, reason: 'The file is JSON, but not a trip.' };
  }
  const { format, title } = document as { format?: unknown; title?: unknown };
  if (format !== 'carryover/trip') return { ok: false, reason: 'The file is JSON, but not a trip.' };
  return { ok: true, title: typeof title === 'string' ? title : '' };
}

/**
 * The saves of one trip that stay: the ten latest, and the last one of each of the ten days before
 * those, so that an evening of small edits does not push out the morning's plan.
 * @param savedAt ISO date-times in UTC, in any order
 * @returns those that stay, newest first
 */
export function versionsToKeep(savedAt: readonly string[]): readonly string[] {
  const newestFirst = savedAt.toSorted().toReversed();
  const kept = newestFirst.slice(0, LATEST_KEPT);
  const days = new Set(kept.map(dayOf));
  let daysMore = 0;
  for (const save of newestFirst.slice(LATEST_KEPT)) {
    if (days.has(dayOf(save))) continue;
    if (daysMore === DAYS_KEPT) break;
    days.add(dayOf(save));
    kept.push(save);
    daysMore += 1;
  }
  return kept;
}

function dayOf(isoDateTime: string): string {
  return isoDateTime.slice(0, 10);
}

/**
 * A file name made of a title: lower-case letters and digits with hyphens, the same on every system.
 * @param title what a person typed
 * @returns at most 48 characters, "trip" where nothing usable is left
 */
export function slugOf(title: string): string {
  const words = title
    .normalize('NFKD')
    .toLowerCase()
    .replace(/\p{M}/gu, '')
    .match(/[a-z0-9]+/g);
  return words?.join('-').slice(0, 48).replace(/-$/, '') ?? 'trip';
}

/** The trouble of a save whose stored trip is no longer the one the window last knew. */
export function changedTrouble(where: string): HostTrouble {
  return {
    kind: 'changed',
    what: 'The stored trip was changed by someone else since this window read it.',
    where,
    mend: 'Open the stored one, or save yours as a copy, or save over it; all past saves stay.',
  };
}

/** The trouble of a text that is no trip, where one was about to be kept as a trip. */
export function noTripTrouble(where: string, reason: string): HostTrouble {
  return {
    kind: 'not-readable',
    what: reason,
    where,
    mend: 'Choose a trip file, or restore an earlier save of this trip; the file stays as it is.',
  };
}

/** The trouble of a text larger than any trip. */
export function tooLargeTrouble(where: string, bytes: number): HostTrouble {
  return {
    kind: 'too-large',
    what: `The file has ${(bytes / 1_000_000).toFixed(1)} MB; a trip has less than ${MAX_TRIP_BYTES / 1_000_000} MB.`,
    where,
    mend: 'Choose a trip file.',
  };
}

/** The trouble of a token that stands for nothing any more. */
export function notFoundTrouble(where: string): HostTrouble {
  return {
    kind: 'not-found',
    what: 'This trip is no longer where it was.',
    where,
    mend: 'Look in the list of trips, or open its file again.',
  };
}
