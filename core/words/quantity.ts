/**
 * What a figure is, in which unit each reader has it, with how many digits, and to which side it is rounded: to the
 * careful one. The only rounding of figures there is; what is rounded goes back into no formula.
 * Source: common practice of the trade: limits round down, exposures up; units as in units.ts.
 */
import { BAR_PER_PSI, L_PER_CUBIC_FOOT, M_PER_FOOT } from '../units';

/** A system of units; a reader may have both, one behind the other. */
export type System = 'metric' | 'imperial';

/** What is counted. */
export type Kind =
  | 'depth'
  | 'speed'
  | 'pressure'
  | 'po2'
  | 'volume'
  | 'gas-rate'
  | 'oxygen-rate'
  | 'loop-volume'
  | 'gas-density'
  | 'water-density'
  | 'temperature'
  | 'minutes'
  | 'share'
  | 'money'
  | 'plain';

export interface Unit {
  /** Behind a figure: "22 m". */
  readonly sign: string;
  /** One of these in what core reckons in. */
  readonly inSi: number;
}

function alike(sign: string, inSi = 1): Readonly<Record<System, Unit>> {
  return { metric: { sign, inSi }, imperial: { sign, inSi } };
}

const UNITS: Readonly<Record<Kind, Readonly<Record<System, Unit>>>> = {
  depth: { metric: { sign: 'm', inSi: 1 }, imperial: { sign: 'ft', inSi: M_PER_FOOT } },
  speed: { metric: { sign: 'm/min', inSi: 1 }, imperial: { sign: 'ft/min', inSi: M_PER_FOOT } },
  pressure: { metric: { sign: 'bar', inSi: 1 }, imperial: { sign: 'psi', inSi: BAR_PER_PSI } },
  volume: { metric: { sign: 'L', inSi: 1 }, imperial: { sign: 'cu ft', inSi: L_PER_CUBIC_FOOT } },
  'gas-rate': { metric: { sign: 'L/min', inSi: 1 }, imperial: { sign: 'cu ft/min', inSi: L_PER_CUBIC_FOOT } },
  // What a body uses up and what is in a loop are told in litres wherever feet and psi are.
  'oxygen-rate': alike('L/min'),
  'loop-volume': alike('L'),
  // Oxygen limits are read as bar wherever feet and psi are.
  po2: alike('bar'),
  'gas-density': alike('g/L'),
  'water-density': alike('kg/m³'),
  // Known as a usual figure alone: no factor leads from one of these scales to the other.
  temperature: { metric: { sign: '°C', inSi: NaN }, imperial: { sign: '°F', inSi: NaN } },
  minutes: alike('min'),
  share: alike('%', 0.01),
  money: alike(''),
  plain: alike(''),
};

/** The unit of a kind of figure. */
export function unitOf(kind: Kind, system: System): Unit {
  return UNITS[kind][system];
}

/** A figure of core in the unit of a system, not rounded. */
export function toUnit(si: number, kind: Kind, system: System): number {
  return si / UNITS[kind][system].inSi;
}

/** What was typed in the unit of a system, as core reckons. */
export function fromUnit(shown: number, kind: Kind, system: System): number {
  return kind === 'share' ? hundredth(shown) : shown * UNITS[kind][system].inSi;
}

/**
 * A hundredth of a number, by its digits: no hundredth is a binary fraction, so that 57 * 0.01 is 0.5700000000000001
 * and 34.7 / 100 is 0.34700000000000003.
 */
function hundredth(shown: number): number {
  const text = String(shown);
  return text.includes('e') ? shown / 100 : Number(`${text}e-2`);
}

/** Up: no less than it is. Down: no more. Near: as it was typed. Each below zero as well: -0.2 goes down to -1. */
export type Toward = 'up' | 'down' | 'near';

/** Decimals: as many as stand there always, and at most; -1 rounds to tens. */
type Decimals = readonly [least: number, most: number];

interface Shape {
  readonly kind: Kind;
  readonly toward: Toward;
  readonly decimals: Readonly<Record<System, Decimals>>;
}

function shape(kind: Kind, toward: Toward, metric: Decimals, imperial: Decimals = metric): Shape {
  return { kind, toward, decimals: { metric, imperial } };
}

const WHOLE: Decimals = [0, 0];
/** To the tenth where there is one. */
const TENTH: Decimals = [0, 1];
/** Gauges in psi are not read finer than in tens. Source: common practice. */
const TENS: Decimals = [0, -1];

/** Every kind of figure that faces show, by what it is to the diver. */
const SHAPES = {
  /** A depth that was or will be reached by what is counted: of exposures, of stops. */
  depthMet: shape('depth', 'up', TENTH, WHOLE),
  /** The depth that another one counts as. */
  depthCounted: shape('depth', 'up', WHOLE),
  /** A depth that was set, as a plan or a limit, wherever it stands: the figures beside it hold there, not a foot deeper. */
  depthSet: shape('depth', 'down', TENTH, WHOLE),
  /** A depth that follows from a limit, such as a MOD. */
  depthLimit: shape('depth', 'down', WHOLE),
  /** The same where the figure is what is left of a depth: to the decimetre. */
  depthLimitFine: shape('depth', 'down', [1, 1], WHOLE),
  /** A depth that is too great by so much. */
  depthMetFine: shape('depth', 'up', [1, 1], WHOLE),
  /** Height above the sea. */
  altitude: shape('depth', 'up', WHOLE),

  /** Minutes that are met or needed. */
  minutesMet: shape('minutes', 'up', WHOLE),
  /** Minutes that are allowed or left. */
  minutesLeft: shape('minutes', 'down', WHOLE),
  /** A time that was set: in whole minutes a plan past its no-stop time could read as one that keeps to it. */
  minutesSet: shape('minutes', 'down', TENTH),
  /** A time that was dived. */
  minutesDived: shape('minutes', 'up', TENTH),
  minutesTyped: shape('minutes', 'near', TENTH),

  /** What is in a cylinder. */
  pressureLeft: shape('pressure', 'down', WHOLE, TENS),
  /** What must be in it: turning with more is the careful side. */
  pressureNeeded: shape('pressure', 'up', WHOLE, TENS),
  pressureTyped: shape('pressure', 'near', WHOLE),
  gasUsed: shape('volume', 'up', WHOLE),
  gasLeft: shape('volume', 'down', WHOLE),
  /** The water a cylinder holds. */
  cylinderWater: shape('volume', 'near', TENTH),
  /** What a full cylinder holds at 1 bar: the size it is called by in cubic feet. */
  cylinderGas: shape('volume', 'near', WHOLE),
  rateTyped: shape('gas-rate', 'near', TENTH, [2, 2]),

  /** The oxygen of a mix: with the decimals it has, at most two. Richer is what its depth depends on. */
  oxygen: shape('share', 'up', [0, 2]),
  /** The richest that a limit leaves: mixes are ordered in whole percent. */
  oxygenLimit: shape('share', 'down', WHOLE),
  oxygenLimitFine: shape('share', 'down', TENTH),
  /** A ceiling of oxygen, as it was set. */
  oxygenSet: shape('share', 'down', [0, 2]),
  po2Met: shape('po2', 'up', [2, 2]),
  /** A limit of PO2 as it was set: none is set finer than a thousandth of a bar. Source: choice of this project. */
  po2Limit: shape('po2', 'down', [1, 3]),
  /** What is taken up of an allowance. */
  shareMet: shape('share', 'up', WHOLE),
  /** What is allowed of something. */
  shareLeft: shape('share', 'down', WHOLE),
  shareTyped: shape('share', 'near', TENTH),
  /** A share that an estimate knows to a tenth and no better. */
  shareRough: shape('share', 'near', TENS),
  /** Doses of oxygen for the lungs, in their own units. */
  doseMet: shape('plain', 'up', WHOLE),
  doseLeft: shape('plain', 'down', WHOLE),
  densityMet: shape('gas-density', 'up', [1, 1]),
  densityLimit: shape('gas-density', 'down', [1, 1]),

  /** In whatever money the trip reckons. */
  money: shape('money', 'near', [2, 2]),
  wholeMoney: shape('money', 'near', WHOLE),
} as const satisfies Record<string, Shape>;

export type Quantity = keyof typeof SHAPES;

/**
 * What binary fractions alone can be off by, in the last digit shown: a figure this close to one is it, else 33 m
 * would print as 32 and a PO2 of 1.40 as 1.41. A thousandth of a millimetre is nobody's metre.
 */
const DUST = 1e-6;

const POWERS = [1, 10, 100, 1000, 10_000, 100_000, 1_000_000] as const;

/**
 * A number rounded to so many decimals.
 * @param decimals -1 for tens, 0 for a whole number, to 6
 * @returns a multiple of the last digit, never "-0"
 */
export function rounded(value: number, decimals: number, toward: Toward): number {
  const scaled = decimals < 0 ? value / 10 : value * POWERS[decimals]!;
  const whole =
    toward === 'down'
      ? Math.floor(scaled + DUST)
      : toward === 'up'
        ? Math.ceil(scaled - DUST)
        : Math.round(scaled);
  // No minus sign before a zero.
  return whole === 0 ? 0 : decimals < 0 ? whole * 10 : whole / POWERS[decimals]!;
}

/** A figure as it is printed, as a number of its unit. */
export function printed(si: number, quantity: Quantity, system: System): number {
  const { kind, toward, decimals } = SHAPES[quantity];
  return rounded(toUnit(si, kind, system), decimals[system][1], toward);
}

/** The same as core reckons: what a reader takes the figure to be. Where both systems are printed, ask for each. */
export function printedSi(si: number, quantity: Quantity, system: System): number {
  return fromUnit(printed(si, quantity, system), SHAPES[quantity].kind, system);
}

/** How a reader writes numbers. */
export interface Signs {
  readonly decimal: string;
  readonly minus: string;
  /** Between thousands of money and of gas; absent: nothing, as in files. */
  readonly thousands?: string;
}

/** Thousands apart, whatever the reader's decimal sign. Source: SI Brochure, 9th edition, 5.4.4: a thin space. */
export const THIN_SPACE = '\u202F';

/** Digits with at least and at most so many decimals, the trailing zeros between left out. */
export function digits(value: number, least: number, most: number, toward: Toward, signs: Signs): string {
  const text = rounded(value, most, toward).toFixed(Math.max(0, most));
  return written(withoutZeros(text, most - least), signs);
}

function withoutZeros(text: string, atMost: number): string {
  let end = text.length;
  while (end > text.length - atMost && text.charAt(end - 1) === '0') end -= 1;
  return text.slice(0, text.charAt(end - 1) === '.' ? end - 1 : end);
}

/** A number's own text in the signs of a reader. */
export function written(text: string, { decimal, minus }: Signs): string {
  const point = decimal === '.' ? text : text.replace('.', decimal);
  return text.charAt(0) === '-' ? minus + point.slice(1) : point;
}

/** A figure and its unit apart, so that the unit can be set smaller or stand over a column. */
export interface Shown {
  readonly value: string;
  readonly unit: string;
}

/** Digits in threes before the decimal sign. */
function inThousands(text: string, { decimal, thousands = '' }: Signs): string {
  const point = text.indexOf(decimal);
  let end = point === -1 ? text.length : point;
  const groups = [text.slice(end)];
  for (; end > 3 && text.charAt(end - 4) >= '0' && text.charAt(end - 4) <= '9'; end -= 3) {
    groups.unshift(thousands + text.slice(end - 3, end));
  }
  return text.slice(0, end) + groups.join('');
}

/** A figure as it is shown in one system. */
export function shownIn(si: number, quantity: Quantity, system: System, signs: Signs): Shown {
  const { kind, toward, decimals } = SHAPES[quantity];
  const [least, most] = decimals[system];
  const value = digits(toUnit(si, kind, system), least, most, toward, signs);
  return {
    value: kind === 'money' || kind === 'volume' ? inThousands(value, signs) : value,
    unit: UNITS[kind][system].sign,
  };
}

/** Whether a figure reads the same in both systems, and so is told once. */
export function isOfOneUnit(quantity: Quantity): boolean {
  const { metric, imperial } = UNITS[SHAPES[quantity].kind];
  return metric.sign === imperial.sign;
}

/** The more careful of two figures of one quantity: of what is allowed the less, of what is met the more. */
export function moreCareful(quantity: Quantity, a: number, b: number): number {
  return SHAPES[quantity].toward === 'up' ? Math.max(a, b) : Math.min(a, b);
}

/** How a figure that was typed and refused, or a bound of it, is told: not rounded, or accepted as it is printed. */
export type Bound = 'exact' | 'near' | 'up' | 'down';

/** What is typed has no more decimals than this. Source: choice of this project. */
const TYPED_DECIMALS = 3;

/** Where feet and psi are read these are whole, as the fields show them. */
const WHOLE_IN_FEET: ReadonlySet<Kind> = new Set<Kind>(['depth', 'speed', 'pressure']);

/** A figure as a field has it. */
export function typedIn(si: number, kind: Kind, bound: Bound, system: System, signs: Signs): Shown {
  const isWhole = system === 'imperial' && WHOLE_IN_FEET.has(kind);
  const most = bound === 'exact' ? TYPED_DECIMALS : isWhole ? 0 : bound === 'near' ? 1 : 2;
  return {
    value: digits(toUnit(si, kind, system), 0, most, bound === 'exact' ? 'near' : bound, signs),
    unit: UNITS[kind][system].sign,
  };
}
