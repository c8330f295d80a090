import { wallMin } from '../words/calendar';
import { newDivePlan, surroundingsOf } from '../ledger/dive-plan';
import { HOURS_BEFORE_FLIGHT } from '../ledger/flying';
import { eachDiver, type Rule } from './rule';
import { FLYING_SOURCE } from './sources';
import { durationDown } from './wording';

/** Below this a climb is not one to altitude. Source: common practice, 300 m (1 000 ft). */
const ALTITUDE_FROM_M = 300;

/** A climb to the trip's altitude too soon after earlier dives. Source: as in the rule. */
export const altitudeTooSoon: Rule = {
  code: 'altitude-too-soon',
  severity: 'stop',
  source: `${FLYING_SOURCE}, its hours taken for a climb by road as well (careful reading)`,
  find: eachDiver(({ diver }, { trip }, say) => {
    if (diver.arrivedAt === undefined || trip.water.altitudeM < ALTITUDE_FROM_M) return [];
    const climbMin = wallMin(diver.arrivedAt);
    const around = surroundingsOf(trip);
    const surfacings = (diver.before ?? [])
      .map((dive) => ({ startMin: wallMin(dive.startsAt), dive }))
      .filter(({ startMin }) => startMin < climbMin)
      .map(({ startMin, dive }) => startMin + newDivePlan(dive, around).runtimeMin);
    if (surfacings.length === 0) return [];
    const hours =
      surfacings.length === 1 ? HOURS_BEFORE_FLIGHT.oneNoStopDive : HOURS_BEFORE_FLIGHT.severalDivesOrDays;
    const waitedMin = climbMin - Math.max(...surfacings);
    if (waitedMin >= hours * 60) return [];
    const message = `The climb to ${say.altitude(trip.water.altitudeM)} follows only ${durationDown(Math.max(0, waitedMin))} after a dive: leave ${hours} h between them, and more if the dive needed stops.`;
    return [{ diveId: null, atMin: climbMin, message }];
  }),
};
