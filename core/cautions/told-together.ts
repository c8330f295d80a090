import type { Id } from '../document/types';
import type { Caution } from './caution';
import { mostCareful, saysSame, type Said } from '../words/said';

/** A caution and everybody whom it concerns in the same words; nobody where it concerns the party. */
export interface Told {
  readonly caution: Caution;
  readonly diverIds: readonly Id[];
}

/** Those of one key that say the same, in the order of the first of each. */
export function alike<Each extends { readonly says: Said }>(
  all: readonly Each[],
  keyOf: (each: Each) => string | null,
): readonly (readonly Each[])[] {
  const byKey = new Map<string | null, Each[][]>();
  const groups: Each[][] = [];
  for (const each of all) {
    const key = keyOf(each);
    let ofKey = byKey.get(key);
    if (ofKey === undefined) byKey.set(key, (ofKey = []));
    const group = ofKey.find(([first]) => saysSame(first!.says, each.says));
    if (group) group.push(each);
    else {
      const fresh = [each];
      ofKey.push(fresh);
      groups.push(fresh);
    }
  }
  return groups;
}

/** What concerns one diver is not told with what concerns the party. */
function subjectOf({ code, diveId, diverId }: Caution): string {
  return `${code}\n${diveId ?? ''}\n${diverId === null ? 'party' : 'diver'}`;
}

const known = new WeakMap<readonly Caution[], readonly Told[]>();

/**
 * What is said of several divers in the same words is told once: a party of twelve raises many such.
 * @returns in the order of the first of each; of the same list the same
 */
export function toldTogether(cautions: readonly Caution[]): readonly Told[] {
  let told = known.get(cautions);
  if (!told) known.set(cautions, (told = groupsTold(cautions)));
  return told;
}

function groupsTold(cautions: readonly Caution[]): readonly Told[] {
  return alike(cautions, subjectOf).map((group) => {
    const first = group[0]!;
    return {
      caution: { ...first, says: group.map(({ says }) => says).reduce(mostCareful) },
      diverIds: first.diverId === null ? [] : group.map(({ diverId }) => diverId!),
    };
  });
}
