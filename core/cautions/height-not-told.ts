import { isOneWater, waterAt } from '../document/waters';
import { CLIMB_FROM_M, stayAt } from '../ledger/climb-views';
import { wallMin } from '../words/calendar';
import { figure, named, said } from '../words/said';
import type { Rule } from './rule';

/** A dive at another height than the party stays at. Source: as in the rule. */
export const heightNotTold: Rule = {
  code: 'height-not-told',
  severity: 'change',
  source: said`common practice: 300 m (1 000 ft) and more are a change of altitude`,
  find: ({ trip }) => {
    if (isOneWater(trip) && (trip.events ?? []).length === 0) return [];
    return trip.dives.flatMap((dive) => {
      const siteM = waterAt(trip, dive).altitudeM;
      const atMin = wallMin(dive.startsAt);
      const { altitudeM, event } = stayAt(trip, atMin);
      if (Math.abs(siteM - altitudeM) < CLIMB_FROM_M) return [];
      const [at, stays] = [figure('altitude', siteM), figure('altitude', altitudeM)];
      const says =
        event === null
          ? said`${named('dive', dive.id)} is made at ${at}, and no event tells when the party leaves ${stays} for it: it counts as up there from the entry to the surfacing. Put the stay on the trip as an event.`
          : said`${named('dive', dive.id)} is made at ${at} while “${event.title}” has the party at ${stays}: mend the height of its site, or the event.`;
      return [{ diverId: null, diveId: null, atMin, says }];
    });
  },
};
