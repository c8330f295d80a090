/**
 * What both hosts must agree on when they keep trips: how to tell a trip from another file without
 * reading it wholly, how large one may be, and which past saves stay.
 */
import type { HostTrouble } from './host';
import { LARGEST_FILE } from './document/read-trip';
import { textTrouble } from './document/texts';
import { wallMin } from './words/calendar';
import { rounded } from './words/quantity';

/** The bound that reading a trip has, held to before a file is read. */
export const MAX_TRIP_BYTES = LARGEST_FILE;

/** The ending of trip files, without the dot. */
export const TRIP_EXTENSION = 'carryover';

export const TRIP_MEDIA_TYPE = 'application/json';

/** Most saves that stay of the last hour, and for how long one of each hour, then one of each day, does. */
const OF_LAST_HOUR = 10;
const HOURLY_FOR_MIN = 24 * 60;
const DAILY_FOR_MIN = 31 * 24 * 60;

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
  return { ok: true, title: typeof title === 'string' && isShowable(title) ? title : '' };
}

/** Whether a list may show a title: one that no trip can have may be of any length, or steer what shows it. */
function isShowable(title: string): boolean {
  return textTrouble('title', title) === null;
}

/**
 * The saves of one trip that stay, thinned by their age, so that an evening of small edits does not push out
 * this morning's plan: every save of the last hour, at most the ten latest of them; of the 24 h before the newest
 * the last one of each hour; and of a month before it the last one of each day.
 * @param savedAt ISO date-times in UTC, in any order; hours and days are those of UTC
 * @returns those that stay, newest first
 */
export function versionsToKeep(savedAt: readonly string[]): readonly string[] {
  const newestFirst = savedAt.toSorted().toReversed();
  const [newest] = newestFirst;
  if (newest === undefined) return [];
  const kept: string[] = [];
  const spans = new Set<string>();
  for (const [index, save] of newestFirst.entries()) {
    const ageMin = minuteOf(newest) - minuteOf(save);
    const hour = save.slice(0, 13);
    const day = save.slice(0, 10);
    const isLate = index < OF_LAST_HOUR && ageMin < 60;
    const isLastOfHour = ageMin < HOURLY_FOR_MIN && !spans.has(hour);
    const isLastOfDay = ageMin < DAILY_FOR_MIN && !spans.has(day);
    spans.add(hour).add(day);
    if (isLate || isLastOfHour || isLastOfDay) kept.push(save);
  }
  return kept;
}

/** Minutes since 1970 of an ISO date-time in UTC, its seconds left out. */
function minuteOf(isoDateTime: string): number {
  return wallMin(isoDateTime.slice(0, 16));
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
    what: `The file has ${rounded(bytes / 1_000_000, 1, 'up')} MB; a trip has less than ${MAX_TRIP_BYTES / 1_000_000} MB.`,
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
