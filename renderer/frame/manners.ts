/** What a desktop expects of a window and nothing of its start waits for: loaded once the trip is there. */
import type { Host } from '../../core/host';
import { isSomebodysWork, isUnsaved } from '../store/autosave';
import { desk, type Desk } from '../store/store';
import { listenForContextMenus } from './context-menu';
import { listenForDroppedFiles } from './dropped-files';

/** Tells the host which trip is open and whether a save is behind. */
function reportTrip(host: Host): void {
  let told = '';
  const tell = (state: Desk): void => {
    const report = { token: state.keeping.token, isEdited: isSomebodysWork(state) && isUnsaved(state) };
    const text = JSON.stringify(report);
    if (text === told) return;
    told = text;
    host.reportTrip(report);
  };
  tell(desk.getState());
  desk.subscribe((now, before) => {
    if (now.trip !== before.trip || now.keeping !== before.keeping) tell(now);
  });
}

export function startManners(host: Host): void {
  void import('./palette').catch(() => undefined);
  reportTrip(host);
  listenForContextMenus();
  listenForDroppedFiles(host);
}
