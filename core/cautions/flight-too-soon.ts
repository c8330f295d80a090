import { said, type Said } from '../words/said';
import { momentAt, wallMin } from '../words/calendar';
import { flyingRow, HOURS_BEFORE_FLIGHT, type FlyingRow } from '../ledger/flying';
import { eachDiver, type Rule } from './rule';
import { FLYING_SOURCE } from './sources';

const AFTER: Readonly<Record<FlyingRow, Said>> = {
  oneNoStopDive: said`after one no-stop dive`,
  severalDivesOrDays: said`after several dives or days of diving`,
  requiredStops: said`after a dive with required stops`,
  unknownMix: said`after a dive whose mix is not known`,
};

/** A flight before flying is clear. Source: as in the rule. */
export const flightTooSoon: Rule = {
  code: 'flight-too-soon',
  severity: 'stop',
  source: FLYING_SOURCE,
  find: (ledger) => {
    const { flight } = ledger.trip;
    if (flight === null) return [];
    const flightMin = wallMin(flight.at);
    const search = eachDiver((diverLedger) => {
      const { flyAfterMin } = diverLedger;
      if (flyAfterMin === null || flightMin >= flyAfterMin) return [];
      const row = flyingRow(diverLedger)!;
      const hours = HOURS_BEFORE_FLIGHT[row];
      const says = said`The flight leaves before flying is clear on ${momentAt(flyAfterMin)}, ${hours} h ${AFTER[row]}: be out of the water by ${momentAt(flightMin - hours * 60)}, or take a later flight.`;
      return [{ diveId: null, atMin: flightMin, says }];
    });
    return search(ledger);
  },
};
