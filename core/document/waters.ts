import { surroundingsOf, type Surroundings } from '../profile';
import type { Water } from '../water';
import type { Id, Site, Trip } from './types';

/** What of a trip says in which water a dive is made. */
type Waters = Pick<Trip, 'water' | 'sites'>;

/** Of what a dive says where it is. */
interface AtSite {
  readonly siteId?: Id;
}

const joined = new WeakMap<Site, WeakMap<Water, Water>>();

/**
 * The water of a site: what it says of its own, the trip's for the rest.
 * @returns the same object while site and trip's water are
 * Source: the trip file of this project.
 */
export function waterOf(site: Site, water: Water): Water {
  if (site.water === undefined) return water;
  let ofSite = joined.get(site);
  if (!ofSite) joined.set(site, (ofSite = new WeakMap()));
  let made = ofSite.get(water);
  if (!made) ofSite.set(water, (made = { ...water, ...site.water }));
  return made;
}

const ownKnown = new WeakMap<readonly Site[], ReadonlyMap<Id, Site>>();

/** The sites with a water of their own, by their ids: none on most trips. */
function sitesWithOwn(sites: readonly Site[]): ReadonlyMap<Id, Site> {
  let own = ownKnown.get(sites);
  if (!own) {
    own = new Map(sites.filter(({ water }) => water !== undefined).map((site) => [site.id, site]));
    ownKnown.set(sites, own);
  }
  return own;
}

/**
 * The water a dive is made in: its site's, or the trip's for a dive that names no site.
 * Source: as `waterOf`.
 */
export function waterAt({ water, sites }: Waters, { siteId }: AtSite): Water {
  const own = sitesWithOwn(sites);
  const site = own.size === 0 || siteId === undefined ? undefined : own.get(siteId);
  return site === undefined ? water : waterOf(site, water);
}

/**
 * Water and rates of a dive: all that its pressures depend on besides itself.
 * @returns the same object while water and rates stay the same
 * Source: as `waterOf`.
 */
export function surroundingsAt(trip: Waters & Pick<Trip, 'settings'>, dive: AtSite): Surroundings {
  return surroundingsOf({ water: waterAt(trip, dive), settings: trip.settings });
}

/** The water of a place where no dive is yet: of a site looked at, or chosen for a dive to come. */
export function surroundingsOfSite(trip: Waters & Pick<Trip, 'settings'>, site: Site): Surroundings {
  return surroundingsOf({ water: waterOf(site, trip.water), settings: trip.settings });
}

/** Whether every dive of a trip is in the trip's own water. */
export function isOneWater({ sites }: Pick<Trip, 'sites'>): boolean {
  return sitesWithOwn(sites).size === 0;
}
