import { wallDate, wallMin, type WallTime } from '../words/calendar';
import type { Site } from '../document/types';

/** Surface time between the dives of a day, minutes. Source: common practice; the cautions ask for as much. */
export const INTERVAL_MIN = 60;

/** A dive is worth the way down from this on; a shallower one is sought before a shorter. Source: common practice. */
export const SHORTEST_MIN = 20;

/** The last dive by day has so long before the hour ahead of a night dive, or is left out. Source: own choice. */
const LAST_BEFORE_NIGHT_MIN = 45;

/** More diving days than this in a row have a day of rest among them. Source: common practice, as the caution's. */
const LONG_RUN_DAYS = 6;

/** From so many diving days on, the first and the last are easier than the others. Source: common practice. */
const EASY_ENDS_FROM_DAYS = 3;

const DAY_MIN = 1440;

/** On which evenings there is a night dive. */
export type NightOn = 'once' | 'every other' | 'every';

/** What decides on which days there are dives, and when. */
export interface DaysAsked {
  /** The day of arrival, "2027-03-06". */
  readonly firstDay: string;
  readonly nights: number;
  /** Times of day at which dives start, "07:30". */
  readonly times: readonly string[];
  readonly night: { readonly time: string; readonly on: NightOn } | null;
  /** Whether more than six diving days in a row are parted by days of rest. */
  readonly rests: boolean;
}

/** A place for a dive. */
export interface Slot {
  readonly startsAt: WallTime;
  readonly isNight: boolean;
}

/** A day and its places for dives. */
export interface DraftDay {
  readonly date: string;
  /** First or last of the trip: one dive less, and none at the deepest sites. */
  readonly isEasy: boolean;
  readonly slots: readonly Slot[];
}

/** A time of day that follows another too soon for a dive. */
export interface TooSoon {
  readonly time: string;
  readonly after: string;
}

/** The days of a trip with what was decided of them. */
export interface DraftDays {
  readonly days: readonly DraftDay[];
  readonly rests: readonly string[];
  readonly tooSoon: readonly TooSoon[];
}

function minuteOfDay(time: string): number {
  const [hour = 0, minute = 0] = time.split(':').map(Number);
  return hour * 60 + minute;
}

/** Times of day with room for a dive and an hour at the surface in between; the others, and what they follow. */
function usableTimes(times: readonly string[]): {
  readonly used: readonly string[];
  readonly tooSoon: readonly TooSoon[];
} {
  const used: string[] = [];
  const tooSoon: TooSoon[] = [];
  for (const time of times.toSorted()) {
    const after = used[used.length - 1];
    if (after === undefined || areApart(after, time)) used.push(time);
    else tooSoon.push({ time, after });
  }
  return { used, tooSoon };
}

function areApart(time: string, later: string, diveMin = SHORTEST_MIN): boolean {
  return minuteOfDay(later) - minuteOfDay(time) >= diveMin + INTERVAL_MIN;
}

/** The days of arrival and departure are left free where there are two nights or more. */
function datesOf(firstDay: string, nights: number): readonly string[] {
  const first = wallMin(`${firstDay}T00:00`);
  const from = nights >= 2 ? 1 : 0;
  const days = nights >= 2 ? nights - 1 : 1;
  return Array.from({ length: days }, (_, day) => wallDate(first + (from + day) * DAY_MIN));
}

/** Numbers of the days of rest: as few as leave no run longer than six days, evenly spread. */
function restsAmong(days: number): ReadonlySet<number> {
  let rests = 0;
  while (Math.ceil((days - rests) / (rests + 1)) > LONG_RUN_DAYS) rests += 1;
  const run = (days - rests) / (rests + 1);
  return new Set(Array.from({ length: rests }, (_, at) => Math.floor(run * (at + 1)) + at));
}

function hasNight(on: NightOn, day: number, days: number): boolean {
  if (on === 'every') return true;
  return on === 'once' ? day === Math.floor((days - 1) / 2) : day % 2 === 1;
}

/**
 * On which days there are dives, and at what times: one less on the first and last day, a night dive where asked and
 * not on those two, days of rest on long trips.
 * @param asked with dates and times that exist
 * @returns days in order, each with at least one place
 * Source: common practice.
 */
export function draftDays(asked: DaysAsked): DraftDays {
  const dates = datesOf(asked.firstDay, asked.nights);
  const resting = asked.rests ? restsAmong(dates.length) : new Set<number>();
  const diving = dates.filter((_, day) => !resting.has(day));
  const { used, tooSoon } = usableTimes(asked.times);
  const days = diving.map((date, day): DraftDay => {
    const isEnd = day === 0 || day === diving.length - 1;
    const isEasy = isEnd && diving.length >= EASY_ENDS_FROM_DAYS && used.length > 1;
    const { night } = asked;
    const isNightOn =
      night !== null &&
      (!isEnd || diving.length < EASY_ENDS_FROM_DAYS) &&
      hasNight(night.on, day, diving.length);
    const byDay = used.slice(0, isEasy ? -1 : undefined);
    const kept = isNightOn
      ? byDay.filter((time) => areApart(time, night.time, LAST_BEFORE_NIGHT_MIN))
      : byDay;
    const at = (time: string, isNight: boolean): Slot => ({ startsAt: `${date}T${time}`, isNight });
    return {
      date,
      isEasy,
      slots: [...kept.map((time) => at(time, false)), ...(isNightOn ? [at(night.time, true)] : [])],
    };
  });
  return { days, rests: dates.filter((_, day) => resting.has(day)), tooSoon };
}

/** How often a site is dived so far, and on which day last. */
export interface Uses {
  readonly count: number;
  readonly lastDay: number;
}

/** What is known when the site of a dive is chosen. */
export interface SiteChoice {
  readonly deepestFirst: readonly Site[];
  /** Which dive of its day, from 0, of how many; an easy day begins one class shallower. */
  readonly at: number;
  readonly of: number;
  /** Position of the site dived before on that day; -1 for the first. */
  readonly before: number;
  readonly uses: ReadonlyMap<string, Uses>;
}

/**
 * The site of a dive: of its class of depth the one that was dived least often, of those alike the longest ago. Sites
 * fall into as many overlapping classes as there are dives in a day, and each dive of a day takes a shallower site
 * than the one before, while there are enough.
 * @returns position in `deepestFirst`
 * Source: this project's own.
 */
export function chosenSite({ deepestFirst, at, of, before, uses }: SiteChoice): number {
  const count = deepestFirst.length;
  const from = Math.min(count - 1, Math.floor((at * count) / of));
  if (count < of) return Math.max(from, before);
  const to = Math.ceil(((at + 1) * count) / of) - 1;
  const lowest = Math.max(from, before + 1);
  // Enough must be left for the dives still to come.
  const highest = Math.max(lowest, Math.min(to, count - (of - at)));
  let best = Math.min(lowest, count - 1);
  const used = (position: number): Uses => uses.get(deepestFirst[position]!.id) ?? { count: 0, lastDay: -1 };
  for (let position = best + 1; position <= Math.min(highest, count - 1); position += 1) {
    const [one, other] = [used(position), used(best)];
    if (one.count < other.count || (one.count === other.count && one.lastDay < other.lastDay))
      best = position;
  }
  return best;
}

/**
 * The site of a night dive: the deepest of those dived by day that no night dive goes below, else the shallowest of all.
 * @param today positions of the sites dived on that day
 * Source: common practice: a site is known by day before it is dived at night.
 */
export function nightSite(deepestFirst: readonly Site[], today: readonly number[], nightM: number): number {
  const known = today.filter((position) => deepestFirst[position]!.depthM <= nightM);
  return known.length > 0 ? Math.min(...known) : deepestFirst.length - 1;
}
