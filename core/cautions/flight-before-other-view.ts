import { FLIGHT_VIEW_NAMES } from '../ledger/flight-said';
import { momentAt, wallMin } from '../words/calendar';
import { said } from '../words/said';
import { eachDiver, type Rule } from './rule';
import { FLIGHT_TABLE_SOURCE } from './sources';

/**
 * A flight that keeps the published hours and is earlier than the table's or the model's wait: one more reason to wait.
 * Source: as in the rule.
 */
export const flightBeforeOtherView: Rule = {
  code: 'flight-before-other-view',
  severity: 'change',
  source: said`${FLIGHT_TABLE_SOURCE}; that the latest of the views counts is this project’s careful reading`,
  find: (ledger) => {
    const { flight } = ledger.trip;
    if (flight === null) return [];
    const flightMin = wallMin(flight.at);
    const search = eachDiver(({ flight: views }) => {
      if (views === null || flightMin < views.guideline.clearMin || flightMin >= views.clearMin) return [];
      const says = said`The flight keeps the published hours and leaves before flying is clear on ${momentAt(views.clearMin)} by another view (${FLIGHT_VIEW_NAMES[views.latest]}): take a later flight, or end the diving earlier.`;
      return [{ diveId: null, atMin: flightMin, says }];
    });
    return search(ledger);
  },
};
