/** Where the lines of a text end, for whoever can tell what is wide enough for one. */
import { keptTogether, NO_BREAK } from '../line-breaks';
import { wordByWord } from './markup';

const ELLIPSIS = '\u2026';

/** Whether a part of a text has room on a line. */
export type Fits = (part: string) => boolean;

/** What was to hold together and is too wide: figures still stay with their units, and what is too wide then does not. */
function brokenUp(word: string, fits: Fits): readonly string[] {
  return wordByWord(keptTogether(word.replaceAll(NO_BREAK, ' ')))
    .split(' ')
    .flatMap((part) => (fits(part) ? [part] : wordByWord(part.replaceAll(NO_BREAK, ' ')).split(' ')));
}

/** Breaks a text at its spaces, but for those before units, and a word longer than the line wherever it must. */
export function linesOf(text: string, fits: Fits): readonly string[] {
  const lines: string[] = [];
  let line = '';
  const words = wordByWord(keptTogether(text))
    .split(' ')
    .flatMap((word) => (fits(word) ? [word] : brokenUp(word, fits)));
  for (const word of words.filter((each) => each !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    if (fits(word)) {
      line = word;
      continue;
    }
    for (const letter of word) {
      if (line !== '' && !fits(line + letter)) {
        lines.push(line);
        line = '';
      }
      line += letter;
    }
  }
  if (line !== '') lines.push(line);
  return lines.map((each) => each.replaceAll(NO_BREAK, ' '));
}

/** A line cut until it fits, with an ellipsis for what is gone. */
export function shortened(line: string, fits: Fits): string {
  const letters = Array.from(line);
  const cut = (): string => `${letters.join('').trimEnd()}${ELLIPSIS}`;
  while (letters.length > 0 && !fits(cut())) letters.pop();
  return cut();
}
