/** Stands for a space at which no line may break. Source: Unicode, U+00A0. */
export const NO_BREAK = '\u00a0';

const BEFORE_UNIT = /(?<=\d) (?=(?:%|m|ft|bar|psi|min|h|g|L|cu)(?![a-z]))/g;

/** A sentence whose figures stay with their units where its lines break: "28 %" is one word. */
export function keptTogether(sentence: string): string {
  return sentence.replaceAll(BEFORE_UNIT, NO_BREAK);
}
