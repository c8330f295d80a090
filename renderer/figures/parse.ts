import { unitName } from './format';
/** What a person typed, read or refused with a reason; nothing is guessed and nothing clamped. */
import type { Settings } from '../../core/host';
import { decimalSign } from './decimal-sign';
import { fromUnit, type Kind, type System as Units } from '../../core/words/quantity';

export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly what: string; readonly mend: string };

function read<T>(value: T): Parsed<T> {
  return { ok: true, value };
}

function refused(
  what: string,
  mend: string,
): { readonly ok: false; readonly what: string; readonly mend: string } {
  return { ok: false, what, mend };
}

/** A number with a decimal point or comma. "1,200" could be either 1200 or 1.2, so it is refused. */
export function parseNumber(text: string): Parsed<number> {
  const plain = text.trim().replace(/^[−–]/, '-').replace(/\s/g, '');
  if (plain === '') return refused('Nothing is typed.', 'Type a number, or press Escape for the one before.');
  const match = /^(-?)(\d*)(?:([.,])(\d*))?$/.exec(plain);
  if (!match || (match[2] === '' && (match[4] ?? '') === '')) {
    return refused(
      `“${text.trim()}” is not a number.`,
      'Type digits, with a decimal point or comma if needed.',
    );
  }
  const [, sign = '', whole = '', mark, decimals = ''] = match;
  if (mark !== undefined && decimals.length === 3 && whole.length <= 3 && !/^0*$/.test(whole)) {
    return refused(
      `“${plain}” can be read in two ways.`,
      `Type ${whole}${decimals} or ${whole}${decimalSign()}${decimals}0.`,
    );
  }
  return read(Number(`${sign}${whole === '' ? '0' : whole}.${decimals === '' ? '0' : decimals}`));
}

const SIGNS: Readonly<Record<string, { readonly kind: Kind; readonly units: Units }>> = {
  m: { kind: 'depth', units: 'metric' },
  metre: { kind: 'depth', units: 'metric' },
  metres: { kind: 'depth', units: 'metric' },
  ft: { kind: 'depth', units: 'imperial' },
  feet: { kind: 'depth', units: 'imperial' },
  bar: { kind: 'pressure', units: 'metric' },
  psi: { kind: 'pressure', units: 'imperial' },
  l: { kind: 'volume', units: 'metric' },
  'cu ft': { kind: 'volume', units: 'imperial' },
  'm/min': { kind: 'speed', units: 'metric' },
  'ft/min': { kind: 'speed', units: 'imperial' },
  'l/min': { kind: 'gas-rate', units: 'metric' },
  'cu ft/min': { kind: 'gas-rate', units: 'imperial' },
};

/** Where the unit behind a figure begins: with the first letter of a tail that is nothing but a unit. */
function signAt(text: string): number {
  let from = text.length;
  while (from > 0 && /[a-z/ ]/i.test(text[from - 1]!)) from -= 1;
  while (from < text.length && !/[a-z]/i.test(text[from]!)) from += 1;
  return from;
}

/** A figure in the chosen units, or in the ones written behind it: "22", "22 m", "72 ft". Returns SI. */
export function parseFigure(text: string, kind: Kind, units: Units): Parsed<number> {
  const plain = text.trim();
  const at = signAt(plain);
  const sign = plain.slice(at).toLowerCase();
  const number = parseNumber(plain.slice(0, at));
  if (sign === '') return number.ok ? read(fromUnit(number.value, kind, units)) : number;
  const said = SIGNS[sign];
  if (!said || said.kind !== kind) {
    return refused(
      `“${sign}” is no unit for this.`,
      `Type a number, in ${unitName(kind, units)} if it says nothing else.`,
    );
  }
  return number.ok ? read(fromUnit(number.value, kind, said.units)) : number;
}

/** A length of time in minutes: "45", "45 min", "1:05", "1 h 05", "1h". */
export function parseMinutes(text: string): Parsed<number> {
  const plain = text.trim().toLowerCase();
  const hours = /^(\d{1,2})\s*(?::|h)\s*(?:(\d{1,2})\s*)?(?:min|m)?$/.exec(plain);
  if (hours) {
    const minutes = Number(hours[2] ?? 0);
    if (minutes > 59)
      return refused(`An hour has no minute ${minutes}.`, 'Type minutes from 0 to 59 after the hours.');
    return read(Number(hours[1]) * 60 + minutes);
  }
  const number = parseNumber(plain.replace(/(?:min|minutes|m|′|')$/, ''));
  return number.ok
    ? number
    : refused(number.what, 'Type minutes such as 45, or hours and minutes such as 1:05.');
}

/** A time of day as "13:10": "13:10", "1310", "13.10", "1:10 pm", "1pm", "7". */
export function parseClock(text: string, clock: Settings['clock']): Parsed<string> {
  const example = clock === '24h' ? '13:10' : '1:10 pm';
  const match = /^(\d{1,2})(?:[:.h ]?(\d{2}))?\s*([ap])?\.?m?\.?$/.exec(text.trim().toLowerCase());
  if (!match) return refused(`“${text.trim()}” is not a time of day.`, `Type a time such as ${example}.`);
  const [, hourText = '', minuteText = '0', half] = match;
  const minute = Number(minuteText);
  let hour = Number(hourText);
  const isHalfDay = half !== undefined;
  if (minute > 59 || hour > 23 || (isHalfDay && (hour < 1 || hour > 12))) {
    return refused(`There is no ${text.trim()} on the clock.`, `Type a time such as ${example}.`);
  }
  if (isHalfDay) hour = (hour % 12) + (half === 'p' ? 12 : 0);
  return read(`${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`);
}

/** A percentage as a fraction: "32", "32 %", "EAN32", "31.5". */
export function parseShare(text: string): Parsed<number> {
  const number = parseNumber(
    text
      .trim()
      .replace(/^ean\s*/i, '')
      .replace(/%$/, ''),
  );
  // 32 / 100 is the nearest number to 0.32; 31.5 likewise.
  return number.ok ? read(number.value / 100) : number;
}
