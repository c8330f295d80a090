/** The one door through which the trip changes: checked, named for undo, refused with a reason, never clamped. */
import { failures, success, type Result } from '../../core/result';
import { checkTrip } from '../../core/document/check-trip';
import type { Trip } from '../../core/document/types';
import { said } from '../../core/words/said';
import { wordsIn } from '../figures/reader';
import { record, type StepName } from '../store/history';
import { say } from '../store/notice';
import { isSame } from '../../core/same';
import { desk } from '../store/store';
import { endOthersGesture } from './gesture';

export type EditResult = Result<Trip>;

/**
 * Changes the trip: recorded as one step, or merged with the gesture whose edit it is. A change after which the trip
 * says what it said before is none: actions need not ask. A change that would make an invalid trip is refused and
 * nothing happens; the caller shows the troubles beside the field or with `tell`.
 */
export function edit(name: StepName, change: (trip: Trip) => Trip): EditResult {
  endOthersGesture();
  const { trip, history, settings } = desk.getState();
  const next = change(trip);
  if (isSame(trip, next)) return success(trip);
  const isCopy = name.code.endsWith('.copy');
  const changed = { trip: next, newDive: isCopy ? said`the copy` : said`the new dive` };
  const troubles = checkTrip(next, wordsIn({ ...settings, trip, changed }));
  if (troubles.length > 0) return failures(troubles);
  desk.setState({ ...record(history, trip, next, name), notice: null });
  return success(next);
}

/** Shows why an edit was refused where there is no field to stand beside. */
export function tell(result: EditResult): EditResult {
  if (!result.ok) {
    const lines = result.troubles.map(({ what, where, mend }) => ({ what, where, mend }));
    say({ tone: 'refused', lines });
  }
  return result;
}
