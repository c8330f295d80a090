import { stagedAscent, STOP_STEP_M } from '../ascent/staged-ascent';
import { applyMap } from '../tissues/affine-map';
import { planOf } from '../ledger/dive-plan';
import { digits, minutes } from './digits';
import { MODEL } from './nitrogen';
import type { Work, WorkingsStep } from './types';

/** What a passed limit would cost. Source: named in the workings. */
export const stopsWorkings: Work = ({ entry, trip, o2 }) => {
  const { low, high } = entry.diver.gradient;
  const shared = {
    title: 'Stops that a passed limit would cost',
    formula: `at each stop, every ${STOP_STEP_M} m, the whole minutes after which the way to the next stays within P + GF (a + P/b − P); GF runs from ${low} at the first stop to ${high} at the surface`,
    source: `${MODEL}; E. C. Baker, "Clearing up the confusion about deep stops" (1998); ${STOP_STEP_M} m steps and whole minutes are common practice. Required stops are outside no-stop diving`,
  };
  const { bottomMin, noStopMin } = entry;
  const bottom = { label: 'Bottom time', value: minutes(bottomMin) };
  const isOne = entry.levels.length < 2;
  const limit = {
    label: isOne ? 'No-stop limit' : 'Whole time with the last level lengthened',
    value: noStopMin === null ? 'none' : minutes(noStopMin),
  };
  if (noStopMin === null || bottomMin <= noStopMin + 1e-9) {
    return { ...shared, steps: [bottom, limit], result: 'none', exact: 0 };
  }
  const plan = planOf(trip, entry);
  const leaving = applyMap(plan.toLeaving, entry.tensionsBefore, 1 - o2);
  const lastM = plan.profile.lastLevel.toM;
  const stops = stagedAscent(leaving, lastM, 1 - o2, entry.diver.gradient, plan.around);
  if (stops === null) {
    return { ...shared, steps: [bottom, limit], result: 'no ascent was found', exact: null };
  }
  const firstM = stops[0]?.depthM ?? STOP_STEP_M;
  const each: readonly WorkingsStep[] = stops.map(({ depthM, min }) => {
    const nextM = depthM - STOP_STEP_M;
    const factor = high + ((low - high) * nextM) / firstM;
    return {
      label: `At ${depthM} m, until GF ${digits(factor, 3)} holds at ${nextM} m`,
      value: `${min} min`,
    };
  });
  const exact = stops.reduce((sum, { min }) => sum + min, 0);
  return { ...shared, steps: [bottom, limit, ...each], result: `${exact} min of stops`, exact };
};
