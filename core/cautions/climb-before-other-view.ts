import { said } from '../words/said';
import { tooSoonSaid } from './climb-said';
import { isTooSoon } from './climb-too-soon';
import { DUST, eachDiver, type Rule } from './rule';
import { CLIMB_TABLE_SOURCE } from './sources';

/** A climb that keeps the published hours where they apply, and is earlier than the table’s wait. Source: as in the rule. */
export const climbBeforeOtherView: Rule = {
  code: 'climb-before-other-view',
  severity: 'change',
  source: said`${CLIMB_TABLE_SOURCE}; that the latest of the views counts is this project’s careful reading`,
  find: eachDiver(({ climbs }) =>
    climbs
      .filter((views) => views.climb.atMin < views.clearMin - DUST && !isTooSoon(views))
      .map((views) => ({ diveId: null, atMin: views.climb.atMin, says: tooSoonSaid(views) })),
  ),
};
