import type { ClimbViews } from '../ledger/climb-views';
import { said } from '../words/said';
import { tooSoonSaid } from './climb-said';
import { DUST, eachDiver, type Rule } from './rule';
import { FLYING_SOURCE } from './sources';

/** Whether a way up breaks the published hours, or passes what the model tolerates up there. */
export function isTooSoon({ climb: { atMin }, guideline, model }: ClimbViews): boolean {
  const clearMin = Math.max(guideline?.clearMin ?? -Infinity, model.clearMin ?? -Infinity);
  return atMin < clearMin - DUST;
}

/** Going up to a greater height too soon after dives. Source: as in the rule. */
export const climbTooSoon: Rule = {
  code: 'climb-too-soon',
  severity: 'stop',
  source: said`${FLYING_SOURCE}, its hours taken for a climb by road as well (careful reading); A. A. Buehlmann’s tolerated tensions with the diver’s gradient factor at the pressure up there`,
  find: eachDiver(({ climbs }) =>
    climbs
      .filter(isTooSoon)
      .map((views) => ({ diveId: null, atMin: views.climb.atMin, says: tooSoonSaid(views) })),
  ),
};
