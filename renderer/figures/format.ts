/**
 * Figures as people read them. A figure is rounded once, here, and to the careful side: what is left rounds
 * down, what is used up rounds up.
 */
import type { Settings } from '../../core/host';
import { decimalSign } from './decimal-sign';
import { toUnit, unitOf, type Kind, type Units } from './units';

export type Careful = 'down' | 'up' | 'near';

/** A figure that does not exist is a dash; the caution beside it says why. */
export const NO_FIGURE = '–';

/** Sums of leg times miss a whole number by rounding alone; a billionth is no minute less. */
const DUST = 1e-9;

/**
 * Rounds to so many decimals. "down" is always towards less room, also below zero (-0.2 min reads -1); a
 * billionth is forgiven so that 30.000000001 does not read 31.
 */
export function rounded(value: number, decimals: number, careful: Careful): number {
  const scale = 10 ** decimals;
  const scaled = value * scale;
  const whole =
    careful === 'down'
      ? Math.floor(scaled + DUST * scale)
      : careful === 'up'
        ? Math.ceil(scaled - DUST * scale)
        : Math.round(scaled);
  // No minus sign before a zero.
  return whole === 0 ? 0 : whole / scale;
}

/** The number with the reader's decimal sign and always so many decimals, in the digits that figures are set in. */
export function numberText(value: number, decimals: number, careful: Careful, locale?: string): string {
  const text = rounded(value, decimals, careful).toFixed(decimals).replace('-', '−');
  return decimals === 0 ? text : text.replace('.', decimalSign(locale));
}

/** A figure with its unit, "22 m"; decimals as given in metric, none in feet and psi. */
export function unitText(
  si: number | null,
  kind: Kind,
  units: Units,
  careful: Careful,
  decimals = 0,
): string {
  if (si === null) return NO_FIGURE;
  const shown = toUnit(si, kind, units);
  const places = units === 'imperial' && kind !== 'rate' ? 0 : decimals;
  return `${numberText(shown, places, careful)} ${unitOf(kind, units).sign}`;
}

/** A depth as planned: to the decimal where it has one. */
export function depthText(depthM: number, units: Units, careful: Careful = 'near'): string {
  const shown = rounded(toUnit(depthM, 'depth', units), units === 'imperial' ? 0 : 1, careful);
  return `${numberText(shown, Number.isInteger(shown) ? 0 : 1, 'near')} ${unitOf('depth', units).sign}`;
}

/** Minutes as a length of time: "45 min". */
export function minutesText(min: number | null, careful: Careful): string {
  return min === null ? NO_FIGURE : `${numberText(min, 0, careful)} min`;
}

/** "2:05" as intervals are written; always whole minutes. */
export function hoursText(min: number, careful: Careful = 'near'): string {
  const whole = rounded(Math.abs(min), 0, careful);
  const sign = min < 0 && whole > 0 ? '−' : '';
  return `${sign}${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** A length of time that may be many hours: "45 min", "11 h 18". */
export function spanText(min: number, careful: Careful): string {
  const whole = rounded(min, 0, careful);
  if (whole < 100) return minutesText(min, careful);
  return `${Math.floor(whole / 60)} h ${String(whole % 60).padStart(2, '0')}`;
}

/** A fraction as percent: 0.334 up reads "34 %". */
export function percentText(fraction: number | null, careful: Careful, decimals = 0): string {
  // Percent of a binary fraction carries dust: 0.29 * 100 is 28.999999999999996.
  return fraction === null ? NO_FIGURE : `${numberText(fraction * 100, decimals, careful)} %`;
}

/** As many decimals as the number has, at most so many: 22 reads "22", 22.5 reads "22.5". */
export function shortText(value: number, atMost: number, careful: Careful = 'near'): string {
  const text = numberText(value, atMost, careful);
  return atMost === 0 ? text : text.replace(/\D?0{1,9}$/, '');
}

/** A share of oxygen as it was given: "32 %", "31.5 %". */
export function shareText(share: number): string {
  return `${shortText(share * 100, 1)} %`;
}

/** "EAN32", "Air", "EAN31.5": as the trade writes a mix. */
export function mixText(o2: number): string {
  const percent = Math.round(o2 * 1000) / 10;
  return percent === 21 ? 'Air' : `EAN${percent}`;
}

/** A wall-clock time of day in the chosen clock: "13:10" or "1:10 pm". */
export function clockText(wallTime: string, clock: Settings['clock']): string {
  const [hour = 0, minute = 0] = wallTime.slice(11, 16).split(':').map(Number);
  const minutes = String(minute).padStart(2, '0');
  if (clock === '24h') return `${String(hour).padStart(2, '0')}:${minutes}`;
  return `${((hour + 11) % 12) + 1}:${minutes} ${hour < 12 ? 'am' : 'pm'}`;
}

const WEEKDAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'] as const;
const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

/** "Tue 9", and with `month` "Tue 9 March". Dates are of the trip's place, so no zone may shift them. */
export function dateText(date: string, month = false): string {
  const [year = 1970, monthOfYear = 1, day = 1] = date.slice(0, 10).split('-').map(Number);
  const weekday = WEEKDAYS[new Date(Date.UTC(year, monthOfYear - 1, day)).getUTCDay()];
  return month ? `${weekday} ${day} ${MONTHS[monthOfYear - 1]}` : `${weekday} ${day}`;
}

const COUNTS = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
] as const;

/** Small numbers in words, for sentences. */
export function countText(count: number): string {
  return COUNTS[count] ?? String(count);
}

const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth'] as const;

/** "third", "11th". */
export function ordinalText(n: number): string {
  return ORDINALS[n - 1] ?? `${n}th`;
}
