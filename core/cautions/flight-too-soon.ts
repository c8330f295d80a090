import { wallMin } from '../trip/clock';
import { flyingRow, HOURS_BEFORE_FLIGHT, type FlyingRow } from '../trip/flying';
import { eachDiver, type Rule } from './rule';
import { FLYING_SOURCE } from './sources';
import { moment } from './wording';

const AFTER: Readonly<Record<FlyingRow, string>> = {
  oneNoStopDive: 'after one no-stop dive',
  severalDivesOrDays: 'after several dives or days of diving',
  requiredStops: 'after a dive with required stops',
};

/** A flight before flying is clear. Source: as in the rule. */
export const flightTooSoon: Rule = {
  code: 'flight-too-soon',
  severity: 'stop',
  source: FLYING_SOURCE,
  find: eachDiver((diverLedger, { trip }) => {
    const { flyAfterMin } = diverLedger;
    const row = flyingRow(diverLedger.entries.filter((entry) => entry.isMade));
    if (trip.flight === null || flyAfterMin === null || row === null) return [];
    const flightMin = wallMin(trip.flight.at);
    if (flightMin >= flyAfterMin) return [];
    const hours = HOURS_BEFORE_FLIGHT[row];
    const lastMin = flightMin - hours * 60;
    const message =
      `The flight leaves before flying is clear on ${moment(flyAfterMin)}, ${hours} h ${AFTER[row]}: be out of the water ` +
      `by ${moment(Math.floor(lastMin))}, or take a later flight.`;
    return [{ diveId: null, atMin: flightMin, message }];
  }),
};
