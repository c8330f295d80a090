/** Handing out what other programs read: tables, waypoints, a calendar. */
import type { ExportFormat } from '../../core/formats/all';
import { slugOf } from '../../core/library';
import { loadPart } from './load-part';
import { selectLedger } from '../store/selectors';
import { desk } from '../store/store';
import { say } from '../store/notice';
import { windowReader } from '../figures/reader';
import { giveTripId } from './trip';
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
  const formats = await loadPart(() => import('../../core/formats/all'));
  if (!formats.ok) {
    say({ tone: 'refused', lines: formats.troubles });
    return;
  }
  const format = formats.value.EXPORT_FORMATS.find((each) => each.id === id);
  if (!format) throw new Error(`Carryover has a fault: there is no export format "${id}"`);
  // A calendar brings its events up to date by the id of the trip, which is saved with it.
  if (id === 'calendar') giveTripId();
  const state = desk.getState();
  const reader = windowReader({ ...state.settings, trip: state.trip });
  const { text, remarks } = format.write({ ledger: selectLedger(state), stampedAtUtc: stamp(), reader });
  const [subject] = id.split('-');
  await saveDocument({
    bytes: new TextEncoder().encode(text),
    name: `${slugOf(`${state.trip.title} ${subject}`)}.${format.extension}`,
    mediaType: format.mediaType,
    contents: format.label.charAt(0).toLowerCase() + format.label.slice(1),
    remarks,
  });
}
