import type { Settings } from '../../core/host';

export interface PlaceName {
  readonly id: Settings['place'];
  readonly label: string;
}

/** The places of the window in the order of the header. */
export const PLACES: readonly PlaceName[] = [
  { id: 'days', label: 'Days' },
  { id: 'sites', label: 'Sites' },
  { id: 'mixes', label: 'Mixes' },
  { id: 'party', label: 'Party' },
  { id: 'slates', label: 'Slates' },
];
