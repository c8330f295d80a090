import { wholeDown } from '../gas';
import { wallText, type WallMin } from '../words/calendar';
import { BAR_PER_PSI, M_PER_FOOT } from '../units';

export type Units = 'metric' | 'imperial';

/** No PO2 limit is set finer than a thousandth of a bar. Source: choice of this project. */
const LIMIT_DIGITS = 3;

/** Takes a figure that rounding alone put above a step down to it. */
const DUST = 1e-9;

function up(value: number, digits: number): number {
  const scale = 10 ** digits;
  return Math.ceil(value * scale - DUST * scale) / scale;
}

function down(value: number, digits: number): number {
  const scale = 10 ** digits;
  return Math.floor(value * scale + DUST * scale) / scale;
}

/**
 * Figures as text, always to the careful side: what is met rounds up, what is allowed rounds down.
 * Depths in whole metres or feet where they are limits, to the tenth of a metre where they are dived.
 */
export interface Wording {
  readonly depthMet: (m: number) => string;
  readonly depthAllowed: (m: number) => string;
  /** A limit that a diver set: to the tenth of a metre, as it is shown. */
  readonly depthSet: (m: number) => string;
  /** Height above the sea. */
  readonly altitude: (m: number) => string;
  readonly pressureLeft: (bar: number) => string;
  readonly pressureNeeded: (bar: number) => string;
  /** An oxygen fraction in percent, rounded up to the tenth: "32 %", "32.4 %". */
  readonly percentO2: (o2: number) => string;
  /** A PO2 that was met, rounded up to the hundredth: "1.47 bar". */
  readonly po2Met: (bar: number) => string;
  /** A limit of PO2 as it was set: "1.4 bar". */
  readonly po2Limit: (bar: number) => string;
  /** A gas density that was met, rounded up to the tenth: "5.9 g/L". */
  readonly densityMet: (gL: number) => string;
  /** A limit of gas density as it was published: "5.2 g/L". */
  readonly densityLimit: (gL: number) => string;
  /** A moment, rounded up to the minute: "2027-03-13 at 09:10". */
  readonly moment: (min: WallMin) => string;
  /** A day of the calendar, "2027-03-13". */
  readonly day: (date: string) => string;
}

/** How a reader writes what is the same in both systems. */
export interface Reading {
  /** The decimal sign; a point where nothing is said. */
  readonly decimalSign?: string;
  /** A moment in wall-clock minutes; as in a file where nothing is said. */
  readonly moment?: (min: WallMin) => string;
  /** A day of the calendar; as in a file where nothing is said. */
  readonly day?: (date: string) => string;
}

type InUnits = Pick<
  Wording,
  'depthMet' | 'depthAllowed' | 'depthSet' | 'altitude' | 'pressureLeft' | 'pressureNeeded'
>;

/** Depths that were met have tenths, and so a decimal sign; the others are whole. */
const METRIC: InUnits = {
  depthMet: (m) => `${up(m, 1)} m`,
  depthAllowed: (m) => `${wholeDown(m)} m`,
  depthSet: (m) => `${down(m, 1)} m`,
  altitude: (m) => `${up(m, 0)} m`,
  pressureLeft: (bar) => `${wholeDown(bar)} bar`,
  pressureNeeded: (bar) => `${up(bar, 0)} bar`,
};

/** Whole feet: a depth entered in feet comes back through metres with rounding far under a thousandth. */
const FOOT_DUST = 1e-6;

const IMPERIAL: InUnits = {
  depthMet: (m) => `${Math.ceil(m / M_PER_FOOT - FOOT_DUST)} ft`,
  depthAllowed: (m) => `${Math.floor(m / M_PER_FOOT + FOOT_DUST)} ft`,
  depthSet: (m) => `${Math.floor(m / M_PER_FOOT + FOOT_DUST)} ft`,
  altitude: (m) => `${Math.ceil(m / M_PER_FOOT - FOOT_DUST)} ft`,
  pressureLeft: (bar) => `${Math.floor(bar / BAR_PER_PSI + FOOT_DUST)} psi`,
  pressureNeeded: (bar) => `${Math.ceil(bar / BAR_PER_PSI - FOOT_DUST)} psi`,
};

/** The wording in the units a person reads, with their decimal sign and their way to write days and moments. */
export function wordingIn(units: Units, reading: Reading = {}): Wording {
  const { decimalSign = '.', moment = fileMoment, day = (date) => date } = reading;
  const signed = (text: string): string => text.replace('.', decimalSign);
  const inUnits = units === 'metric' ? METRIC : IMPERIAL;
  return {
    ...inUnits,
    depthMet: (m) => signed(inUnits.depthMet(m)),
    depthSet: (m) => signed(inUnits.depthSet(m)),
    percentO2: (o2) => signed(`${up(o2 * 100, 1)} %`),
    po2Met: (bar) => signed(`${up(bar, 2).toFixed(2)} bar`),
    po2Limit: (bar) => signed(`${down(bar, LIMIT_DIGITS)} bar`),
    densityMet: (gL) => signed(`${up(gL, 1).toFixed(1)} g/L`),
    densityLimit: (gL) => signed(`${gL} g/L`),
    moment,
    day,
  };
}

function fileMoment(min: WallMin): string {
  return wallText(min).replace('T', ' at ');
}

/** A share that was met in whole percent, rounded up: "83 %". */
export function percentMet(fraction: number): string {
  return `${up(fraction * 100, 0)} %`;
}

/** Minutes that are allowed or left, rounded down: "38 min". */
export function minAllowed(min: number): string {
  return `${wholeDown(min)} min`;
}

/** Minutes that were met, rounded up: "39 min". */
export function minMet(min: number): string {
  return `${up(min, 0)} min`;
}

/** A duration in hours and minutes, rounded down: "3 h 10 min", "2 h", "40 min". */
export function durationDown(min: number): string {
  const whole = wholeDown(min);
  const hours = Math.floor(whole / 60);
  const rest = whole - hours * 60;
  return [hours > 0 ? `${hours} h` : '', rest > 0 || hours === 0 ? `${rest} min` : '']
    .filter(Boolean)
    .join(' ');
}

/** Several things in a row: "a", "a and b", "a, b and c". */
export function listed(things: readonly string[], word: 'and' | 'or' = 'and'): string {
  const last = things[things.length - 1] ?? '';
  return things.length < 2 ? last : `${things.slice(0, -1).join(', ')} ${word} ${last}`;
}
