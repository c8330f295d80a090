import type { WallTime } from './calendar';

/** What a figure counts; whoever shows it knows in which unit. */
export type Quantity =
  | 'depth'
  | 'speed'
  | 'pressure'
  | 'po2'
  | 'cylinder'
  | 'gas-rate'
  | 'minutes'
  | 'density'
  | 'share'
  | 'plain';

/** A figure within a sentence: a number in SI, a fraction where it is a share. */
export interface Figure {
  readonly quantity: Quantity;
  readonly si: number;
  /**
   * How it is rounded: not at all, as what was typed and refused; as figures are shown; or a least bound up
   * and a greatest one down, so that either is accepted as it is printed.
   */
  readonly toward: 'exact' | 'near' | 'up' | 'down';
  /** Left out where the figure behind it says the unit. */
  readonly isBare?: boolean;
}

/** A figure that people remember in their own units rather than convert: 200 bar, 3000 psi. */
export interface Usual {
  readonly quantity: Quantity;
  /** One, or the two ends of a range; shares as fractions. */
  readonly metric: readonly number[];
  /** In feet, psi, cubic feet. */
  readonly imperial: readonly number[];
}

/** A moment of the trip. */
export interface Moment {
  readonly moment: WallTime;
}

/** A day of the calendar, "2027-03-06". */
export interface Day {
  readonly day: string;
}

/** A time of day, "07:30". */
export interface TimeOfDay {
  readonly timeOfDay: string;
}

/** A thing of the trip by its id, which only a file shows. */
export interface Named {
  readonly of: 'dive' | 'earlier dive' | 'diver' | 'site' | 'mix';
  readonly id: string;
}

/** What a sentence begins with: in a file its place is told beside it, and "It" is enough. */
export interface Subject {
  readonly subject: Named;
}

/** What is worded otherwise for who edits a file than for who sits before the window. */
export interface Either {
  readonly file: Said;
  readonly window: Said;
}

export type Piece = string | Figure | Usual | Moment | Day | TimeOfDay | Named | Subject | Either;

/**
 * A sentence with its figures and names still open: core says what is the matter, and each edge puts it into
 * its own units, decimal sign, clock and names.
 */
export type Said = readonly Piece[];

/** Puts a sentence into words. */
export type Words = (said: Said) => string;

/** What is wrong and how to mend it, before it is worded. */
export interface SaidTrouble {
  readonly what: Said;
  readonly mend: Said;
}

/** A sentence from a template: said`Depth is ${figure}.`; a sentence put into it becomes part of it. */
export function said(texts: TemplateStringsArray, ...pieces: readonly (Piece | Said)[]): Said {
  return texts.flatMap((text, at) => {
    const piece = pieces[at];
    const behind: Said = piece === undefined ? [] : isSaid(piece) ? piece : [piece];
    return text === '' ? behind : [text, ...behind];
  });
}

function isSaid(piece: Piece | Said): piece is Said {
  return Array.isArray(piece);
}

/** A figure as it was given, or to be rounded as figures are shown. */
export function figure(quantity: Quantity, si: number, toward: Figure['toward'] = 'exact'): Figure {
  return { quantity, si, toward };
}

export function named(of: Named['of'], id: string): Named {
  return { of, id };
}

/** "1 to 100 m", of bounds that are accepted as they are printed. */
export function range(quantity: Quantity, min: number, max: number): Said {
  const least: Figure = { quantity, si: min, toward: 'up', isBare: true };
  const most: Figure = { quantity, si: max, toward: 'down' };
  return [least, ' to ', most];
}

const SI_SIGNS: Readonly<Record<Quantity, string>> = {
  depth: ' m',
  speed: ' m/min',
  pressure: ' bar',
  po2: ' bar',
  cylinder: ' L',
  'gas-rate': ' L/min',
  minutes: ' min',
  density: ' kg/m3',
  share: '',
  plain: '',
};

function inFile(piece: Piece): string {
  if (typeof piece === 'string') return piece;
  if ('si' in piece) return `${piece.si}${piece.isBare ? '' : SI_SIGNS[piece.quantity]}`;
  if ('metric' in piece) return `${piece.metric.join(' to ')}${SI_SIGNS[piece.quantity]}`;
  if ('moment' in piece) return piece.moment;
  if ('day' in piece) return piece.day;
  if ('timeOfDay' in piece) return piece.timeOfDay;
  if ('id' in piece) return `"${piece.id}"`;
  return 'subject' in piece ? 'It' : fileWords(piece.file);
}

/**
 * Words for who edits a trip file: SI units, fractions, ids and times as they stand there.
 * @param sentence any
 * @returns plain text
 */
export function fileWords(sentence: Said): string {
  return sentence.map(inFile).join('');
}

/**
 * A trouble in words.
 * @param trouble what is wrong and how to mend it @param words of whoever reads it
 */
export function worded(trouble: SaidTrouble, words: Words): { readonly what: string; readonly mend: string } {
  return { what: words(trouble.what), mend: words(trouble.mend) };
}
