import { figure, listed, said } from '../words/said';
import { momentAt, wallMin } from '../words/calendar';
import { surroundingsAt } from '../document/waters';
import { mixFor } from '../ledger/mix-choice';
import { eachDiver, type Rule } from './rule';

/** An earlier dive whose mix is not known, so that it cannot be counted. Source: as in the rule. */
export const earlierDiveWithoutMix: Rule = {
  code: 'earlier-dive-without-mix',
  severity: 'stop',
  source: said`common practice: every dive of the last days counts`,
  find: eachDiver(({ diver }, { trip }) => {
    const unknown = (diver.before ?? [])
      .filter(
        (dive) => dive.o2 === undefined && mixFor(dive, diver, trip, surroundingsAt(trip, dive)) === null,
      )
      .map((dive) => said`${figure('depthMet', dive.depthM)} on ${momentAt(wallMin(dive.startsAt))}`);
    if (unknown.length === 0) return [];
    const says = said`Before the trip, left out of every figure as no mix of the trip can be used there: the dive to ${listed(unknown)}. Enter the oxygen share that was breathed.`;
    return [{ diveId: null, atMin: -Infinity, says }];
  }),
};
