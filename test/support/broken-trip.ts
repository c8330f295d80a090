/** Trip documents that were right until a test broke them. */
import { readTrip } from '../../core/document/read-trip';
import { tenDives, type Loose } from './trip-documents';

/** What reading a text finds wrong with it; none where it is a trip. */
export function troublesOf(text: string) {
  const result = readTrip(text);
  return result.ok ? [] : result.troubles;
}

/** The troubles of a document that a change broke. */
export function broken(change: (document: Loose) => void) {
  const document = tenDives();
  change(document);
  return troublesOf(JSON.stringify(document));
}
