/** A date as it is typed and shown in a field, in the order of the settings. */
import type { Settings } from '../../core/host';
import { wallMinIfReal } from '../../core/words/calendar';
import type { Parsed } from './parse';

type Order = Settings['dates'];

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

/** "06/03/2027", "03/06/2027" or "2027-03-06". @param date "2027-03-06" */
export function dateFieldText(date: string, order: Order): string {
  const [year = '', month = '', day = ''] = date.split('-');
  if (order === 'ymd') return date;
  return order === 'dmy' ? `${day}/${month}/${year}` : `${month}/${day}/${year}`;
}

function refused(what: string, order: Order): Parsed<string> {
  return { ok: false, what, mend: `Type it as ${dateFieldText('2027-03-16', order)}, or 16 Mar 2027.` };
}

/** The parts in the order year, month, day; the year is left out where it is not typed. */
function inOrder(parts: readonly string[], order: Order): readonly (string | undefined)[] {
  const [one, two, three] = parts;
  const month = parts.findIndex((part) => /^[a-z]/.test(part));
  // A month by its name needs no order: the day is the number beside it that is no year.
  if (month !== -1) {
    const [first, second] = parts.filter((_, at) => at !== month);
    return first !== undefined && first.length === 4
      ? [first, parts[month], second]
      : [second, parts[month], first];
  }
  if (one?.length === 4) return [one, two, three];
  if (three === undefined) return order === 'dmy' ? [undefined, two, one] : [undefined, one, two];
  return order === 'ymd' ? [one, two, three] : order === 'dmy' ? [three, two, one] : [three, one, two];
}

function monthOf(text: string): number {
  if (/^\d+$/.test(text)) return Number(text);
  return text.length < 3 ? 0 : MONTHS.findIndex((name) => text.startsWith(name)) + 1;
}

/**
 * Reads a date: digits in the order of the settings with any sign between, a month by its name, the year first where
 * it has four digits. Two digits of a year are of this century, and a year that is not typed is the one before.
 * @param before the date that stood there, "2027-03-06"
 */
export function parseDate(text: string, order: Order, before: string): Parsed<string> {
  const plain = text.trim().toLowerCase();
  if (plain === '') return refused('There is no date.', order);
  const parts = plain.split(/[\s./,-]+/).filter((part) => part !== '');
  if (parts.length < 2 || parts.length > 3 || !parts.every((part) => /^(?:\d{1,4}|[a-z]{3,9})$/.test(part))) {
    return refused(`“${text.trim()}” is no date.`, order);
  }
  const [year = before.slice(0, 4), month = '', day = ''] = inOrder(parts, order);
  const whole = year.length === 2 ? `20${year}` : year;
  const date = `${whole}-${String(monthOf(month)).padStart(2, '0')}-${day.padStart(2, '0')}`;
  return wallMinIfReal(`${date}T00:00`) === null
    ? refused(`“${text.trim()}” is no date of the calendar.`, order)
    : { ok: true, value: date };
}
