/** Figures as the window reads them: rounded and written by core/words, in the decimal sign of this machine. */
import type { Settings } from '../../core/host';
import type { Cylinder } from '../../core/document/types';
import { breathedSaid } from '../../core/ledger/breathed-said';
import type { Entry } from '../../core/ledger/ledger-types';
import { clockSaid, dateSaid } from '../../core/words/calendar';
import { digits, toUnit, unitOf, type Kind, type System, type Toward } from '../../core/words/quantity';
import { MINUS, wordsOf, type Reader } from '../../core/words/reader';
import { clockSpan, cylinder, said, span, type Piece } from '../../core/words/said';
import { countSaid, mixSaid, NONE, ordinalSaid, UNIT_NAMES } from '../../core/words/terms';
import { decimalSign } from './decimal-sign';

export type Careful = Toward;

/** A figure that does not exist is a dash; the caution beside it says why. */
export const NO_FIGURE = NONE;

/** What is the same for every reader before the window. */
function read(piece: Piece, units: System = 'metric'): string {
  const signs = { decimal: decimalSign(), minus: MINUS };
  const reader: Reader = { units, signs, clock: '24h', dates: 'day' };
  return wordsOf(reader)(said`${piece}`);
}

/** The number with the reader's decimal sign and always so many decimals, in the digits that figures are set in. */
export function numberText(value: number, decimals: number, careful: Careful, locale?: string): string {
  return digits(value, decimals, decimals, careful, { decimal: decimalSign(locale), minus: MINUS });
}

/** As many decimals as the number has, at most so many: 22 reads "22", 22.5 reads "22.5". */
export function shortText(value: number, atMost: number, careful: Careful = 'near'): string {
  return digits(value, 0, atMost, careful, { decimal: decimalSign(), minus: MINUS });
}

/**
 * A figure with its unit, "22 m"; decimals as given in metric, none in feet. Psi to a careful side are in tens, as
 * gauges are not read finer.
 */
export function unitText(
  si: number | null,
  kind: Kind,
  units: System,
  careful: Careful,
  decimals = 0,
): string {
  if (si === null) return NO_FIGURE;
  return `${valueText(si, kind, units, careful, decimals)} ${unitOf(kind, units).sign}`;
}

/** The unit of a kind of figure by its name, "metres". */
export function unitName(kind: Kind, units: System): string {
  return read(UNIT_NAMES[kind][units]);
}

/** The same without its unit. */
export function valueText(si: number, kind: Kind, units: System, careful: Careful, decimals = 0): string {
  const inFeet = units === 'imperial' && kind !== 'gas-rate';
  const places = !inFeet ? decimals : kind === 'pressure' && careful !== 'near' ? -1 : 0;
  const least = Math.max(0, places);
  return digits(toUnit(si, kind, units), least, places, careful, { decimal: decimalSign(), minus: MINUS });
}

/**
 * A depth as planned: to the decimal where it has one, and down, as everywhere else: 24 m are 78 ft in the field, beside
 * the no-stop time and on the card. Of what was dived, up.
 */
export function depthText(depthM: number, units: System, careful: Careful = 'down'): string {
  const shown = shortText(toUnit(depthM, 'depth', units), units === 'imperial' ? 0 : 1, careful);
  return `${shown} ${unitOf('depth', units).sign}`;
}

/** "12 L" or "85 cu ft". */
export function cylinderText(of: Cylinder, units: System): string {
  return read(cylinder(of), units);
}

/** Minutes as a length of time: "45 min". */
export function minutesText(min: number | null, careful: Careful): string {
  return min === null ? NO_FIGURE : `${numberText(min, 0, careful)} min`;
}

/** "2:05" as intervals are written; always whole minutes. */
export function hoursText(min: number, careful: Careful = 'near'): string {
  return read(clockSpan(min, careful));
}

/** A length of time that may be many hours: "45 min", "11 h 18 min". */
export function spanText(min: number, careful: Careful): string {
  return read(span(min, careful));
}

/** A fraction as percent: 0.334 up reads "34 %". */
export function percentText(fraction: number | null, careful: Careful, decimals = 0): string {
  // Percent of a binary fraction carries dust: 0.29 * 100 is 28.999999999999996.
  return fraction === null ? NO_FIGURE : `${numberText(fraction * 100, decimals, careful)} %`;
}

/** A share of oxygen as it was given: "32 %", "31.5 %". */
export function shareText(share: number): string {
  return `${shortText(share * 100, 2)} %`;
}

/** "EAN32", "Air", "EAN31.5": as the trade writes a mix. */
export function mixText(o2: number): string {
  return read(mixSaid(o2));
}

/** What is breathed on a dive, a loop by its setpoint; where no mix can be used there, that. */
export function breathedText(entry: Pick<Entry, 'isMade' | 'loop' | 'o2'>): string {
  return read(breathedSaid(entry));
}

/** A wall-clock time of day in the chosen clock: "13:10" or "1:10 pm". */
export function clockText(wallTime: string, clock: Settings['clock']): string {
  return read(clockSaid(wallTime.slice(11, 16), clock));
}

/** Days are worded once: the strip names those of its trip at every key. */
const datesWorded = { weekday: new Map<string, string>(), month: new Map<string, string>() };

/** "Tue 9", and with `month` "Tue 9 March". Dates are of the trip's place, so no zone may shift them. */
export function dateText(date: string, month = false): string {
  const form = month ? 'month' : 'weekday';
  const day = date.slice(0, 10);
  let text = datesWorded[form].get(day);
  if (text === undefined) datesWorded[form].set(day, (text = read(dateSaid(day, 'day', form))));
  return text;
}

/** Small numbers in words, for sentences. */
export function countText(count: number): string {
  return read(countSaid(count));
}

/** "third", "11th". */
export function ordinalText(n: number): string {
  return read(ordinalSaid(n));
}
