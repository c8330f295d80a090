import { least } from '../../core/numeric';

/** So many letters may be wrong, missing, too many or swapped. */
const MOST_SLIPS = 2;

/** Texts that are longer than any name are none that was mistyped. */
const LONGEST = 40;

/**
 * Letters to change, add, take away or swap with the next until one text is the other.
 * Source: F. J. Damerau 1964; V. I. Levenshtein 1966 (optimal string alignment).
 */
function slips(one: string, other: string): number {
  let before: number[] = [];
  let row = Array.from({ length: other.length + 1 }, (_, at) => at);
  for (let i = 1; i <= one.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= other.length; j += 1) {
      const isAlike = one[i - 1] === other[j - 1];
      const isSwapped = i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1];
      next[j] = least([
        row[j]! + 1,
        next[j - 1]! + 1,
        row[j - 1]! + (isAlike ? 0 : 1),
        ...(isSwapped ? [before[j - 2]! + 1] : []),
      ]);
    }
    [before, row] = [row, next];
  }
  return row[other.length]!;
}

/** Of some names the one that was most likely meant; null where none is near. */
export function nearest(typed: string, names: readonly string[]): string | null {
  if (typed.length > LONGEST) return null;
  const [found] = names
    .map((name) => ({ name, off: slips(typed, name) }))
    .filter(({ name, off }) => off <= MOST_SLIPS || (typed.length > 3 && name.startsWith(typed)))
    .toSorted((a, b) => a.off - b.off);
  return found?.name ?? null;
}
