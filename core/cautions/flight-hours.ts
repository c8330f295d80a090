import { said } from '../words/said';
import { wallMin } from '../words/calendar';
import type { Rule } from './rule';
import { FLYING_SOURCE } from './sources';

/** What the hours before a flight do not promise, said wherever a flight is planned. Source: as in the rule. */
export const flightHours: Rule = {
  code: 'flight-hours',
  severity: 'know',
  source: said`${FLYING_SOURCE}; D. Cialoni et al., Aviat Space Environ Med 2014;85(10):993-998`,
  find: ({ trip, divers }) =>
    trip.flight === null || divers.every(({ flyAfterMin }) => flyAfterMin === null)
      ? []
      : [
          {
            diverId: null,
            diveId: null,
            atMin: wallMin(trip.flight.at),
            says: said`The hours before flying are the least that is advised: after a week aboard, bubbles were found in some divers in flight even after 24 h. Leave more time where you can.`,
          },
        ],
};
