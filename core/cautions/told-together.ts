import type { Id } from '../document/types';
import type { Caution } from './caution';

/** A caution and everybody whom it concerns in the same words; nobody where it concerns the party. */
export interface Told {
  readonly caution: Caution;
  readonly diverIds: readonly Id[];
}

/**
 * What is said of several divers in the same words is told once: a party of twelve raises many such.
 * @returns in the order of the first of each
 */
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
