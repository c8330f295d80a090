/** What happens as the window starts, in order: settings, the last trip or the demo, then saving and listening. */
import type { Host } from '../core/host';
import { loadDemo, openHanded, putStored, setAutosave } from './actions/files';
import { endOthersGesture } from './actions/gesture';
import { loadPart } from './actions/load-part';
import { changeSettings } from './actions/view';
import { putUnsaved, readUnsaved } from './actions/unsaved';
import { say } from './store/notice';
import { offerCommands, runFromMenu } from './commands/offer';
import { listenForKeys } from './frame/keys';
import { localText } from './figures/local-time';
import { keepFocus, settleField } from './parts/keep-focus';
import { isSomebodysWork, isUnsaved, startAutosave } from './store/autosave';
import { startClock } from './store/clock';
import { startJournal } from './store/journal';
import { setMachine } from './store/machine';
import { desk, freshKeeping } from './store/store';

export async function start(host: Host): Promise<void> {
  setMachine(host);
  const autosave = startAutosave(host);
  setAutosave(autosave);
  const journal = startJournal(host);
  startClock(() => localText(new Date()));
  listenForKeys();
  keepFocus();

  const settings = await host.loadSettings();
  if (settings.ok) desk.setState({ settings: settings.value });
  else say({ tone: 'refused', lines: [settings.trouble] });

  // Nobody has begun yet: the system is asked once, and what it says can be changed in the settings.
  if (settings.ok && !settings.value.cautionsAccepted) {
    const part = await loadPart(() => import('./figures/system-settings'));
    if (part.ok)
      changeSettings(part.value.systemSettings(new Intl.DateTimeFormat().resolvedOptions().locale));
  }

  const { lastTrip } = desk.getState().settings;
  const stored = lastTrip === null ? null : await host.readTrip(lastTrip);
  // A trip begun and never saved was the one on screen, whatever was saved before it.
  const begun = await readUnsaved(null);
  const unsaved = begun === null && stored?.ok ? await readUnsaved(stored.value.token) : null;
  const isLastOpen = begun === null && stored?.ok === true && putStored(stored.value, unsaved);
  const demo = isLastOpen ? null : await loadDemo();
  if (demo) desk.setState({ trip: demo, keeping: freshKeeping() });
  if (begun !== null) putUnsaved(begun.text);
  else if (stored?.ok === false) {
    const { what, where, mend } = stored.trouble;
    say({ tone: 'refused', lines: [{ what: `The last trip could not be opened: ${what}`, where, mend }] });
  }
  desk.setState({ ready: true });

  offerCommands(host);
  // The system's menu takes no focus: what is typed is kept before anything takes its place.
  host.onCommand((id) => {
    settleField();
    runFromMenu(id);
  });
  host.onOpenTrip((trip) => {
    settleField();
    void openHanded(trip);
  });
  host.onBeforeClose(async () => {
    settleAll();
    if (!isSomebodysWork(desk.getState())) return;
    journal.noteLast();
    await autosave.flush();
    const { keeping } = desk.getState();
    // Said to the host, which then asks before it closes over what could not be saved.
    if (isUnsaved(desk.getState())) throw new Error(keeping.trouble?.what ?? 'The trip is not saved.');
  });
  host.watchTrips(({ token, kind }) => {
    const { keeping } = desk.getState();
    if (token !== keeping.token) return;
    if (kind === 'removed') desk.setState({ overlay: { kind: 'changed', token, removed: true } });
    else void noticeChange(host, token);
  });
  // Where it does not come the window does without.
  void import('./frame/manners').then(
    ({ startManners }) => startManners(host),
    () => undefined,
  );
  // What is still being typed is work too; where a page goes without asking, it is saved while that lasts.
  window.addEventListener('pagehide', () => {
    settleAll();
    journal.noteLast();
    if (isSomebodysWork(desk.getState())) void autosave.flush();
  });
  window.addEventListener('beforeunload', (event) => {
    settleAll();
    if (isSomebodysWork(desk.getState()) && isUnsaved(desk.getState())) {
      journal.noteLast();
      void autosave.flush();
      event.preventDefault();
    }
  });
}

/** What is being typed, and what is in the hand, is work too. */
function settleAll(): void {
  settleField();
  endOthersGesture();
}

/** A save from elsewhere is asked about, unless it is the one this window knows. */
async function noticeChange(host: Host, token: string): Promise<void> {
  const stored = await host.readTrip(token);
  const { keeping } = desk.getState();
  if (keeping.token !== token || (stored.ok && stored.value.savedAt === keeping.savedAt)) return;
  desk.setState({ overlay: { kind: 'changed', token, removed: false } });
}
