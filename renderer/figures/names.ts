import { fileWords } from '../../core/words/reader';
import { said } from '../../core/words/said';
import { someSaid } from '../../core/words/terms';

/** "Guide and Guest 1", "Guide, Guest 1, Guest 2 and nine more". */
export function someNamesText(names: readonly string[]): string {
  return fileWords(said`${someSaid(names)}`);
}

/** Whether people would take two names for one: capitals and spaces around them tell nobody apart. */
export function isSameName(a: string, b: string): boolean {
  return a.trim().toLowerCase() === b.trim().toLowerCase();
}

/** The first name that a list has twice; null where each is one of its own. */
export function firstTwin(names: readonly string[]): string | null {
  return names.find((name, i) => names.slice(0, i).some((before) => isSameName(before, name))) ?? null;
}
