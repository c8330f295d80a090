/**
 * A calculation as it is written down by hand, with its fractions open: each face sets it in its own way, the window
 * as MathML, a page in type, a terminal in one line.
 */
import type { Words } from './reader';
import { said, type Piece } from './said';

/** One above another, with a line between. */
export interface Fraction {
  readonly is: 'fraction';
  readonly over: Formula;
  readonly under: Formula;
}

/** Something raised to a power, or with something small below it. */
export interface Raised {
  readonly is: 'raised';
  readonly base: Formula;
  readonly power: Formula;
}

/** Words, numbers and signs as they stand. */
export type Term = Piece | Fraction | Raised;

/** Terms from left to right. */
export type Formula = readonly Term[];

export function fraction(over: Formula, under: Formula): Fraction {
  return { is: 'fraction', over, under };
}

export function raised(base: Formula, power: Formula): Raised {
  return { is: 'raised', base, power };
}

/** Whether a term is set in two heights. */
export function isBuilt(term: Term): term is Fraction | Raised {
  return typeof term === 'object' && (term.is === 'fraction' || term.is === 'raised');
}

/** What stands above or below in one line: in brackets where it is more than one word. */
function inBrackets(formula: Formula, words: Words): string {
  const text = formulaText(formula, words);
  return text.includes(' ') ? `(${text})` : text;
}

/** Whether two neighbours stand without a blank between them: at the inner side of brackets, and before a comma. */
export function areJoined(before: string, after: string): boolean {
  return before.endsWith('(') || /^[),]/.test(after);
}

/** A formula in one line: "0.32 × (25 / 10 + 1)". */
export function formulaText(formula: Formula, words: Words): string {
  let line = '';
  for (const term of formula) {
    const text = termText(term, words);
    line += line === '' || areJoined(line, text) ? text : ` ${text}`;
  }
  return line;
}

function termText(term: Term, words: Words): string {
  if (!isBuilt(term)) return words(said`${term}`);
  return term.is === 'fraction'
    ? `${inBrackets(term.over, words)} / ${inBrackets(term.under, words)}`
    : `${inBrackets(term.base, words)}^${inBrackets(term.power, words)}`;
}
