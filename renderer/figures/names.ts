import { listed } from '../../core/cautions/wording';
import { countText } from './format';

/** So many are named; more are counted. */
const NAMED = 3;

/** "Guide and Guest 1", "Guide, Guest 1, Guest 2 and nine more". */
export function someNamesText(names: readonly string[]): string {
  const rest = names.length - NAMED;
  return listed(rest > 1 ? [...names.slice(0, NAMED), `${countText(rest)} more`] : names);
}
