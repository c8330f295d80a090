/** Stops of an ascent in words. */
import { depthText, minutesText } from './format';
import type { System as Units } from '../../core/words/quantity';
import type { Stop } from '../../core/profile';

/** What a passed limit would cost, to the deeper side as on slates; empty inside it. */
export function stopsText(stops: readonly Stop[] | null, units: Units): string {
  if (stops === null) return 'no ascent on this gas is found';
  if (stops.length === 0) return '';
  const texts = stops.map(
    ({ depthM, min }) => `${minutesText(min, 'up')} at ${depthText(depthM, units, 'up')}`,
  );
  return `stops ${texts.join(', ')}`;
}
