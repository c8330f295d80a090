/**
 * Figures of a page, one a unit: which quantity of core/words each is. They are rounded there, once and the careful
 * way: what is allowed down, what is taken up. No rounded value goes back into a formula.
 */
import { printedSi, rounded, type Quantity, type Shown } from '../words/quantity';
import { pageReader, shown, wordsOf, type Reader } from '../words/reader';
import { dayOf, figure, said, type Piece } from '../words/said';
import { mixSaid } from '../words/terms';
import type { Entry } from '../ledger/ledger-types';

export type SlateUnits = Reader['units'];

/** A figure in one unit, the unit apart, so that it can be set smaller. */
export type Figure = Shown;

const READERS = {
  metric: pageReader('metric'),
  imperial: pageReader('imperial'),
  both: pageReader('both'),
} as const;

function read(piece: Piece): string {
  return wordsOf(READERS.metric)(said`${piece}`);
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

/** PO2 in bar, up to the hundredth. */
export function po2Text(bar: number | null): string {
  return read(figure('po2Met', bar));
}

/** A share taken, as percent rounded up. */
export function percentUp(fraction: number | null): string {
  return read(figure('shareMet', fraction));
}

/** Name of a mix by its oxygen. */
export function mixName(o2: number): string {
  return read(mixSaid(o2));
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

/** A date a person reads, "Sat 6 Mar 2027". @param date "2027-03-06" */
export function dateText(date: string): string {
  return read(dayOf(date));
}
