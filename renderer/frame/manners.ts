/** What a desktop expects of a window and nothing of its start waits for: loaded once the trip is there. */
import type { Host } from '../../core/host';
import { listenForContextMenus } from './context-menu';
import { listenForDroppedFiles } from './dropped-files';
import { reportTrip } from './report-trip';

export function startManners(host: Host): void {
  void import('./palette').catch(() => undefined);
  reportTrip(host);
  listenForContextMenus();
  listenForDroppedFiles(host);
}
