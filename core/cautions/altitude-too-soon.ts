import { figure, said, span } from '../words/said';
import { wallMin } from '../words/calendar';
import { flyingRow, HOURS_BEFORE_FLIGHT, lastSurfacingMin } from '../ledger/flying';
import { eachDiver, type Rule } from './rule';
import { FLYING_SOURCE } from './sources';

/** Below this a climb is not one to altitude. Source: common practice, 300 m (1 000 ft). */
const ALTITUDE_FROM_M = 300;

/** A climb to the trip's altitude too soon after earlier dives. Source: as in the rule. */
export const altitudeTooSoon: Rule = {
  code: 'altitude-too-soon',
  severity: 'stop',
  source: said`${FLYING_SOURCE}, its hours taken for a climb by road as well (careful reading)`,
  find: eachDiver(({ diver, earlier }, { trip }) => {
    if (diver.arrivedAt === undefined || trip.water.altitudeM < ALTITUDE_FROM_M) return [];
    const climbMin = wallMin(diver.arrivedAt);
    const dived = { earlier: earlier.filter(({ startMin }) => startMin < climbMin), entries: [] };
    const row = flyingRow(dived);
    if (row === null) return [];
    const hours = HOURS_BEFORE_FLIGHT[row];
    const waitedMin = climbMin - lastSurfacingMin(dived)!;
    if (waitedMin >= hours * 60) return [];
    const says = said`The climb to ${figure('altitude', trip.water.altitudeM)} follows only ${span(Math.max(0, waitedMin), 'down')} after a dive: leave ${hours} h between them.`;
    return [{ diveId: null, atMin: climbMin, says }];
  }),
};
