/** Stands for a space at which no line may break. Source: Unicode, U+00A0. */
export const NO_BREAK = '\u00a0';

const BEFORE_UNIT = /(?<=\d) (?=(?:%|m|ft|bar|psi|min|h|g|L|cu)(?![a-z]))/g;

/** Within what is one figure of two units, or of a unit of two words: "3 h 09 min", "1 day 4 h", "77.4 cu ft". */
const WITHIN_FIGURE = /(?<=\d (?:h|days?)) (?=\d)|(?<=\d cu) (?=ft(?![a-z]))/g;

/** A sentence whose figures stay with their units where its lines break: "28 %" is one word. */
export function keptTogether(sentence: string): string {
  return sentence.replaceAll(WITHIN_FIGURE, NO_BREAK).replaceAll(BEFORE_UNIT, NO_BREAK);
}
