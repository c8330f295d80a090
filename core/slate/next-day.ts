import type { Trip } from '../document/types';
import { divesAhead } from '../ledger/ahead';
import type { WallMin } from '../words/calendar';
import type { SlateKind } from './request';

/**
 * The next diving day: the first one that is neither over nor before today; where all lie behind, the first that is
 * not over, and else the last.
 * @param days diving days in order @param today "2027-03-05" @param done the days that are over
 * @returns null without diving days
 */
export function nextDay(days: readonly string[], today: string, done: readonly string[]): string | null {
  const ahead = days.filter((date) => !done.includes(date));
  return ahead.find((date) => date >= today) ?? ahead[0] ?? days[days.length - 1] ?? null;
}

/** What is printed where no days are named: what is taken along for the day, or what is of the whole trip. */
export function usualDates(kind: SlateKind): 'next' | 'all' {
  return kind === 'trip' || kind === 'depth' || kind === 'guest' ? 'all' : 'next';
}

function dateOf({ startsAt }: Trip['dives'][number]): string {
  return startsAt.slice(0, 10);
}

/** The days none of whose dives is still ahead. @param nowMin wall minutes at the trip's place; null: no clock is known */
export function doneDates(trip: Trip, nowMin: WallMin | null): readonly string[] {
  const ahead = divesAhead(trip, nowMin);
  const left = new Set(trip.dives.filter(({ id }) => ahead.has(id)).map(dateOf));
  return [...new Set(trip.dives.map(dateOf))].filter((date) => !left.has(date));
}
