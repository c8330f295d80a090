/** Handing out what other programs read: tables, waypoints, a calendar. */
import type { ExportFormat } from '../../core/formats/all';
import { loadPart } from './load-part';
import { say } from '../store/notice';
import { saveDocument, type Document } from './save-document';

/** The formats are a good part of core; they are loaded when somebody asks. */
async function saveMade(made: (part: typeof import('./export-document')) => Document): Promise<void> {
  const part = await loadPart(() => import('./export-document'));
  if (!part.ok) say({ tone: 'refused', lines: part.troubles });
  else await saveDocument(made(part.value));
}

/** The dives as UDDF: of the chosen diver, or a file for each of the party in one archive. */
export function exportUddf(): Promise<void> {
  return saveMade(({ uddfDocument }) => uddfDocument());
}

export function exportAs(id: ExportFormat['id']): Promise<void> {
  return saveMade(({ exportDocument }) => exportDocument(id));
}
