import type { Caution } from '../../../core/trip/ledger-types';
import type { Id } from '../../../core/trip/types';
import { countText } from '../../figures/format';

/** A caution and everybody whom it concerns in the same words; nobody where it concerns the party. */
export interface Told {
  readonly caution: Caution;
  readonly diverIds: readonly Id[];
}

/** What is said of several divers in the same words is told once: a party of twelve raises many such. */
export function toldTogether(cautions: readonly Caution[]): readonly Told[] {
  const together = new Map<string, { readonly caution: Caution; readonly diverIds: Id[] }>();
  for (const caution of cautions) {
    const { code, diveId, diverId, message } = caution;
    // What concerns one diver is not told with what concerns the party.
    const key = `${code}\n${diveId ?? ''}\n${diverId === null ? 'party' : 'diver'}\n${message}`;
    const held = together.get(key);
    if (held && diverId !== null) held.diverIds.push(diverId);
    else if (!held) together.set(key, { caution, diverIds: diverId === null ? [] : [diverId] });
  }
  return [...together.values()];
}

/** So many are named; more are counted. */
const NAMED = 3;

/** "Guide and Guest 1", "Guide, Guest 1, Guest 2 and nine more". */
export function someNamesText(names: readonly string[]): string {
  const rest = names.length - NAMED;
  return namesText(rest > 1 ? [...names.slice(0, NAMED), `${countText(rest)} more`] : names);
}

/** "Guide", "Guide and Guest 1", "Guide, Guest 1 and Guest 2". */
export function namesText(names: readonly string[]): string {
  const last = names.at(-1) ?? '';
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} and ${last}`;
}
