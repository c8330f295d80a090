/**
 * How parts of a sentence are set otherwise than the rest: what is a depth is slanted, as soundings on a chart are, and
 * what is looked for is stressed. Signs of the private use area stand around them until the type is set.
 */
import { said, type Piece, type Said } from '../words/said';

const SLANT = '\ue000';
const STRESS = '\ue002';
const END_SLANT = '\ue001';
const END_STRESS = '\ue003';
const SIGNS = /[\ue000-\ue003]/g;

/** A depth. */
export function slanted(piece: Piece): Said {
  return said`${SLANT}${piece}${END_SLANT}`;
}

/** What is looked for in a line. */
export function stressed(piece: Piece): Said {
  return said`${STRESS}${piece}${END_STRESS}`;
}

/** A text of the user's, which may hold any sign but these. */
export function unmarked(text: string): string {
  return text.replaceAll(SIGNS, '');
}

/** A part of a line that is set in one face. */
export interface Run {
  readonly text: string;
  readonly isSlanted: boolean;
  readonly isStressed: boolean;
}

/** A line taken apart at its signs; white between two parts that are set alike belongs to them. */
export function runsOf(line: string): readonly Run[] {
  const runs: Run[] = [];
  let [isSlanted, isStressed] = [false, false];
  let text = '';
  const end = (): void => {
    if (text !== '') {
      const [before, white] = [runs[runs.length - 2], runs[runs.length - 1]];
      if (before?.isSlanted === isSlanted && before.isStressed === isStressed && white?.text.trim() === '') {
        runs.splice(-2, 2, { ...before, text: before.text + white.text + text });
      } else runs.push({ text, isSlanted, isStressed });
    }
    text = '';
  };
  for (const letter of line) {
    if (letter < SLANT || letter > END_STRESS) {
      text += letter;
      continue;
    }
    end();
    if (letter === SLANT || letter === END_SLANT) isSlanted = letter === SLANT;
    else isStressed = letter === STRESS;
  }
  end();
  return runs;
}

/** The same line with every word marked by itself, so that it may be broken at any space. */
export function wordByWord(line: string): string {
  if (line.search(SIGNS) < 0) return line;
  return runsOf(line)
    .map(({ text, isSlanted, isStressed }) => {
      const on = `${isSlanted ? SLANT : ''}${isStressed ? STRESS : ''}`;
      const off = `${isStressed ? END_STRESS : ''}${isSlanted ? END_SLANT : ''}`;
      return text
        .split(' ')
        .map((word) => (word === '' ? '' : `${on}${word}${off}`))
        .join(' ');
    })
    .join('');
}
