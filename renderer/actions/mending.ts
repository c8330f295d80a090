/** A plan that mends the trip, carried out. */
import type { Trip } from '../../core/document/types';
import { say } from '../store/notice';
import { desk } from '../store/store';
import { edit, tell } from './edit';

/**
 * Takes a mended trip in the place of the one it was worked out for, as one step to undo.
 * @returns false where another trip is on the desk by now, or the mended one is refused: nothing is changed then
 */
export function takeMended(worked: Trip, mended: Trip, label: string): boolean {
  if (desk.getState().trip !== worked) return false;
  const result = tell(edit({ label, code: 'trip.mend' }, () => mended));
  if (!result.ok) return false;
  const line = { what: `Mended: ${label}.`, where: '', mend: '' };
  say({ tone: 'said', lines: [line], canUndo: true });
  return true;
}
