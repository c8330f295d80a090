import type { Host } from '../../core/host';
import { isSomebodysWork, isUnsaved } from '../store/autosave';
import { desk, type Desk } from '../store/store';

/** Tells the host which trip is open and whether a save is behind: a system marks its window so. */
export function reportTrip(host: Pick<Host, 'reportTrip'>): void {
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
