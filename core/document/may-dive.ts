import type { Diver, Id, Site } from './types';

/** What a diver is trained to, as single words for comparing: "Advanced, nitrox" is two. */
function partsOf(certification: string): readonly string[] {
  return certification.split(/[,;]/).map((part) => part.trim().toLowerCase());
}

/**
 * Why a diver may not dive a site: the depth limit is less than the site asks for, or the training is one it is not for.
 * @returns null where the diver may
 * Source: what the trip file says of the site.
 */
export function keptOut(
  { notFor }: Pick<Site, 'notFor'>,
  { maxDepthM, certification = '' }: Pick<Diver, 'maxDepthM' | 'certification'>,
): 'depth' | 'certification' | null {
  if (notFor === undefined) return null;
  // Feet that were typed for both are compared through their rounding.
  if (notFor.depthLimitUnderM !== undefined && maxDepthM < notFor.depthLimitUnderM - 1e-9) return 'depth';
  const parts = partsOf(certification);
  const excluded = notFor.certifications?.flatMap(partsOf).filter((part) => part !== '') ?? [];
  return excluded.some((part) => parts.includes(part)) ? 'certification' : null;
}

/**
 * Who of a party dives a site, as a dive names them.
 * @returns left out where it is the whole party; null where nobody may
 * Source: as `keptOut`.
 */
export function diversFor(
  site: Pick<Site, 'notFor'>,
  party: readonly Diver[],
): { readonly divers?: readonly Id[] } | null {
  const may = party.filter((diver) => keptOut(site, diver) === null);
  if (may.length === 0) return null;
  return may.length === party.length ? {} : { divers: may.map(({ id }) => id) };
}
