/** Dives as UDDF, loaded when somebody asks. */
import { uddfFiles } from '../../core/formats/uddf/uddf-files';
import { zipOf } from '../../core/formats/zip';
import { slugOf } from '../../core/library';
import { selectLedger } from '../store/selectors';
import { desk } from '../store/store';
import type { Document } from './save-document';
import { stamp } from './stamp';

/** One file where a diver is chosen or alone, else an archive with a file for each. */
export function uddfDocument(): Document {
  const state = desk.getState();
  const stampedAtUtc = stamp();
  const { trip, selection } = state;
  const whose = selection.diverId === null ? null : [selection.diverId];
  const { files, remarks } = uddfFiles(selectLedger(state), whose, stampedAtUtc);
  const [first] = files;
  const encoded = files.map(({ name, text }) => ({ name, bytes: new TextEncoder().encode(text) }));
  if (files.length === 1) {
    return {
      bytes: encoded[0]!.bytes,
      name: first!.name,
      mediaType: 'application/xml',
      contents: 'dives as UDDF',
      remarks,
    };
  }
  return {
    bytes: zipOf(encoded, stampedAtUtc.slice(0, 10)),
    name: `${slugOf(trip.title)}-uddf.zip`,
    mediaType: 'application/zip',
    contents: `${files.length} files of dives as UDDF, one a diver`,
    remarks,
  };
}
