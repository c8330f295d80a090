/** What the library and its sheets do with a stored trip; loaded with them. */
import type { TripToken } from '../../core/host';
import { readTrip } from '../../core/document/read-trip';
import { machine } from '../store/machine';
import { sayTrouble } from '../store/notice';
import { desk, freshKeeping } from '../store/store';
import { changeSettings, showOverlay } from './view';

/** Takes what stands there now; what is on screen can be had again by undo. */
export async function takeStored(token: TripToken): Promise<void> {
  const result = await machine().readTrip(token);
  if (!result.ok) return sayTrouble(result.trouble);
  const read = readTrip(result.value.text);
  if (!read.ok) {
    showOverlay({ kind: 'troubles', title: 'The stored trip cannot be read', lines: read.troubles });
    return;
  }
  const { trip, history, keeping } = desk.getState();
  const past = [...history.past, { label: 'Taking the stored trip', code: 'trip.take', trip }];
  desk.setState({
    trip: read.value,
    history: { past, future: [], mark: null },
    keeping: { ...keeping, savedAt: result.value.savedAt, saved: read.value, trouble: null },
    overlay: null,
    notice: null,
  });
}

/** Puts an earlier save of the open trip on screen as a change that can be undone. */
export async function takeVersion(token: TripToken, version: string): Promise<void> {
  const result = await machine().readVersion(token, version);
  if (!result.ok) return sayTrouble(result.trouble);
  const read = readTrip(result.value);
  if (!read.ok) {
    showOverlay({ kind: 'troubles', title: 'This version cannot be read', lines: read.troubles });
    return;
  }
  const { trip, history } = desk.getState();
  const past = [...history.past, { label: 'Return to an earlier save', code: 'trip.version', trip }];
  desk.setState({ trip: read.value, history: { past, future: [], mark: null }, overlay: null, notice: null });
}

/** Moves a trip to the host's bin; the open one stays on screen and is new again. */
export async function removeKept(token: TripToken): Promise<void> {
  const result = await machine().removeTrip(token);
  if (!result.ok) return sayTrouble(result.trouble);
  void machine().dropUnsaved(token);
  if (desk.getState().keeping.token === token) desk.setState({ keeping: freshKeeping() });
  if (desk.getState().settings.lastTrip === token) changeSettings({ lastTrip: null });
}
