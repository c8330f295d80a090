/** The waters a trip can be in, as choices. */
import type { System as Units } from '../../core/words/quantity';

/** A bar is told in feet of what gauges reckon with where feet are read: 1 bar over 1019.7 kg/m3 is 10 m, or 32.8 ft. */
export function waterChoices(units: Units) {
  return [
    { value: 'gauge', label: `As gauges are calibrated, ${units === 'metric' ? '10 m' : '32.8 ft'} a bar` },
    { value: 'salt', label: 'Sea water' },
    { value: 'fresh', label: 'Fresh water' },
  ] as const;
}
