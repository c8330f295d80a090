import type { Leg } from '../profile';
import { type Words } from '../words/reader';
import { momentAt, type WallMin } from '../words/calendar';
import { said } from '../words/said';
import type { WorkingsStep } from './types';

/** A number with a fixed count of digits after the point, never "-0". */
export function digits(value: number, count: number): string {
  const text = value.toFixed(count);
  return Number(text) === 0 ? (0).toFixed(count) : text;
}

/** Enough digits that a person's sum comes out as the figure does. Source: choice of this project. */
export function bar(value: number): string {
  return `${digits(value, 4)} bar`;
}

export function metres(value: number): string {
  return `${digits(value, 2)} m`;
}

/** A digit more than what comes out, so that sums come out as shown. Source: choice of this project. */
export function minutes(value: number): string {
  return `${digits(value, 3)} min`;
}

export function minutesOut(value: number): string {
  return `${digits(value, 2)} min`;
}

export function litres(value: number): string {
  return `${digits(value, 2)} L`;
}

export function litresOut(value: number): string {
  return `${digits(value, 1)} L`;
}

/** An oxygen fraction or a share, in percent: "32.0 %". */
export function percent(fraction: number, count = 1): string {
  return `${digits(fraction * 100, count)} %`;
}

/** A moment of the trip, to the minute, as the reader has moments. */
export function momentText(at: WallMin, words: Words): string {
  return words(said`${momentAt(at)}`);
}

const LEG_NAMES: Readonly<Record<Leg['kind'], string>> = {
  descent: 'Down',
  level: 'Level',
  travel: 'Between levels',
  ascent: 'Up',
  stop: 'Stop',
};

/** A leg as the label of a step: "3. Up 20 to 5 m, 1.67 min"; the number tells legs apart that are alike. */
export function legLabel({ kind, fromM, toM, min }: Leg, number: number): string {
  const depth = fromM === toM ? `${trimmed(fromM)} m` : `${trimmed(fromM)} to ${trimmed(toM)} m`;
  return `${number}. ${LEG_NAMES[kind]} ${depth}, ${minutesOut(min)}`;
}

/** A depth as short as it is exact to the tenth. */
function trimmed(m: number): string {
  return String(Number(m.toFixed(1)));
}

/** A step for each leg that takes time. */
export function legSteps(legs: readonly Leg[], value: (leg: Leg) => string): readonly WorkingsStep[] {
  return legs
    .filter((leg) => leg.min > 0)
    .map((leg, index) => ({ label: legLabel(leg, index + 1), value: value(leg) }));
}
