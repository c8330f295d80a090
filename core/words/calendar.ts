import { Temporal } from 'temporal-polyfill';

/** Wall-clock time at the trip's place, to the minute, without zone: "2027-03-06T07:30". */
export type WallTime = string;

/** Minutes of wall-clock time since 1970-01-01T00:00 at the trip's place; fractions allowed. */
export type WallMin = number;

const EPOCH = Temporal.PlainDateTime.from('1970-01-01T00:00');

/**
 * Wall-clock text to minutes since 1970-01-01T00:00 at the same place.
 * @param text "2027-03-06T07:30"; the schema has seen that the date exists
 * @returns whole minutes
 * @throws RangeError for a time that does not exist
 * Source: ISO 8601 calendar, through the calendar package.
 */
export function wallMin(text: WallTime): WallMin {
  const time = Temporal.PlainDateTime.from(text, { overflow: 'reject' });
  return time.since(EPOCH, { largestUnit: 'minutes' }).minutes;
}

/** The day of a moment as a count of whole days since 1970-01-01. Source: 1440 minutes a day. */
export function dayNumber(min: WallMin): number {
  return Math.floor(min / 1440);
}

const datesKnown = new Map<number, string>();

/** The calendar date of a moment, "2027-03-06". Source: as `wallText`, rounded down. */
export function wallDate(min: WallMin): string {
  const day = dayNumber(min);
  let date = datesKnown.get(day);
  if (date === undefined) {
    // A trip has a dozen dates and asks for them at every edit; a fuzzer has thousands, which must not be kept.
    if (datesKnown.size > 1000) datesKnown.clear();
    date = EPOCH.add({ days: day }).toPlainDate().toString();
    datesKnown.set(day, date);
  }
  return date;
}

function two(number: number): string {
  return number < 10 ? `0${number}` : `${number}`;
}

/**
 * Minutes since 1970-01-01T00:00 to wall-clock text, rounded up to the whole minute: a diver is said to
 * surface no earlier than they do, and an interval to be no longer than it is.
 * @param min minutes, fractions allowed
 * @returns "2027-03-06T07:30"
 * Source: ISO 8601 calendar, through the calendar package.
 */
export function wallText(min: WallMin): WallTime {
  // Sums of leg times miss a whole minute by rounding alone; a billionth of a minute is no minute more.
  const whole = Math.ceil(min - 1e-9);
  // The time of day without the calendar: a window writes some hundred moments at every edit.
  const ofDay = whole - 1440 * dayNumber(whole);
  return `${wallDate(whole)}T${two(Math.floor(ofDay / 60))}:${two(ofDay % 60)}`;
}
