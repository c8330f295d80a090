/** Documents for other programs, loaded when somebody asks. */
import { EXPORT_FORMATS, type ExportFormat } from '../../core/formats/all';
import { slugOf } from '../../core/library';
import { csvStyle } from '../figures/csv-style';
import { windowReader } from '../figures/reader';
import { selectLedger } from '../store/selectors';
import { desk } from '../store/store';
import type { Document } from './save-document';
import { stamp } from './stamp';
import { giveTripId } from './trip-id';

export { uddfDocument } from './uddf-files';

/** The trip in a format, as the window's settings have it. */
export function exportDocument(id: ExportFormat['id']): Document {
  // A calendar brings its events up to date by the id of the trip, which is saved with it.
  if (id === 'calendar') giveTripId();
  const state = desk.getState();
  const format = EXPORT_FORMATS.find((each) => each.id === id);
  if (!format) throw new Error(`Carryover has a fault: there is no export format "${id}"`);
  const { settings, trip } = state;
  const { text, remarks } = format.write({
    ledger: selectLedger(state),
    stampedAtUtc: stamp(),
    reader: windowReader({ ...settings, trip }),
    csv: csvStyle(settings),
  });
  const [subject] = id.split('-');
  return {
    bytes: new TextEncoder().encode(text),
    name: `${slugOf(`${trip.title} ${subject}`)}.${format.extension}`,
    mediaType: format.mediaType,
    contents: format.label.charAt(0).toLowerCase() + format.label.slice(1),
    remarks,
  };
}
