/**
 * Figures of a page, one a unit: which quantity of core/words each is. They are rounded there, once and the careful
 * way: what is allowed down, what is taken up. No rounded value goes back into a formula.
 */
import { momentAt, timeAt, type Clock, type WallMin } from '../words/calendar';
import { printedSi, rounded, type Quantity, type Shown } from '../words/quantity';
import { pageReader, shown, wordsOf, type Reader } from '../words/reader';
import type { SlateReading } from './reading';
import { bare, dayOf, figure, said, span, type Piece } from '../words/said';
import { mixSaid, NONE } from '../words/terms';
import type { Entry } from '../ledger/ledger-types';
import type { Stop } from '../profile';

export { NONE };

export type SlateUnits = Reader['units'];

export type { SlateReading };

/** A figure in one unit, the unit apart, so that it can be set smaller. */
export type Figure = Shown;

const READERS = {
  metric: pageReader('metric'),
  imperial: pageReader('imperial'),
  both: pageReader('both'),
} as const;

/** What has no units of choice, or all of them, as whoever holds the page reads it. */
function read(piece: Piece, units: SlateUnits = 'metric', clock: Clock = '24h'): string {
  return wordsOf({ ...READERS[units], clock })(said`${piece}`);
}

function figuresOf(quantity: Quantity, si: number | null, units: SlateUnits = 'metric'): readonly Figure[] {
  return shown(figure(quantity, si), READERS[units]);
}

/** Decimals of the last digit that a step stands for: 0.1, 0.01 or 0.001. */
function decimalsOf(step: number): number {
  return step > 0.05 ? 1 : step > 0.005 ? 2 : 3;
}

function toStep(value: number, step: number, toward: 'up' | 'down'): number {
  return step < 1 ? rounded(value, decimalsOf(step), toward) : rounded(value / step, 0, toward) * step;
}

/** Down to a multiple of `step`. */
export function down(value: number, step = 1): number {
  return toStep(value, step, 'down');
}

/** Up to a multiple of `step`. */
export function up(value: number, step = 1): number {
  return toStep(value, step, 'up');
}

/** Where no limit is ever met. */
export const NO_LIMIT: Figure = { value: 'no limit', unit: '' };

export function words({ value, unit }: Figure): string {
  return unit === '' ? value : `${value} ${unit}`;
}

const WAYS = { limit: 'depthLimit', plan: 'depthSet', exposure: 'depthMet' } as const;

/**
 * A depth in the units asked for, one figure a unit.
 * @param depthM metres; null: no such figure
 * @param way a limit (down to the whole metre or foot); what is planned (down to the tenth of a metre or the
 *   whole foot: the no-stop time printed beside it holds there, and not a foot deeper); or what was dived (up to
 *   the same)
 */
export function depths(depthM: number | null, way: keyof typeof WAYS, units: SlateUnits): readonly Figure[] {
  return figuresOf(WAYS[way], depthM, units);
}

/**
 * A gauge pressure to keep to, rounded up: turning with more in the cylinder is the careful side.
 * @param gaugeBar bar; null: no such figure @returns whole bar, and psi in steps of 10
 */
export function pressuresUp(gaugeBar: number | null, units: SlateUnits): readonly Figure[] {
  return figuresOf('pressureNeeded', gaugeBar, units);
}

/** A gauge pressure that is there, rounded down. */
export function pressuresDown(gaugeBar: number | null, units: SlateUnits): readonly Figure[] {
  return figuresOf('pressureLeft', gaugeBar, units);
}

/** Figures of one quantity in several units, "24 m / 79 ft". */
export function joined(figures: readonly Figure[]): string {
  return figures.map(words).join(' / ');
}

/** Minutes that are allowed or planned, rounded down. */
export function minutesDown(min: number | null): Figure {
  return figuresOf('minutesLeft', min)[0]!;
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
  const inMetres = units === 'imperial' ? 0 : printedSi(depthM, 'depthMet', 'metric');
  const inFeet = units === 'metric' ? 0 : printedSi(depthM, 'depthMet', 'imperial');
  return Math.max(depthM, inMetres, inFeet);
}

/**
 * A dive's bottom time as it is printed, rounded as its depth is, to the tenth of a minute: in whole minutes
 * a plan past its no-stop time could read as one that keeps to it.
 */
export function diveTime({ bottomMin, isAsDived }: Pick<Entry, 'bottomMin' | 'isAsDived'>): Figure {
  return figuresOf(isAsDived ? 'minutesDived' : 'minutesSet', bottomMin)[0]!;
}

/** A stretch of time as "2 h 05 min", rounded down: an interval is no longer than it is. */
export function intervalText(min: number): string {
  return read(span(min, 'down'));
}

/** PO2 in bar, up to the hundredth. */
export function po2Text(bar: number | null): string {
  return read(figure('po2Met', bar));
}

/** A PO2 limit as it is set, "1.4" or "1.405": with the decimals it has, one to three. */
export function po2LimitText(bar: number): string {
  return read(bare('po2Limit', bar));
}

/** A share taken, as percent rounded up. */
export function percentUp(fraction: number | null): string {
  return read(figure('shareMet', fraction));
}

/** Oxygen share as it was set or analysed, with the decimals it has, at most two. */
export function oxygenPercent(o2: number): string {
  return read(bare('oxygen', o2));
}

/** Name of a mix by its oxygen. */
export function mixName(o2: number): string {
  return read(mixSaid(o2));
}

/** Time of day, "09:40" or "9:40 am": a start as it stands, what is reached rounded up to the minute. */
export function clockText(at: WallMin, clock: Clock): string {
  return read(timeAt(at), 'metric', clock);
}

/** A date a person reads, "Sat 6 Mar 2027". @param date "2027-03-06" */
export function dateText(date: string): string {
  return read(dayOf(date));
}

/** A moment with its date, "Fri 12 Mar 2027, 04:45", rounded up to the minute. */
export function momentText(at: WallMin | null, clock: Clock): string {
  return at === null ? NONE : read(momentAt(at), 'metric', clock);
}

/** Stops that a passed limit costs, "6 m 2 min, 3 m 9 min". */
export function stopsText(stops: readonly Stop[], units: SlateUnits): string {
  return stops
    .map(({ depthM, min }) => read(said`${figure('depthMet', depthM)} ${figure('minutesMet', min)}`, units))
    .join(', ');
}

/** A stop's depth, rounded to the deeper side. */
export function stopDepth(depthM: number, units: SlateUnits): string {
  return joined(depths(depthM, 'exposure', units));
}
