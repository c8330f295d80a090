import type { Dive, Id, Site, Trip } from './types';

/** Looked through once for a list of sites: cautions ask at every dive of every diver. */
const known = new WeakMap<readonly Site[], ReadonlyMap<Id, Site>>();

/** The site of a dive, or of what else names one by its id. */
export function siteOf({ sites }: Pick<Trip, 'sites'>, { siteId }: Pick<Dive, 'siteId'>): Site | undefined {
  let byId = known.get(sites);
  if (byId === undefined) known.set(sites, (byId = new Map(sites.map((site) => [site.id, site]))));
  return byId.get(siteId);
}

/** What a dive's site is called; a site that is not on the trip is told by its id. */
export function siteName(trip: Pick<Trip, 'sites'>, dive: Pick<Dive, 'siteId'>): string {
  return siteOf(trip, dive)?.name ?? dive.siteId;
}
