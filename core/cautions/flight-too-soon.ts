import { said } from '../words/said';
import { momentAt, wallMin } from '../words/calendar';
import { flyingRowSaid } from '../ledger/flight-said';
import { eachDiver, type Rule } from './rule';
import { FLYING_SOURCE } from './sources';

/** A flight before flying is clear. Source: as in the rule. */
export const flightTooSoon: Rule = {
  code: 'flight-too-soon',
  severity: 'stop',
  source: FLYING_SOURCE,
  find: (ledger) => {
    const { flight } = ledger.trip;
    if (flight === null) return [];
    const flightMin = wallMin(flight.at);
    const search = eachDiver(({ flight: views }) => {
      if (views === null || flightMin >= views.guideline.clearMin) return [];
      const { row, hours, clearMin } = views.guideline;
      const says = said`The flight leaves before flying is clear on ${momentAt(clearMin)}, ${hours} h ${flyingRowSaid(row)}: be out of the water by ${momentAt(flightMin - hours * 60)}, or take a later flight.`;
      return [{ diveId: null, atMin: flightMin, says }];
    });
    return search(ledger);
  },
};
