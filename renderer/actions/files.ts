/** Opening, saving and starting trips. The open trip stays on screen until another has been read whole. */
import type { HostResult, StoredTrip, TripToken, Unsaved } from '../../core/host';
import { readTrip } from '../../core/document/read-trip';
import type { Trip } from '../../core/document/types';
import { writeTrip } from '../../core/document/write-trip';
import type { Autosave } from '../store/autosave';
import { blankTrip } from '../store/blank-trip';
import { EMPTY_HISTORY } from '../store/history';
import { machine } from '../store/machine';
import { desk, freshKeeping, type Keeping } from '../store/store';
import { isSomebodysWork, isUnsaved } from '../store/autosave';
import { say, sayTrouble } from '../store/notice';
import { endOthersGesture } from './gesture';
import { loadPart } from './load-part';
import { readUnsaved, takeUp } from './unsaved';
import { changeSettings, closeOverlay, showOverlay } from './view';

let autosave: Autosave | null = null;

/** The one autosave of this window, set as it starts. */
export function setAutosave(started: Autosave): void {
  autosave = started;
}

/**
 * Puts a trip on the desk: history begins anew, nothing is selected. What lies over the other one goes with it; the
 * palette, opened while this one was on its way, is of any trip, and its keys would fall on the strip.
 */
function place(trip: Trip, keeping: Keeping): void {
  const { overlay } = desk.getState();
  desk.setState({
    trip,
    history: EMPTY_HISTORY,
    selection: { diveIds: [], diverId: null },
    evening: null,
    keeping,
    overlay: overlay?.kind === 'palette' ? overlay : null,
    notice: null,
  });
}

/** Saves what is unsaved; false where that failed, and then nothing else should take its place. */
async function settled(): Promise<boolean> {
  // The last trip is still on its way, and nothing that is on the desk before it is anybody's.
  if (!desk.getState().ready) return false;
  endOthersGesture();
  if (!isSomebodysWork(desk.getState())) return true;
  await autosave?.flush();
  if (!isUnsaved(desk.getState())) return true;
  const { trouble } = desk.getState().keeping;
  say({
    tone: 'refused',
    lines: [
      {
        what: `The trip on screen could not be saved, so it stays open. ${trouble?.what ?? ''}`.trim(),
        where: trouble?.where ?? '',
        mend: 'Save a copy elsewhere first, then open the other trip.',
      },
    ],
  });
  return false;
}

/**
 * Reads a stored trip and puts it on the desk, with the edits of it that were noted down and never saved; or says
 * every trouble in it and leaves the desk as it was.
 */
export function putStored(stored: StoredTrip, unsaved: Unsaved | null): boolean {
  const read = readTrip(stored.text);
  if (!read.ok) {
    showOverlay({ kind: 'troubles', title: 'This trip cannot be opened', lines: read.troubles });
    return false;
  }
  const { token, home, savedAt } = stored;
  place(read.value, { ...freshKeeping(), token, home, savedAt, saved: read.value });
  changeSettings({ lastTrip: token });
  if (unsaved !== null) takeUp(stored, unsaved);
  if (stored.changedOutside) {
    const what =
      'This trip is not as it was last saved here: another program, or a failing disk, changed it.';
    const mend = 'Look it through before you use it; its earlier saves are under My trips.';
    say({ tone: 'refused', lines: [{ what, where: read.value.title, mend }] });
  }
  return true;
}

/** Puts a trip on the desk that was read, once what was done to the one before meanwhile is saved. */
async function exchange(stored: StoredTrip): Promise<void> {
  const unsaved = await readUnsaved(stored.token);
  if (!(await settled())) return;
  const { keeping } = desk.getState();
  // The one on screen was opened anew, and edited and saved since it was read: what is there is the newer.
  const isOlder = stored.token === keeping.token && stored.savedAt < (keeping.savedAt ?? '');
  if (isOlder) closeOverlay();
  else putStored(stored, unsaved);
}

async function open(ask: () => Promise<HostResult<StoredTrip | null>>): Promise<void> {
  if (!(await settled())) return;
  const result = await ask();
  if (!result.ok) sayTrouble(result.trouble);
  else if (result.value) await exchange(result.value);
}

/** Asks for a trip file and opens it. */
export function openFile(): Promise<void> {
  return open(() => machine().openTrip());
}

/** Opens a trip that was let go over the window. */
export function openDropped(ask: () => Promise<HostResult<StoredTrip>>): Promise<void> {
  return open(ask);
}

/** Opens a trip of the library. */
export function openKept(token: TripToken): Promise<void> {
  return open(() => machine().readTrip(token));
}

/** A trip handed in from outside: a file double-clicked, a second start. */
export function openHanded(stored: StoredTrip): Promise<void> {
  return exchange(stored);
}

export async function newTrip(): Promise<void> {
  if (await settled()) {
    place(blankTrip(desk.getState().settings.units), freshKeeping());
    showOverlay({ kind: 'trip' });
  }
}

/** @param isHigh the second one, with a tarn and a pass */
export async function openDemo(isHigh = false): Promise<void> {
  const demo = await loadDemo(isHigh);
  if (demo && (await settled())) place(demo, freshKeeping());
}

/** The demo trip, for those who have none of their own or ask for it; null where it could not be loaded, which is said. */
export async function loadDemo(isHigh = false): Promise<Trip | null> {
  const part = isHigh
    ? await loadPart(() => import('../../core/document/high-trip'))
    : await loadPart(() => import('../../core/document/demo-trip'));
  if (part.ok) return 'highTrip' in part.value ? part.value.highTrip() : part.value.demoTrip();
  say({ tone: 'refused', lines: part.troubles });
  return null;
}

/** Puts a trip that something laid out (the starting sheet) on the desk as a new one, unsaved until it is kept. */
export async function beginTrip(trip: Trip): Promise<boolean> {
  if (!(await settled())) return false;
  place(trip, freshKeeping());
  await autosave?.flush();
  return true;
}

/** Saves now, whatever the debounce; into the library where the trip has no home yet. */
export async function save(): Promise<void> {
  await autosave?.flush();
}

/** Keeps what is on screen over what another program or window left there; as a new trip where that is gone. */
export async function saveOver(isGone: boolean): Promise<void> {
  closeOverlay();
  desk.setState(({ keeping }) => ({
    keeping: isGone ? freshKeeping() : { ...keeping, saved: null, trouble: null },
  }));
  await autosave?.flush({ overwrite: true });
}

/** Lets go of a trip whose stored text is gone and begins a new one. */
export function leaveGone(): void {
  place(blankTrip(desk.getState().settings.units), freshKeeping());
}

/** Writes a copy where the user says. On the desktop the copy is then the open trip. */
export async function saveAs(): Promise<void> {
  if (!desk.getState().ready) return;
  const { trip } = desk.getState();
  const result = await machine().saveTripAs(writeTrip(trip), trip.title);
  if (!result.ok) return sayTrouble(result.trouble);
  if (!result.value) return;
  if (!machine().supports.filesOutsideLibrary) {
    const line = { what: 'A copy of the trip was saved to your downloads.', where: '', mend: '' };
    say({ tone: 'said', lines: [line] });
    return;
  }
  const { token, home, savedAt } = result.value;
  desk.setState({ keeping: { ...freshKeeping(), token, home, savedAt, saved: trip }, notice: null });
  changeSettings({ lastTrip: token });
}
