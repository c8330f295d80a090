import { waterAt } from '../document/waters';
import type { Id, Trip } from '../document/types';
import { figure, inRow, said, typed, type Said } from '../words/said';
import type { Water } from '../water';

const NAMES = {
  gauge: said`water as gauges reckon`,
  salt: said`sea water`,
  fresh: said`fresh water`,
} as const;

function densitySaid(density: Water['density']): Said {
  return typeof density === 'number'
    ? said`water of ${typed('water-density', density, 'near')}`
    : NAMES[density];
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
