import { planOf } from '../ledger/dive-plan';
import { reckonedOf } from '../ledger/gas-outcome';
import { figure, said, type Said } from '../words/said';
import { contentL, lastsMin } from '../supply';
import type { Entry } from '../ledger/ledger-types';
import type { Place } from './rule';

/** Minutes from leaving the surface until the cylinder holds so much; null where it never comes to that. */
function reachedMin(entry: Entry, gaugeBar: number, { ledger }: Place): number | null {
  const { diver, o2 } = entry;
  const { waterL } = diver.cylinder;
  const spareL = entry.gas.contentL! - contentL(waterL, gaugeBar, o2!, ledger.trip.settings.gasLaw);
  const { legs } = reckonedOf(planOf(ledger.trip, entry), entry);
  return lastsMin(legs, diver.surfaceRateLpm, Math.max(0, spareL));
}

/** When the cylinder comes to a gauge pressure on a dive, as the end of a sentence. */
export function lasts(entry: Entry, gaugeBar: number, place: Place): Said {
  const min = reachedMin(entry, gaugeBar, place);
  return min === null ? said`at the end` : said`after ${figure('minutesLeft', min)}`;
}
