/** A plan that mends the trip, carried out. */
import type { Trip } from '../../core/document/types';
import { say } from '../store/notice';
import { desk } from '../store/store';
import { edit, tell } from './edit';

/**
 * Takes a trip that was worked out in the place of the one it was worked out for, as one step to undo.
 * @param label of the step, "Mend: best overall" @param told what was done, a sentence each
 * @returns false where another trip is on the desk by now, or the new one is refused: nothing is changed then
 */
export function takeWorkedOut(
  from: Trip,
  to: Trip,
  label: string,
  told: readonly [string, ...string[]],
): boolean {
  if (desk.getState().trip !== from) return false;
  const result = tell(edit({ label, code: 'trip.mend' }, () => to));
  if (!result.ok) return false;
  const lines = told.map((what) => ({ what, where: '', mend: '' }));
  say({ tone: 'said', lines, canUndo: true, canCompare: true });
  return true;
}
