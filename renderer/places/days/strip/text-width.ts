/**
 * How wide words are, without asking the page: what is drawn in the frame of an edit cannot wait for it. A little
 * generous, so that what fits by this fits; digits are exact, as figures have tabular ones.
 */

const OTHER_EM = 0.66;
const NARROW = "ijl,.;:!'|ft()[] ";
const SLIM = '/-r';
const WIDE = 'mwMW%@&';
const CAPITALS = 'ABCDEFGHIJKLNOPQRSTUVXYZ';

/** Of IBM Plex Sans Condensed, in em, by code; all else counts as a capital. */
const ADVANCES: readonly number[] = Array.from({ length: 128 }, (_, code) => {
  const character = String.fromCodePoint(code);
  if (NARROW.includes(character)) return 0.32;
  if (SLIM.includes(character)) return 0.38;
  if (WIDE.includes(character)) return 0.83;
  return CAPITALS.includes(character) ? OTHER_EM : 0.54;
});

/** The faces that words are set in, each with its width beside Condensed. */
export const FACES = { condensed: 1, condensedBold: 1.06, sans: 1.12, sansBold: 1.15, serif: 1.16 } as const;

export type Face = keyof typeof FACES;

/** @param px size of the type @returns pixels */
export function textWidth(text: string, face: Face, px: number): number {
  let em = 0;
  for (let at = 0; at < text.length; at += 1) em += ADVANCES[text.codePointAt(at)!] ?? OTHER_EM;
  return em * FACES[face] * px;
}

/** As much of a text as fits, with a sign that more was there. */
export function fitted(text: string, face: Face, px: number, mostPx: number): string {
  if (textWidth(text, face, px) <= mostPx) return text;
  let length = text.length;
  while (length > 1 && textWidth(`${text.slice(0, length)}…`, face, px) > mostPx) length -= 1;
  return `${text.slice(0, length).trimEnd()}…`;
}
