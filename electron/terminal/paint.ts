/**
 * Colours, as signs that no text has a use for (Unicode calls them noncharacters) until the answer is printed: so what
 * could steer a terminal can be taken out of the whole of it, names and paths included, and the colours stay.
 */
const INKS = {
  /** What must stop. */
  stop: { mark: '\uFDD0', code: '1;31' },
  change: { mark: '\uFDD1', code: '33' },
  strong: { mark: '\uFDD2', code: '1' },
} as const;

const END = '\uFDD3';

export type Ink = keyof typeof INKS;

/** A text in a colour; as it is where none are shown. */
export function inked(text: string, ink: Ink, isColored: boolean): string {
  return isColored ? `${INKS[ink].mark}${text}${END}` : text;
}

/** The signs of a text as those of a terminal. Source: ECMA-48, select graphic rendition. */
export function painted(text: string): string {
  return Object.values(INKS)
    .reduce((before, { mark, code }) => before.replaceAll(mark, `\u001B[${code}m`), text)
    .replaceAll(END, '\u001B[0m');
}
