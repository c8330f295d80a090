/** Edits that were noted down and never saved: put back on screen and told, and never over a save they do not stand on. */
import type { StoredTrip, TripToken, Unsaved } from '../../core/host';
import { readTrip } from '../../core/document/read-trip';
import { machine } from '../store/machine';
import { say } from '../store/notice';
import { desk } from '../store/store';
import { closeOverlay, showOverlay } from './view';

/** What was noted down of a trip, null for the one without a token; a note that cannot be read is told. */
export async function readUnsaved(token: TripToken | null): Promise<Unsaved | null> {
  const result = await machine().readUnsaved(token);
  if (result.ok) return result.value;
  say({ tone: 'refused', lines: [result.trouble] });
  return null;
}

/** Puts noted edits on top of the trip that stands on the desk, as a change that can be undone. */
export function putUnsaved(text: string): void {
  closeOverlay();
  const read = readTrip(text);
  if (!read.ok) {
    showOverlay({
      kind: 'troubles',
      title: 'Edits that were not saved cannot be read',
      lines: read.troubles,
    });
    return;
  }
  const { trip, history } = desk.getState();
  const past = [...history.past, { label: 'Edits that were not saved', code: 'trip.unsaved', trip }];
  desk.setState({ trip: read.value, history: { past, future: [], mark: null } });
  say({
    tone: 'said',
    lines: [
      {
        what: 'Edits that were not saved when Carryover last ended are back on screen.',
        where: '',
        mend: 'Undo takes them away.',
      },
    ],
  });
}

/** After a stored trip was put on the desk: what was noted of it and is not in it. */
export function takeUp(stored: StoredTrip, unsaved: Unsaved): void {
  // Its save had come through, and the window was ended before it heard of that.
  if (unsaved.text === stored.text) return dropUnsaved(stored.token);
  if (unsaved.savedAt === stored.savedAt) return putUnsaved(unsaved.text);
  showOverlay({ kind: 'unsaved', token: stored.token, text: unsaved.text });
}

/** Lets go of noted edits. */
export function dropUnsaved(token: TripToken | null): void {
  closeOverlay();
  void machine().dropUnsaved(token);
}
