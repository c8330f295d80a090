/** Times and days that somebody gives, judged as numbers are in `fields.ts`. */
import { wallMinIfReal } from '../words/calendar';
import { either, said, type Said, type SaidTrouble } from '../words/said';
import { shown } from './fields';

const WALL_DATE = /^\d{4}-\d\d-\d\d$/;
const WALL_TIME = /^(\d{4})-\d\d-\d\dT\d\d:\d\d$/;

/** Years a trip may lie in; they keep minutes since 1970 small and catch slips of the pen. */
const FIRST_YEAR = 1970;
const LAST_YEAR = 2199;

/**
 * Judges wall-clock text.
 * @param label what the time is, "Start" @param value anything at all
 * @returns null for a minute that exists in the calendar; else what is wrong and how to mend it
 * Source: ISO 8601 calendar.
 */
export function wallTimeTrouble(label: Said, value: unknown): SaidTrouble | null {
  const mend = said`${either(
    said`Write date and time at the trip’s place as "2027-03-06T07:30".`,
    said`Give the day and the time at the trip’s place.`,
  )}`;
  if (value === undefined) return { what: said`${label} is missing.`, mend };
  const match = typeof value === 'string' ? WALL_TIME.exec(value) : null;
  if (!match) return { what: said`${label} is ${shown(value)}, not a date and time.`, mend };
  const year = Number(match[1]);
  if (year < FIRST_YEAR || year > LAST_YEAR) {
    return {
      what: said`${label} is in the year ${String(year)}; it can be ${String(FIRST_YEAR)} to ${String(LAST_YEAR)}.`,
      mend,
    };
  }
  if (wallMinIfReal(match[0]) !== null) return null;
  return { what: said`${label} is ${match[0]}, which does not exist in the calendar.`, mend };
}

/**
 * Judges the date of a day.
 * @param label what the day is @param value anything at all
 * @returns null for a day that exists in the calendar; else what is wrong and how to mend it
 * Source: ISO 8601 calendar.
 */
export function wallDateTrouble(label: Said, value: unknown): SaidTrouble | null {
  if (typeof value === 'string' && WALL_DATE.test(value)) return wallTimeTrouble(label, `${value}T00:00`);
  const mend = said`${either(said`Write the day as "2027-03-06".`, said`Give the day.`)}`;
  if (value === undefined) return { what: said`${label} is missing.`, mend };
  return { what: said`${label} is ${shown(value)}, not a day.`, mend };
}
