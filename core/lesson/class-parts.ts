/** What the workings of a class are put together from, on open circuit and on a loop alike. */
import type { Trip } from '../document/types';
import type { Entry } from '../ledger/ledger-types';
import { surroundingsOf } from '../profile';
import { fraction, type Formula } from '../words/formula';
import { worked, type Said } from '../words/said';

/** One figure of one gas: what is put in and what comes out, as it rounds. */
export interface PutIn {
  /** null: there is no such figure, and the result says why. */
  readonly put: Formula | null;
  /** Unrounded, in what core reckons in; null where there is no figure. */
  readonly exact: number | null;
  readonly result: Said;
}

/** Digits with which a sum done by hand comes out as the figure does. Source: choice of this project. */
export const BAR_DIGITS = 4;
export const LEG_DIGITS = 3;

/** A dive of the class. */
export interface Of {
  readonly entry: Entry;
  readonly trip: Trip;
  /** Ambient pressure at the depth, bar. */
  readonly bar: number;
}

export interface OfMix extends Of {
  readonly o2: number;
}

/** MOD of what has so much oxygen, with its numbers put in. Source: core/gas.ts. */
export function modOf(o2: number, { entry, trip }: Of): Formula {
  const { column } = surroundingsOf(trip);
  const { working } = entry.diver.po2;
  return [
    fraction(
      [fraction([worked(working, 1)], [worked(o2, 2)]), '−', worked(column.surfaceBar, BAR_DIGITS)],
      [worked(column.barPerM, BAR_DIGITS + 1)],
    ),
  ];
}
