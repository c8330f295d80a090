/**
 * A sentence with its figures, moments and names still open: core says what is the matter, and each reader has it in
 * their units, decimal sign, clock, names and language (reader.ts). What is written between `said` and its backticks
 * is language; what is put into it is not: text that is put in, such as a name, stands as it is.
 */
import { moreCareful, printed, type Bound, type Kind, type Quantity, type Toward } from './quantity';

/** A figure as faces show it: unit, digits and careful side are the quantity's. */
export interface Figure {
  readonly is: 'figure';
  readonly quantity: Quantity;
  /** In what core reckons in; null: there is none, and a dash stands for it. */
  readonly si: number | null;
  /** Left out where the figure behind it, or the head of its column, says the unit. */
  readonly isBare?: boolean;
}

/** A figure as it stands in a file or a field, and its bounds: a file has it as it is stored, fractions as such. */
export interface Typed {
  readonly is: 'typed';
  readonly kind: Kind | 'cylinder';
  readonly si: number;
  readonly bound: Bound;
  readonly isBare?: boolean;
}

/** A figure that people remember in their own units rather than convert: 200 bar, 3000 psi. */
export interface Usual {
  readonly is: 'usual';
  readonly kind: Kind | 'cylinder';
  /** One, or the two ends of a range; shares as fractions. */
  readonly metric: readonly number[];
  /** In feet, psi, cubic feet. */
  readonly imperial: readonly number[];
}

/** A cylinder as it is spoken of: by its water in litres, by the gas it holds when full in cubic feet. */
export interface Cylinder {
  readonly is: 'cylinder';
  readonly waterL: number;
  readonly fillBar: number;
}

/** A number of a calculation, in the unit of its formula and with so many decimals, for whoever checks the sum. */
export interface Worked {
  readonly is: 'worked';
  readonly value: number;
  readonly decimals: number;
}

/** A moment of the trip. */
export interface Moment {
  readonly is: 'moment';
  /** "2027-03-06T07:30" */
  readonly moment: string;
  /** Worked out rather than read: a file need not write it as it stores its own. */
  readonly isReckoned?: boolean;
}

/** A day of the calendar, "2027-03-06"; as the reader has days, or only so much of it. */
export interface Day {
  readonly is: 'day';
  readonly day: string;
  readonly form?: 'weekday' | 'month';
}

/** A time of day, "07:30". */
export interface TimeOfDay {
  readonly is: 'time of day';
  readonly timeOfDay: string;
}

/** A stretch of time, "2 h 05 min"; as on a clock where columns are narrow, "2:05". */
export interface Span {
  readonly is: 'span';
  readonly min: number;
  readonly toward: Toward;
  readonly form?: 'clock';
}

/** A thing of the trip by its id, which only a file shows. */
export interface Named {
  readonly is: 'named';
  readonly of: 'dive' | 'earlier dive' | 'diver' | 'site' | 'mix';
  readonly id: string;
}

/** What a sentence begins with: in a file its place is told beside it, and "It" is enough. */
export interface Subject {
  readonly is: 'subject';
  readonly subject: Named;
}

/** What is worded otherwise for who edits a file than for who sits before the window. */
export interface Either {
  readonly is: 'either';
  readonly file: Said;
  readonly window: Said;
}

/** A sentence, or a part of one. */
export interface Said {
  readonly is: 'said';
  /** The language: one text more than pieces. */
  readonly texts: readonly string[];
  readonly pieces: readonly Piece[];
}

/** Plain text and counts stand as they are in every language: names, what was typed, how many. */
export type Piece =
  | string
  | number
  | Figure
  | Typed
  | Usual
  | Cylinder
  | Worked
  | Moment
  | Day
  | TimeOfDay
  | Span
  | Named
  | Subject
  | Either
  | Said;

/** What is wrong and how to mend it, before it is worded. */
export interface SaidTrouble {
  readonly what: Said;
  readonly mend: Said;
}

/** A sentence from a template: said`${depth} is below the MOD of ${mod}`. */
export function said(texts: TemplateStringsArray, ...pieces: readonly Piece[]): Said {
  return { is: 'said', texts, pieces };
}

/** Nothing at all, where a part of a sentence may be missing. */
export const NOTHING: Said = said``;

/** Whether nothing would be said. */
export function isNothing({ texts, pieces }: Said): boolean {
  return pieces.length === 0 && texts[0] === '';
}

/** A figure as faces show it; null where there is none. */
export function figure(quantity: Quantity, si: number | null): Figure {
  return { is: 'figure', quantity, si };
}

/** The same without its unit. */
export function bare(quantity: Quantity, si: number | null): Figure {
  return { is: 'figure', quantity, si, isBare: true };
}

/** A figure as it was typed, or to be rounded as figures are. */
export function typed(kind: Typed['kind'], si: number, bound: Bound = 'exact'): Typed {
  return { is: 'typed', kind, si, bound };
}

/** "1 to 100 m", of bounds that are accepted as they are printed. */
export function range(kind: Typed['kind'], min: number, max: number): Said {
  return said`${{ ...typed(kind, min, 'up'), isBare: true }} to ${typed(kind, max, 'down')}`;
}

export function usual(kind: Usual['kind'], metric: readonly number[], imperial: readonly number[]): Usual {
  return { is: 'usual', kind, metric, imperial };
}

export function cylinder({ waterL, fillBar }: Omit<Cylinder, 'is'>): Cylinder {
  return { is: 'cylinder', waterL, fillBar };
}

export function worked(value: number, decimals: number): Worked {
  return { is: 'worked', value, decimals };
}

/** A moment as it is stored, "2027-03-06T07:30". */
export function moment(at: string): Moment {
  return { is: 'moment', moment: at };
}

export function dayOf(date: string, form?: Day['form']): Day {
  return form === undefined ? { is: 'day', day: date } : { is: 'day', day: date, form };
}

export function timeOfDay(time: string): TimeOfDay {
  return { is: 'time of day', timeOfDay: time };
}

export function span(min: number, toward: Span['toward']): Span {
  return { is: 'span', min, toward };
}

/** As hours and minutes of a clock, "2:05". */
export function clockSpan(min: number, toward: Span['toward']): Span {
  return { is: 'span', min, toward, form: 'clock' };
}

export function named(of: Named['of'], id: string): Named {
  return { is: 'named', of, id };
}

export function subject(of: Named['of'], id: string): Subject {
  return { is: 'subject', subject: named(of, id) };
}

export function either(file: Said, window: Said): Either {
  return { is: 'either', file, window };
}

/** Several things in a row: "a", "a and b", "a, b and c". */
export function listed(things: readonly Piece[], word: 'and' | 'or' = 'and'): Piece {
  const last = things.at(-1);
  if (last === undefined) return NOTHING;
  if (things.length === 1) return last;
  const head = inRow(things.slice(0, -1));
  return word === 'and' ? said`${head} and ${last}` : said`${head} or ${last}`;
}

/** Several things with commas between: "a, b, c"; what says nothing is passed over. */
export function inRow(things: readonly Piece[]): Piece {
  return joined(things, (before, next) => said`${before}, ${next}`);
}

/** Sentences one after the other; what says nothing is passed over. */
export function sentences(things: readonly Piece[]): Said {
  return said`${joined(things, (before, next) => said`${before} ${next}`)}`;
}

function joined(things: readonly Piece[], between: (before: Piece, next: Piece) => Said): Piece {
  let row: Piece | null = null;
  for (const thing of things) {
    if (thing === '' || (typeof thing === 'object' && thing.is === 'said' && isNothing(thing))) continue;
    row = row === null ? thing : between(row, thing);
  }
  return row ?? NOTHING;
}

/**
 * Whether two sentences read the same to a reader in metres and bar: the same words, and figures that print alike.
 * Without wording them: a party of twelve has thousands of findings, of which a page shows a few.
 */
export function saysSame(a: Piece, b: Piece): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a.is !== b.is) return false;
  if (a.is === 'said') {
    const other = b as Said;
    return (
      (a.texts === other.texts || isAlike(a.texts, other.texts)) &&
      a.pieces.length === other.pieces.length &&
      a.pieces.every((piece, at) => saysSame(piece, other.pieces[at]!))
    );
  }
  if (a.is === 'figure') {
    const { quantity, si, isBare } = b as Figure;
    if (a.quantity !== quantity || a.isBare !== isBare) return false;
    return a.si === null || si === null
      ? a.si === si
      : printed(a.si, quantity, 'metric') === printed(si, quantity, 'metric');
  }
  return JSON.stringify(a) === JSON.stringify(b);
}

function isAlike(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((text, at) => text === b[at]);
}

/**
 * Of sentences that read the same in metres and bar, the one with the most careful of their figures: in feet or psi
 * they may still differ.
 */
export function mostCareful(a: Said, b: Said): Said {
  return { ...a, pieces: a.pieces.map((piece, at) => carefulPiece(piece, b.pieces[at]!)) };
}

function carefulPiece(a: Piece, b: Piece): Piece {
  if (typeof a !== 'object' || typeof b !== 'object') return a;
  if (a.is === 'said' && b.is === 'said') return mostCareful(a, b);
  if (a.is !== 'figure' || b.is !== 'figure' || a.si === null || b.si === null) return a;
  return { ...a, si: moreCareful(a.quantity, a.si, b.si) };
}
