/** Handing out what other programs read: tables, waypoints, a calendar. */
import type { ExportFormat } from '../../core/formats/all';
import { loadPart } from './load-part';
import { desk } from '../store/store';
import { say } from '../store/notice';
import { giveTripId } from './trip-id';
import { saveDocument } from './save-document';

function stamp(): string {
  return `${new Date().toISOString().slice(0, 19)}Z`;
}

/** The dives as UDDF: of the chosen diver, or a file for each of the party in one archive. */
export async function exportUddf(): Promise<void> {
  const part = await loadPart(() => import('./uddf-files'));
  if (!part.ok) say({ tone: 'refused', lines: part.troubles });
  else await saveDocument(part.value.uddfDocument(desk.getState(), stamp()));
}

/** The formats are a good part of core; they are loaded when somebody asks. */
export async function exportAs(id: ExportFormat['id']): Promise<void> {
  const part = await loadPart(() => import('./export-document'));
  if (!part.ok) {
    say({ tone: 'refused', lines: part.troubles });
    return;
  }
  // A calendar brings its events up to date by the id of the trip, which is saved with it.
  if (id === 'calendar') giveTripId();
  await saveDocument(part.value.exportDocument(desk.getState(), id, stamp()));
}
