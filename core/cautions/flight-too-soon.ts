import { wallMin } from '../words/calendar';
import { flyingRow, HOURS_BEFORE_FLIGHT, type FlyingRow } from '../ledger/flying';
import { eachDiver, type Rule } from './rule';
import { FLYING_SOURCE } from './sources';

const AFTER: Readonly<Record<FlyingRow, string>> = {
  oneNoStopDive: 'after one no-stop dive',
  severalDivesOrDays: 'after several dives or days of diving',
  requiredStops: 'after a dive with required stops',
  unknownMix: 'after a dive whose mix is not known',
};

/** A flight before flying is clear. Source: as in the rule. */
export const flightTooSoon: Rule = {
  code: 'flight-too-soon',
  severity: 'stop',
  source: FLYING_SOURCE,
  find: (ledger, say) => {
    const { flight } = ledger.trip;
    if (flight === null) return [];
    const flightMin = wallMin(flight.at);
    const search = eachDiver((diverLedger) => {
      const { flyAfterMin } = diverLedger;
      if (flyAfterMin === null || flightMin >= flyAfterMin) return [];
      const row = flyingRow(diverLedger)!;
      const hours = HOURS_BEFORE_FLIGHT[row];
      const message =
        `The flight leaves before flying is clear on ${say.moment(flyAfterMin)}, ${hours} h ${AFTER[row]}: be out of the water ` +
        `by ${say.moment(flightMin - hours * 60)}, or take a later flight.`;
      return [{ diveId: null, atMin: flightMin, message }];
    });
    return search(ledger, say);
  },
};
