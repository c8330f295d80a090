import { waterAt } from '../document/waters';
import type { Id, Trip } from '../document/types';
import { figure, inRow, listed, NOTHING, said, typed, type Piece, type Said } from '../words/said';
import type { Water } from '../water';

const NAMES = {
  gauge: said`water as gauges are calibrated`,
  salt: said`sea water`,
  fresh: said`fresh water`,
} as const;

function densitySaid(density: Water['density']): Said {
  return typeof density === 'number'
    ? said`water of ${typed('water-density', density, 'near')}`
    : NAMES[density];
}

/**
 * Of figures that hold in the trip's own water where some sites have another: "For sea water at 0 m, not for Upper Tarn."
 * @param name as a face sets what was typed @returns nothing where all of the trip is in one water
 * Source: the trip file of this project.
 */
export function forOwnWaterSaid(trip: Trip, name: (text: string) => Piece = (text) => text): Said {
  const others = trip.sites.filter(({ id }) => ownWaterSaid(trip, id) !== null);
  if (others.length === 0) return NOTHING;
  const { density, altitudeM } = trip.water;
  const names = listed(others.map((site) => name(site.name)));
  return said`For ${densitySaid(density)} at ${figure('altitude', altitudeM)}, not for ${names}.`;
}

/**
 * What of the water at a site is not as the trip's: "at 640 m, fresh water".
 * @returns null where nothing is
 * Source: the trip file of this project.
 */
export function ownWaterSaid(trip: Trip, siteId: Id): Said | null {
  const { altitudeM, density } = waterAt(trip, { siteId });
  const parts = [
    ...(altitudeM === trip.water.altitudeM ? [] : [said`at ${figure('altitude', altitudeM)}`]),
    ...(density === trip.water.density ? [] : [densitySaid(density)]),
  ];
  return parts.length === 0 ? null : said`${inRow(parts)}`;
}
