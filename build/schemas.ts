/** `npm run schemas`: writes the JSON Schemas of the files, from the rules they are read and written by. */
import { writeFileSync } from 'node:fs';
import { tripJsonSchema } from '../core/document/trip-json-schema';
import { ledgerJsonSchema } from '../core/formats/ledger-json-schema';
import { at, isStarted } from './paths';

/** Each schema and where it is published. */
export const SCHEMAS = {
  'core/document/trip.schema.json': tripJsonSchema,
  'core/formats/ledger.schema.json': ledgerJsonSchema,
} as const;

/** A schema as its file has it. */
export function schemaText(schema: object): string {
  return `${JSON.stringify(schema, null, 2)}\n`;
}

if (isStarted(import.meta.url)) {
  for (const [path, schema] of Object.entries(SCHEMAS)) {
    writeFileSync(at(path), schemaText(schema()));
    console.log(path);
  }
}
