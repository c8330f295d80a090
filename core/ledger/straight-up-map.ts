import { ascentLegs, type Surroundings } from '../profile';
import { identity, type AffineMap } from '../tissues/affine-map';
import { breathedMap } from '../tissues/breathed-legs';

/**
 * The way straight to the surface at the trip's ascent rate, no stop made.
 * @param depthM metres, 0 or more: from the surface nothing changes
 * @returns the map of it
 * Source: CONVENTIONS, "Share of the limit"; maps as in tissues/leg-map.ts.
 */
export function straightUpMap(depthM: number, around: Surroundings): AffineMap {
  return depthM <= 0 ? identity : breathedMap(ascentLegs(depthM, [], around), around.breathing);
}
