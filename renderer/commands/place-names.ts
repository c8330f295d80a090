import type { Settings } from '../../core/host';

export interface PlaceName {
  readonly id: Settings['place'];
  readonly label: string;
  /** Other words it is looked for by. */
  readonly finds: string;
}

/** The places of the window in the order of the header. */
export const PLACES: readonly PlaceName[] = [
  { id: 'days', label: 'Days', finds: 'plan strip schedule home' },
  { id: 'sites', label: 'Sites', finds: 'places spots map' },
  { id: 'mixes', label: 'Mixes', finds: 'gas nitrox oxygen fills stock blend' },
  { id: 'party', label: 'Party', finds: 'divers guests people group buddies' },
  { id: 'slates', label: 'Slates', finds: 'pdf print paper cards briefing export' },
];
