import { surroundingsOf } from '../trip/dive-plan';
import { mixFor } from '../trip/mix-choice';
import { eachDiver, type Rule } from './rule';

/** An earlier dive whose mix is not known, so that it cannot be counted. Source: as in the rule. */
export const earlierDiveWithoutMix: Rule = {
  code: 'earlier-dive-without-mix',
  severity: 'stop',
  source: 'common practice: every dive of the last days counts',
  find: eachDiver(({ diver }, { trip }, say) =>
    (diver.before ?? [])
      .filter((dive) => dive.o2 === undefined && mixFor(dive, diver, trip, surroundingsOf(trip)) === null)
      .map((dive) => ({
        diveId: null,
        atMin: -Infinity,
        message:
          `The dive to ${say.depthMet(dive.depthM)} on ${dive.startsAt.replace('T', ' at ')}, before the trip, is left out of ` +
          `every figure, as no mix of the trip may go there: enter the oxygen share that was breathed.`,
      })),
  ),
};
