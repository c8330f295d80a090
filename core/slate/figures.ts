/**
 * Numbers as they are printed, rounded once and the careful way: what is allowed is rounded down, what is
 * taken up rounded up. No rounded value goes back into a formula.
 */
import { clockSaid, wallText, type Clock, type WallMin } from '../words/calendar';
import { fileWords } from '../words/reader';
import type { Entry } from '../ledger/ledger-types';
import { BAR_PER_PSI, M_PER_FOOT } from '../units';
import type { Stop } from '../profile';

export type SlateUnits = 'metric' | 'imperial' | 'both';

/** How whoever holds a page reads figures and times of day. */
export interface SlateReading {
  readonly units: SlateUnits;
  readonly clock: Clock;
}

/** Units of sentences that name one figure, such as cautions: both at once would be hard to read. */
export function sentenceUnits(units: SlateUnits): 'metric' | 'imperial' {
  return units === 'imperial' ? 'imperial' : 'metric';
}

/** Gauges in psi are not read finer than this. Source: common practice. */
const PSI_STEP = 10;

/**
 * What binary fractions alone can be off by: a figure this close to a whole number is that number, else
 * 33 m would print as 32 and a PO2 of 1.40 as 1.41.
 */
const DUST = 1e-6;

/** In the place of a figure that does not exist. */
export const NONE = '\u2013';

const MINUS = '\u2212';

/** Down to a multiple of `step`. */
export function down(value: number, step = 1): number {
  return tidy(Math.floor(value / step + DUST) * step, step);
}

/** Up to a multiple of `step`. */
export function up(value: number, step = 1): number {
  return tidy(Math.ceil(value / step - DUST) * step, step);
}

/** Takes the dust off a multiple of 0.1, 0.01 or 0.001, and the sign off a zero. */
function tidy(value: number, step: number): number {
  return Number(value.toFixed(step < 1 ? 3 : 0)) + 0;
}

/** A number with a proper minus. */
export function signed(value: number): string {
  return value < 0 ? `${MINUS}${-value}` : `${value}`;
}

/** A figure in one unit, the unit apart, so that it can be set smaller. */
export interface Figure {
  readonly value: string;
  readonly unit: string;
}

const NO_FIGURE: Figure = { value: NONE, unit: '' };

/** Where no limit is ever met. */
export const NO_LIMIT: Figure = { value: 'no limit', unit: '' };

export function words(figure: Figure): string {
  return figure.unit === '' ? figure.value : `${figure.value} ${figure.unit}`;
}

type Way = 'limit' | 'plan' | 'exposure';

function careful(value: number, way: Way, step = 1): number {
  return way === 'exposure' ? up(value, step) : down(value, step);
}

/**
 * A depth in the units asked for, one figure a unit.
 * @param depthM metres; null: no such figure
 * @param way a limit (down to the whole metre or foot); what is planned (down to the tenth of a metre or the
 *   whole foot: the no-stop time printed beside it holds there, and not a foot deeper); or what was dived (up to
 *   the same)
 */
export function depths(depthM: number | null, way: Way, units: SlateUnits): readonly Figure[] {
  if (depthM === null) return [NO_FIGURE];
  const metres: Figure = { value: signed(careful(depthM, way, way === 'limit' ? 1 : 0.1)), unit: 'm' };
  const feet: Figure = { value: signed(careful(depthM / M_PER_FOOT, way)), unit: 'ft' };
  return units === 'metric' ? [metres] : units === 'imperial' ? [feet] : [metres, feet];
}

/**
 * A gauge pressure to keep to, rounded up: turning with more in the cylinder is the careful side.
 * @param gaugeBar bar; null: no such figure @returns whole bar, and psi in steps of 10
 */
export function pressuresUp(gaugeBar: number | null, units: SlateUnits): readonly Figure[] {
  return pressures(gaugeBar, units, up);
}

/** A gauge pressure that is there, rounded down. */
export function pressuresDown(gaugeBar: number | null, units: SlateUnits): readonly Figure[] {
  return pressures(gaugeBar, units, down);
}

function pressures(
  gaugeBar: number | null,
  units: SlateUnits,
  round: (value: number, step?: number) => number,
): readonly Figure[] {
  if (gaugeBar === null) return [NO_FIGURE];
  const bar: Figure = { value: signed(round(gaugeBar)), unit: 'bar' };
  const psi: Figure = { value: signed(round(gaugeBar / BAR_PER_PSI, PSI_STEP)), unit: 'psi' };
  return units === 'metric' ? [bar] : units === 'imperial' ? [psi] : [bar, psi];
}

/** Figures of one quantity in several units, "24 m / 79 ft". */
export function joined(figures: readonly Figure[]): string {
  return figures.map(words).join(' / ');
}

/** Minutes that are allowed or planned, rounded down. */
export function minutesDown(min: number | null): Figure {
  return min === null ? NO_FIGURE : { value: signed(down(min)), unit: 'min' };
}

/** A dive's greatest depth as it is printed: what is planned rounded down, what was dived up. */
export function diveDepths(
  { depthM, isAsDived }: Pick<Entry, 'depthM' | 'isAsDived'>,
  units: SlateUnits,
): readonly Figure[] {
  return depths(depthM, isAsDived ? 'exposure' : 'plan', units);
}

/**
 * The depth that the figures beside a printed one must hold for: a plan is printed no deeper than it is, what was
 * dived no shallower, and then it is the printed depth that counts.
 * @returns metres
 */
export function depthAsPrintedM(
  { depthM, isAsDived }: Pick<Entry, 'depthM' | 'isAsDived'>,
  units: SlateUnits,
): number {
  if (!isAsDived) return depthM;
  const inMetres = units === 'imperial' ? 0 : up(depthM, 0.1);
  const inFeet = units === 'metric' ? 0 : up(depthM / M_PER_FOOT) * M_PER_FOOT;
  return Math.max(depthM, inMetres, inFeet);
}

/**
 * A dive's bottom time as it is printed, rounded as its depth is, to the tenth of a minute: in whole minutes
 * a plan past its no-stop time could read as one that keeps to it.
 */
export function diveTime({ bottomMin, isAsDived }: Pick<Entry, 'bottomMin' | 'isAsDived'>): Figure {
  return { value: signed(careful(bottomMin, isAsDived ? 'exposure' : 'plan', 0.1)), unit: 'min' };
}

/** A stretch of time as "2 h 05 min", rounded down: an interval is no longer than it is. */
export function intervalText(min: number): string {
  const whole = down(min);
  if (whole < 60) return `${signed(whole)} min`;
  const hours = Math.floor(whole / 60);
  return hours >= 48
    ? `${Math.floor(hours / 24)} days ${hours % 24} h`
    : `${hours} h ${String(whole % 60).padStart(2, '0')} min`;
}

/** PO2 in bar, up to the hundredth. */
export function po2Text(bar: number | null): string {
  return bar === null ? NONE : `${up(bar, 0.01).toFixed(2)} bar`;
}

/** A PO2 limit as it is set, "1.4" or "1.405": with the decimals it has, one to three. */
export function po2LimitText(bar: number): string {
  return down(bar, 0.001)
    .toFixed(3)
    .replace(/0{1,2}$/, '');
}

/** A share taken, as percent rounded up. */
export function percentUp(fraction: number | null): string {
  return fraction === null ? NONE : `${signed(up(100 * fraction))} %`;
}

/** Oxygen share as it was set or analysed, with the decimals it has, at most two. */
export function oxygenPercent(o2: number): string {
  return `${Number((100 * o2).toFixed(2))}`;
}

/** Name of a mix by its oxygen. Source: trade terms. */
export function mixName(o2: number): string {
  return Math.abs(o2 - 0.21) < DUST ? 'Air' : `EAN${oxygenPercent(o2)}`;
}

/** Time of day, "09:40" or "9:40 am": a start as it stands, what is reached rounded up to the minute. */
export function clockText(at: WallMin, clock: Clock): string {
  return fileWords(clockSaid(wallText(at).slice(11, 16), clock));
}

const WEEKDAYS = ['Thu', 'Fri', 'Sat', 'Sun', 'Mon', 'Tue', 'Wed'];
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** A date a person reads, "Sat 6 Mar 2027". @param date "2027-03-06" @param dayNumber days since 1970-01-01, a Thursday */
export function dateText(date: string, dayNumber: number): string {
  const [year, month, day] = date.split('-').map(Number);
  return `${WEEKDAYS[((dayNumber % 7) + 7) % 7]} ${day} ${MONTHS[month! - 1]} ${year}`;
}

/** Stops that a passed limit costs, "6 m 2 min, 3 m 9 min". */
export function stopsText(stops: readonly Stop[], units: SlateUnits): string {
  return stops.map((stop) => `${stopDepth(stop.depthM, units)} ${up(stop.min)} min`).join(', ');
}

/** A stop's depth, rounded to the deeper side. */
export function stopDepth(depthM: number, units: SlateUnits): string {
  return joined(depths(depthM, 'exposure', units));
}
