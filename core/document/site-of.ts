import type { Dive, Id, Site, Trip } from './types';

/** Looked through once for a list of sites: cautions ask at every dive of every diver. */
const known = new WeakMap<readonly Site[], ReadonlyMap<Id, Site>>();

/** The site of a dive. */
export function siteOf({ sites }: Pick<Trip, 'sites'>, { siteId }: Pick<Dive, 'siteId'>): Site | undefined {
  let byId = known.get(sites);
  if (byId === undefined) known.set(sites, (byId = new Map(sites.map((site) => [site.id, site]))));
  return byId.get(siteId);
}
