import type { SlateReading } from '../reading';

/** The columns of a card, millimetres of an A6 face. */
export interface Measure {
  readonly width: number;
  /** Depth gauge and watch. */
  readonly left: number;
  /** Where the line that parts the columns stands. */
  readonly rule: number;
  /** Where the right column begins. */
  readonly second: number;
  /** Pressure gauge. */
  readonly right: number;
}

/** White on either side of the line between the columns. */
const GUTTER = 2;

/** The right column with the white before it: psi has a figure more than bar. */
const RIGHT = 30;
const RIGHT_PSI = 32;

/** On less than this a row of a level finds no place even in two lines. */
export const LEAST_MEASURE = 78;

export function measureOf(width: number, units: SlateReading['units']): Measure {
  const whole = units === 'imperial' ? RIGHT_PSI : RIGHT;
  const rule = width - whole;
  return { width, left: rule - GUTTER, rule, second: rule + GUTTER, right: whole - GUTTER };
}
