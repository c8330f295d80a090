/** Who reads, and how a sentence reads to them. */
import { clockSaid, dateSaid, momentSaid, spanSaid, type Clock, type Dates } from './calendar';
import {
  digits,
  isOfOneUnit,
  shownIn,
  THIN_SPACE,
  toUnit,
  typedIn,
  unitOf,
  type Shown,
  type Signs,
  type System,
} from './quantity';
import {
  said,
  type Cylinder,
  type Figure,
  type Named,
  type Piece,
  type Said,
  type SaidTrouble,
  type Typed,
  type Usual,
} from './said';
import { NONE } from './terms';

/**
 * Another language: what stands in place of a text of the product, "{0} is below the MOD of {1}". What it does not
 * know it gives back.
 */
export type Language = (text: string) => string;

/** Who reads: everything that faces differ in. */
export interface Reader {
  /** Figures in both are told one behind the other. */
  readonly units: System | 'both';
  readonly signs: Signs;
  readonly clock: Clock;
  readonly dates: Dates;
  /** What is called by a name rather than its id; absent for who edits a file, and knows the ids. */
  readonly nameOf?: (of: Named) => Said;
  /** Of the cylinder that is spoken of: feet and psi call it by the gas it holds when full. */
  readonly fillBar?: number | undefined;
  /** Absent: as the product is written. */
  readonly language?: Language | undefined;
}

/** Puts a sentence into words. */
export type Words = (sentence: Said) => string;

/** Who edits a trip file: SI units, fractions, ids and times as they stand there. */
export const FILE_READER: Reader = {
  units: 'metric',
  signs: { decimal: '.', minus: '-' },
  clock: '24h',
  dates: 'stored',
};

/** A proper minus, as wide as a digit. */
export const MINUS = '\u2212';

/** Who holds a page, or sits before a terminal: whole dates, as a page is looked at long after it was made. */
export function pageReader(units: Reader['units'], language?: Language): Reader {
  return {
    units,
    signs: { decimal: '.', minus: MINUS, thousands: THIN_SPACE },
    clock: '24h',
    dates: 'full',
    language,
  };
}

/** The same reader with one figure for each: in a sentence two would be hard to read. */
export function inOneSystem(reader: Reader): Reader {
  return reader.units === 'both' ? { ...reader, units: 'metric' } : reader;
}

/** The words of a reader. */
export function wordsOf(reader: Reader): Words {
  return (sentence) => sentenceWords(sentence, reader);
}

/** The words of a trip file and of what is told about it. */
export const fileWords: Words = wordsOf(FILE_READER);

/** A trouble in words. */
export function worded(trouble: SaidTrouble, words: Words): { readonly what: string; readonly mend: string } {
  return { what: words(trouble.what), mend: words(trouble.mend) };
}

function systemsOf({ units }: Reader): readonly System[] {
  return units === 'both' ? ['metric', 'imperial'] : [units];
}

/** A figure with its units apart: one for each system the reader has, where they differ. */
export function shown({ quantity, si }: Figure, reader: Reader): readonly Shown[] {
  if (si === null) return [{ value: NONE, unit: '' }];
  const systems = isOfOneUnit(quantity) ? (['metric'] as const) : systemsOf(reader);
  return systems.map((system) => shownIn(si, quantity, system, reader.signs));
}

/** The first letter as a sentence begins. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function sentenceWords({ texts, pieces }: Said, reader: Reader): string {
  if (reader.language !== undefined) return translated(texts, pieces, reader, reader.language);
  let text = texts[0]!;
  for (let at = 0; at < pieces.length; at += 1) text += pieceWords(pieces[at]!, reader) + texts[at + 1]!;
  return text;
}

/** The whole template is looked up, as another language may put its figures in another order. */
function translated(
  texts: readonly string[],
  pieces: readonly Piece[],
  reader: Reader,
  language: Language,
): string {
  const template = texts.reduce((before, text, at) => `${before}{${at - 1}}${text}`);
  // What is put in alone, such as a name, is no language.
  const there = texts.every((text) => text === '') ? template : language(template);
  return there.replaceAll(/\{(\d+)\}/g, (_, at: string) => pieceWords(pieces[Number(at)]!, reader));
}

function pieceWords(piece: Piece, reader: Reader): string {
  if (typeof piece === 'string') return piece;
  if (typeof piece === 'number') return String(piece);
  switch (piece.is) {
    case 'said':
      return sentenceWords(piece, reader);
    case 'figure':
      return figureWords(piece, reader);
    case 'typed':
      return typedWords(piece, reader);
    case 'usual':
      return usualWords(piece, reader);
    case 'cylinder':
      return cylinderWords(piece, reader);
    case 'worked':
      return digits(piece.value, piece.decimals, piece.decimals, 'near', reader.signs);
    case 'moment':
      return sentenceWords(momentSaid(piece, reader.dates, reader.clock), reader);
    case 'day':
      return sentenceWords(dateSaid(piece.day, reader.dates, piece.form), reader);
    case 'time of day':
      return sentenceWords(clockSaid(piece.timeOfDay, reader.clock), reader);
    case 'span':
      return sentenceWords(spanSaid(piece, reader.signs.minus), reader);
    case 'named':
      return nameWords(piece, reader);
    case 'subject':
      return reader.nameOf === undefined
        ? sentenceWords(said`It`, reader)
        : capital(nameWords(piece.subject, reader));
    case 'either':
      return sentenceWords(reader.nameOf === undefined ? piece.file : piece.window, reader);
  }
}

function nameWords(name: Named, reader: Reader): string {
  return reader.nameOf === undefined ? `"${name.id}"` : sentenceWords(reader.nameOf(name), reader);
}

function figureWords(figure: Figure, reader: Reader): string {
  return shown(figure, reader)
    .map(({ value, unit }) => (figure.isBare || unit === '' ? value : `${value} ${unit}`))
    .join(' / ');
}

function cylinderWords({ waterL, fillBar }: Cylinder, reader: Reader): string {
  return systemsOf(reader)
    .map((system) =>
      system === 'metric'
        ? shownIn(waterL, 'cylinderWater', system, reader.signs)
        : shownIn(waterL * fillBar, 'cylinderGas', system, reader.signs),
    )
    .map(({ value, unit }) => `${value} ${unit}`)
    .join(' / ');
}

/** Behind a cylinder's size where its fill is not known: the gas it holds cannot be told. */
const OF_WATER = said`L of water`;

function typedWords(piece: Typed, reader: Reader): string {
  if (reader.dates === 'stored') return storedWords(piece);
  const [system] = systemsOf(reader);
  const { value, unit } =
    piece.kind === 'cylinder'
      ? cylinderIn(piece, reader)
      : typedIn(piece.si, piece.kind, piece.bound, system!, reader.signs);
  return piece.isBare || unit === '' ? value : `${value} ${unit}`;
}

/** As a file has it, whatever that is in words: a share is a fraction there. */
function storedWords({ kind, si, isBare }: Typed): string {
  const { sign } = unitOf(kind === 'cylinder' ? 'volume' : kind, 'metric');
  return isBare || kind === 'share' || sign === '' ? String(si) : `${si} ${sign}`;
}

function cylinderIn({ si, bound }: Typed, reader: Reader): Shown {
  const [system] = systemsOf(reader);
  if (system === 'metric') return typedIn(si, 'volume', bound, 'metric', reader.signs);
  if (reader.fillBar === undefined) {
    const { value } = typedIn(si, 'volume', bound, 'metric', reader.signs);
    return { value, unit: sentenceWords(OF_WATER, reader) };
  }
  const capacity = toUnit(si * reader.fillBar, 'volume', 'imperial');
  return {
    value: digits(capacity, 0, 1, bound === 'exact' ? 'near' : bound, reader.signs),
    unit: unitOf('volume', 'imperial').sign,
  };
}

function usualWords({ kind, metric, imperial }: Usual, reader: Reader): string {
  if (reader.dates === 'stored') {
    const { sign } = unitOf(kind === 'cylinder' ? 'volume' : kind, 'metric');
    return `${metric.join(' to ')}${kind === 'share' || sign === '' ? '' : ` ${sign}`}`;
  }
  const [system] = systemsOf(reader);
  const own = system === 'metric' ? metric : imperial;
  const texts = own.map((value) =>
    digits(kind === 'share' ? value * 100 : value, 0, 2, 'near', reader.signs),
  );
  // A cylinder of so many cubic feet is called so whatever it is filled to.
  const { sign } = unitOf(kind === 'cylinder' ? 'volume' : kind, system!);
  const [first, last] = texts;
  const between = last === undefined ? first! : sentenceWords(said`${first!} to ${last}`, reader);
  return sign === '' ? between : `${between} ${sign}`;
}
