/** UDDF judged by libxml2, which shares nothing with the reader and writer of core. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { XmlDocument, XsdValidator } from 'libxml2-wasm';

/** The schema of this project, and the published one where who runs the tests has a copy: it carries no licence. */
const SCHEMAS: readonly string[] = [
  join(import.meta.dirname, '../../core/formats/uddf/uddf-subset.xsd'),
  ...[process.env['UDDF_SCHEMA'] ?? []].flat(),
];

/** What a schema has against a document; null where it is valid by all. */
export function schemaTrouble(text: string): string | null {
  return SCHEMAS.map((each) => troubleBy(each, text)).find((trouble) => trouble !== null) ?? null;
}

function troubleBy(file: string, text: string): string | null {
  const schema = XmlDocument.fromString(readFileSync(file, 'utf8'));
  const validator = XsdValidator.fromDoc(schema);
  try {
    const document = XmlDocument.fromString(text);
    try {
      validator.validate(document);
      return null;
    } finally {
      document.dispose();
    }
  } catch (fault) {
    return fault instanceof Error ? fault.message : String(fault);
  } finally {
    validator.dispose();
    schema.dispose();
  }
}

/** Every `ref` that stands for no `id`, and every id that stands twice: libxml2 does not look. */
export function brokenReferences(text: string): readonly string[] {
  const ids = [...text.matchAll(/ id="([^"]*)"/g)].map((match) => match[1]!);
  const known = new Set(ids);
  const doubled = ids.filter((id, at) => ids.indexOf(id) !== at);
  const missing = [...text.matchAll(/ ref="([^"]*)"/g)]
    .map((match) => match[1]!)
    .filter((ref) => !known.has(ref));
  return [...doubled, ...missing];
}
