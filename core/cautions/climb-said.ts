import { FLIGHT_VIEW_NAMES } from '../ledger/flight-said';
import type { ClimbViews } from '../ledger/climb-views';
import { momentAt } from '../words/calendar';
import { figure, named, said, span, type Said } from '../words/said';

/** Where a climb goes, and what for: "The climb to 2,100 m (“Over the pass”)". */
function climbSaid({ climb: { event, dive, toM } }: ClimbViews): Said {
  const height = figure('altitude', toM);
  if (event === null) return said`The climb to ${height} for ${named('dive', dive!.id)}`;
  return event.altitudeM === toM
    ? said`The climb to ${height} (“${event.title}”)`
    : said`The climb back to ${height} (after “${event.title}”)`;
}

/** That a climb comes too soon, until when to wait, and by whom. */
export function tooSoonSaid(views: ClimbViews): Said {
  const { climb, clearMin, latest } = views;
  const waits = span(clearMin - climb.atMin, 'up');
  const by = FLIGHT_VIEW_NAMES[latest!];
  return said`${climbSaid(views)} on ${momentAt(climb.atMin)} comes ${waits} too soon: going up is clear on ${momentAt(clearMin)} (${by}). Go up then or later, stay lower, or end the diving before it earlier.`;
}
