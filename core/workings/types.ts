import { type Words } from '../words/reader';
import type { DiverLedger, Entry } from '../ledger/ledger-types';
import type { Trip } from '../document/types';

/** Every figure of every dive that can be asked for its workings, in the order a person reads them. */
export const FIGURES = [
  'noStopMin',
  'stops',
  'leading',
  'room.min',
  'room.m',
  'earlierMin',
  'interval',
  'modM',
  'po2Bar',
  'eadM',
  'gasDensityGL',
  'cns.before',
  'cns.after',
  'cns.day',
  'otu.dive',
  'otu.day',
  'otu.trip',
  'esot.dive',
  'esot.day',
  'usedL',
  'endBar',
  'minimumBar',
  'turnBar',
  'flyAfter',
  'climbs',
  'clearAt',
  'secondOpinion',
] as const;

/** Of a dive of several levels, the limit of each, counted from 0. */
export type LevelFigure = `levels.${number}`;

export type FigureId = (typeof FIGURES)[number] | LevelFigure;

/** A number put in, or a figure on the way. */
export interface WorkingsStep {
  readonly label: string;
  readonly value: string;
}

/**
 * How one figure comes about. Depths in metres and pressures in bar, as the formulas have them; between two digits
 * a point is the decimal sign and nothing else, but for the source.
 */
export interface Workings {
  readonly figure: FigureId;
  readonly title: string;
  readonly formula: string;
  readonly steps: readonly WorkingsStep[];
  /** The outcome in words and digits, before any rounding for display. */
  readonly result: string;
  /** The outcome worked out from the numbers put in; null where there is none, and for text. */
  readonly exact: number | null;
  readonly source: string;
}

/** What is known about the figure before it is asked for. */
export interface WorkingsContext {
  readonly trip: Trip;
  /** The ledger the entry stands in. */
  readonly diverLedger: DiverLedger;
  /** Puts moments into words. */
  readonly words: Words;
}

/** A figure of a dive that is made. */
export interface Asked extends WorkingsContext {
  readonly entry: Entry;
  readonly o2: number;
}

/** One figure's workings but for its id. */
export type Work = (asked: Asked) => Omit<Workings, 'figure'>;
