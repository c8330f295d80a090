/** Ways up after dives, for paper. */
import { siteOf } from '../document/site-of';
import type { Trip } from '../document/types';
import type { ClimbViews } from '../ledger/climb-views';
import { momentAt } from '../words/calendar';
import { figure, said, type Said } from '../words/said';
import { stressed, unmarked } from './markup';

/**
 * From when on a diver may go up: "Over the pass, 2,100 m: not before Sun 14, 08:10."
 * Source: as `climbViews`.
 */
export function climbClearSaid(views: ClimbViews, trip: Pick<Trip, 'sites'>): Said {
  const { climb, clearMin } = views;
  const { event, dive, toM } = climb;
  const place = event?.title ?? (dive && siteOf(trip, dive)?.name) ?? '';
  const clear = said`${unmarked(place)}, ${figure('altitude', toM)}: not before ${stressed(momentAt(clearMin))}`;
  return climb.atMin < clearMin ? said`${clear}, ${stressed(said`planned too soon`)}.` : said`${clear}.`;
}
