/** An exercise and the ruler it is worked out with: types, and what is round in metres and in feet. */
import type { Formula } from '../words/formula';
import type { System } from '../words/quantity';
import { said, worked, type Said, type Worked } from '../words/said';

/** What is asked for, from the first lesson on. */
export const EXERCISE_KINDS = ['pressure', 'po2', 'mod', 'ead', 'richest', 'cns', 'residual'] as const;

export type ExerciseKind = (typeof EXERCISE_KINDS)[number];

/** How an exercise is headed. */
export const KIND_TITLES: Readonly<Record<ExerciseKind, Said>> = {
  pressure: said`Pressure`,
  po2: said`PO2`,
  mod: said`MOD`,
  ead: said`EAD`,
  richest: said`Richest mix`,
  cns: said`CNS of two dives`,
  residual: said`Residual nitrogen, by the government air table`,
};

/** What comes out, in the unit that stands behind the line it is written on. */
export interface ExerciseAnswer {
  readonly value: number;
  readonly decimals: number;
  readonly unit: string;
}

/** Rows of a table that are needed, the first cell of each being its head. */
export type NeededRows = readonly (readonly Said[])[];

export interface Exercise {
  readonly kind: ExerciseKind;
  /** The numbers put in, by name, in the units of the sheet; oxygen in percent, times in minutes. */
  readonly given: Readonly<Record<string, number>>;
  readonly asks: Said;
  readonly answer: ExerciseAnswer;
  /** How it comes out, up to the answer. */
  readonly working: Formula;
  /** What else is said of it, small. */
  readonly notes: readonly Said[];
  readonly rows: NeededRows | null;
}

/** The rule of thumb in one system: one more for every so much depth, and how deep an exercise goes. */
export interface Ruler {
  readonly system: System;
  /** Depth of one more bar or atmosphere. */
  readonly step: number;
  readonly depthUnit: 'm' | 'ft';
  readonly pressureUnit: 'bar' | 'atm';
  /** Decimals that a pressure at a depth of the ruler has. */
  readonly pressureDecimals: number;
  /** The depths asked about, whole, from shallow to deep. */
  readonly depths: readonly number[];
  /** Of these the ones for a first lesson. */
  readonly easyDepths: readonly number[];
  /** The deepest that a limit may lead to. */
  readonly deepest: number;
}

const METRES: Ruler = {
  system: 'metric',
  step: 10,
  depthUnit: 'm',
  pressureUnit: 'bar',
  pressureDecimals: 1,
  depths: Array.from({ length: 35 }, (_, i) => i + 6),
  easyDepths: [10, 15, 20, 25, 30, 35, 40],
  deepest: 40,
};

const FEET: Ruler = {
  system: 'imperial',
  step: 33,
  depthUnit: 'ft',
  pressureUnit: 'atm',
  pressureDecimals: 0,
  depths: [33, 66, 99, 132],
  easyDepths: [33, 66, 99, 132],
  deepest: 132,
};

/**
 * The ruler of a system. One bar more for every 10 m, one atmosphere more for every 33 ft; in feet only whole
 * atmospheres come out round.
 * Source: common practice, the rule of thumb of the trade.
 */
export function rulerOf(system: System): Ruler {
  return system === 'metric' ? METRES : FEET;
}

/** A number free of the dust of binary fractions, where it is known to have few decimals. Source: arithmetic. */
export function plain(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}

/** Whether a number has no more decimals than so many. Source: arithmetic. */
export function isRound(value: number, decimals: number): boolean {
  const scaled = value * 10 ** decimals;
  return Math.abs(scaled - Math.round(scaled)) < 1e-6;
}

/** A number as short as it is exact, at least so many decimals, at most three. Source: choice of this project. */
export function shortest(value: number, least = 0): Worked {
  const most = [0, 1, 2, 3].find((decimals) => isRound(value, decimals)) ?? 3;
  return worked(value, Math.max(least, most));
}

/** Pressure at a depth by the ruler. Source: common practice, the rule of thumb of the trade. */
export function pressureAt(depth: number, { step }: Ruler): number {
  return plain(depth / step + 1);
}

/** A depth of the sheet with its unit. */
export function depthSaid(depth: number, { depthUnit }: Ruler): Said {
  return said`${shortest(depth)} ${depthUnit}`;
}

/** A pressure of the sheet with its unit. */
export function pressureSaid(pressure: number, { pressureUnit }: Ruler): Said {
  return said`${shortest(pressure, 1)} ${pressureUnit}`;
}
