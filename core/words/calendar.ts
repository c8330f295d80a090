import { rounded } from './quantity';
import { dayOf, said, timeOfDay, type Day, type Moment, type Said, type Span, type TimeOfDay } from './said';

/** Wall-clock time at the trip's place, to the minute, without zone: "2027-03-06T07:30". */
export type WallTime = string;

/** Minutes of wall-clock time since 1970-01-01T00:00 at the trip's place; fractions allowed. */
export type WallMin = number;

const WALL_TIME = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d)$/;

/**
 * Wall-clock text to minutes since 1970-01-01T00:00 at the same place, or null for a minute that does not exist.
 * @param text "2027-03-06T07:30"
 * Source: ISO 8601 calendar; days as in `dayOfDate`.
 */
export function wallMinIfReal(text: string): WallMin | null {
  const match = WALL_TIME.exec(text);
  if (match === null) return null;
  const [year, month, day, hour, minute] = match.slice(1).map(Number) as [
    number,
    number,
    number,
    number,
    number,
  ];
  const ofDay = 60 * hour + minute;
  if (month < 1 || month > 12 || hour > 23 || minute > 59) return null;
  const min = 1440 * dayOfDate(year, month, day) + ofDay;
  // 30 February is 2 March by the arithmetic: what exists comes back as it was.
  return wallDate(min) === text.slice(0, 10) ? min : null;
}

/**
 * Wall-clock text to minutes since 1970-01-01T00:00 at the same place.
 * @param text "2027-03-06T07:30"; the schema has seen that the date exists
 * @returns whole minutes
 * @throws RangeError for a time that does not exist
 * Source: as `wallMinIfReal`.
 */
export function wallMin(text: WallTime): WallMin {
  const min = wallMinIfReal(text);
  if (min === null) throw new RangeError(`${text} does not exist in the calendar`);
  return min;
}

/** Days of a year before a month, counted from March: so the day that only some years have is their last. */
function daysToMonth(fromMarch: number): number {
  return Math.floor((153 * fromMarch + 2) / 5);
}

const DAYS_OF_400_YEARS = 146_097;
/** From 1 March of year 0 to 1 January 1970. */
const EPOCH_DAYS = 719_468;

/**
 * Days since 1970-01-01 of a date.
 * @param year 0 or later @param month 1 to 12 @param day from 1; past the month's end it counts on
 * Source: H. Hinnant, "chrono-Compatible Low-Level Date Algorithms", 2013, days_from_civil.
 */
function dayOfDate(year: number, month: number, day: number): number {
  const ofMarch = month > 2 ? year : year - 1;
  const leapDays = Math.floor(ofMarch / 4) - Math.floor(ofMarch / 100) + Math.floor(ofMarch / 400);
  return 365 * ofMarch + leapDays + daysToMonth((month + 9) % 12) + day - 1 - EPOCH_DAYS;
}

/**
 * The date of a day counted from 1970-01-01, "2027-03-06".
 * Source: as `dayOfDate`, civil_from_days.
 */
function dateOfDay(day: number): string {
  const since = day + EPOCH_DAYS;
  const era = Math.floor(since / DAYS_OF_400_YEARS);
  const ofEra = since - era * DAYS_OF_400_YEARS;
  const leapDays = Math.floor(ofEra / 1460) - Math.floor(ofEra / 36_524) + Math.floor(ofEra / 146_096);
  const yearOfEra = Math.floor((ofEra - leapDays) / 365);
  const ofYear = ofEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const fromMarch = Math.floor((5 * ofYear + 2) / 153);
  const month = fromMarch < 10 ? fromMarch + 3 : fromMarch - 9;
  const year = yearOfEra + 400 * era + (month <= 2 ? 1 : 0);
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(ofYear - daysToMonth(fromMarch) + 1)}`;
}

/** The day of a moment as a count of whole days since 1970-01-01. Source: 1440 minutes a day. */
export function dayNumber(min: WallMin): number {
  return Math.floor(min / 1440);
}

/** The calendar date of a moment, "2027-03-06". Source: as `wallText`, rounded down. */
export function wallDate(min: WallMin): string {
  return dateOfDay(dayNumber(min));
}

function two(number: number): string {
  return number < 10 ? `0${number}` : `${number}`;
}

/**
 * Minutes since 1970-01-01T00:00 to wall-clock text, rounded up to the whole minute: a diver is said to
 * surface no earlier than they do, and an interval to be no longer than it is.
 * @param min minutes, fractions allowed
 * @returns "2027-03-06T07:30"
 * Source: ISO 8601 calendar; days as in `dayOfDate`.
 */
export function wallText(min: WallMin): WallTime {
  // Sums of leg times miss a whole minute by rounding alone; a billionth of a minute is no minute more.
  const whole = Math.ceil(min - 1e-9);
  // The time of day without the calendar: a window writes some hundred moments at every edit.
  const ofDay = whole - 1440 * dayNumber(whole);
  return `${wallDate(whole)}T${two(Math.floor(ofDay / 60))}:${two(ofDay % 60)}`;
}

/** A moment that was worked out, rounded up to the minute. */
export function momentAt(min: WallMin): Moment {
  return { is: 'moment', moment: wallText(min), isReckoned: true };
}

/** The day of a moment, rounded up to the minute as it is printed. */
export function dayAt(min: WallMin, form?: Day['form']): Day {
  return dayOf(wallText(min).slice(0, 10), form);
}

/** The time of day of a moment, rounded up to the minute. */
export function timeAt(min: WallMin): TimeOfDay {
  return timeOfDay(wallText(min).slice(11));
}

/** 1970-01-01 was a Thursday. */
const EPOCH_WEEKDAY = 4;

const WEEKDAYS = [said`Sun`, said`Mon`, said`Tue`, said`Wed`, said`Thu`, said`Fri`, said`Sat`] as const;

const MONTHS = [
  said`January`,
  said`February`,
  said`March`,
  said`April`,
  said`May`,
  said`June`,
  said`July`,
  said`August`,
  said`September`,
  said`October`,
  said`November`,
  said`December`,
] as const;

const SHORT_MONTHS = [
  said`Jan`,
  said`Feb`,
  said`Mar`,
  said`Apr`,
  said`May`,
  said`Jun`,
  said`Jul`,
  said`Aug`,
  said`Sep`,
  said`Oct`,
  said`Nov`,
  said`Dec`,
] as const;

/** How much a reader is told of a date: as it is stored, its day in this trip, or all of it on paper. */
export type Dates = 'stored' | 'day' | 'full';

/**
 * A date in words: "Tue 9", "Tue 9 March", "Sat 6 Mar 2027". Dates are of the trip's place, so no zone may shift them.
 * @param date "2027-03-06" @param form only so much of it; as `dates` where nothing is said
 */
export function dateSaid(date: string, dates: Dates, form?: Day['form']): Said {
  if (dates === 'stored') return said`${date}`;
  const [year = 1970, month = 1, ofMonth = 1] = date.slice(0, 10).split('-').map(Number);
  const number = String(ofMonth);
  const weekday = WEEKDAYS[(((dayOfDate(year, month, ofMonth) + EPOCH_WEEKDAY) % 7) + 7) % 7]!;
  if (form === 'weekday') return said`${weekday} ${number}`;
  if (dates === 'day') return said`${weekday} ${number} ${MONTHS[month - 1]!}`;
  const short = SHORT_MONTHS[month - 1]!;
  return form === 'month'
    ? said`${weekday} ${number} ${short}`
    : said`${weekday} ${number} ${short} ${String(year)}`;
}

export type Clock = '24h' | '12h';

/** A time of day on a reader's clock: "13:10", or "1:10 pm". @param time "13:10" */
export function clockSaid(time: string, clock: Clock): Said {
  if (clock === '24h') return said`${time}`;
  const hour = Number(time.slice(0, 2));
  const onDial = `${((hour + 11) % 12) + 1}:${time.slice(3, 5)}`;
  return hour < 12 ? said`${onDial} am` : said`${onDial} pm`;
}

/** A moment in words, "Tue 9, 13:10" or "Sat 6 Mar 2027, 07:30". */
export function momentSaid({ moment, isReckoned }: Moment, dates: Dates, clock: Clock): Said {
  const [date, time] = [moment.slice(0, 10), moment.slice(11, 16)];
  if (dates === 'stored') return isReckoned ? said`${date} at ${time}` : said`${moment}`;
  const words = dates === 'day' ? dateSaid(date, dates, 'weekday') : dateSaid(date, dates);
  return said`${words}, ${clockSaid(time, clock)}`;
}

/** From here on a stretch of time is told in days. Source: choice of this project. */
const DAYS_FROM_H = 48;

/**
 * A stretch of time in whole minutes: "45 min", "2 h", "2 h 05 min", "3 days 4 h"; as a clock has it "2:05".
 * @param minus of the reader, for what is less than nothing
 */
export function spanSaid({ min, toward, form }: Span, minus: string): Said {
  const whole = rounded(min, 0, toward);
  const sign = whole < 0 ? minus : '';
  const length = Math.abs(whole);
  const hours = Math.floor(length / 60);
  const rest = two(length % 60);
  if (form === 'clock') return said`${`${sign}${hours}:${rest}`}`;
  if (hours === 0) return said`${`${sign}${length}`} min`;
  if (hours < DAYS_FROM_H && length % 60 === 0) return said`${`${sign}${hours}`} h`;
  if (hours < DAYS_FROM_H) return said`${`${sign}${hours}`} h ${rest} min`;
  return said`${`${sign}${Math.floor(hours / 24)}`} days ${hours % 24} h`;
}
