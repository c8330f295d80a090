import * as z from 'zod/mini';
import { fileWords } from '../words/reader';
import { said } from '../words/said';
import { NUMBER_RULES } from './fields';
import { MOST_SAMPLES } from './samples';
import { tripSchema } from './schema';
import { leafOf, type Leaf } from './schema-parts';
import { TEXT_RULES } from './texts';

/** A schema as plain data. */
export type JsonSchema = Record<string, unknown>;

/** What the keys of a schema are called that all schemas of this project begin with. */
export function schemaHead(name: string, version: number, says: string): JsonSchema {
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    $id: `urn:carryover:schema:${name}:${version}`,
    title: `carryover/${name}, version ${version}`,
    description: says,
  };
}

const NUMBER = (field: keyof typeof NUMBER_RULES): JsonSchema => {
  const { label, min, max, mend } = NUMBER_RULES[field];
  return { type: 'number', minimum: min, maximum: max, description: fileWords(said`${label}. ${mend}`) };
};

/** A leaf of the trip by the rule that judges it. */
function schemaOf(leaf: Leaf): JsonSchema {
  switch (leaf.is) {
    case 'number':
      return NUMBER(leaf.field);
    case 'text': {
      const { label, max, isAsked } = TEXT_RULES[leaf.field];
      return {
        type: 'string',
        ...(isAsked ? { minLength: 1 } : {}),
        maxLength: max,
        description: fileWords(said`${leaf.label ?? label}.`),
      };
    }
    case 'time':
      return {
        type: 'string',
        pattern: String.raw`^\d{4}-\d\d-\d\dT\d\d:\d\d$`,
        description: fileWords(
          said`${leaf.label}: wall-clock time at the trip’s place, as 2027-03-06T08:30.`,
        ),
      };
    case 'date':
      return {
        type: 'string',
        pattern: String.raw`^\d{4}-\d\d-\d\d$`,
        description: fileWords(said`${leaf.label}: a day at the trip’s place, as 2027-03-06.`),
      };
    case 'flag':
      return { type: 'boolean' };
    case 'words':
      return leaf.words.length === 1 ? { const: leaf.words[0] } : { enum: leaf.words };
    case 'samples':
      return {
        type: 'array',
        minItems: 2,
        maxItems: MOST_SAMPLES,
        items: { type: 'array', items: { type: 'number', minimum: 0 }, minItems: 2, maxItems: 2 },
        description: 'A recorded profile: [minutes, metres] from 0 min to the surface, in order of time.',
      };
    case 'density':
      return { anyOf: [{ enum: ['gauge', 'salt', 'fresh'] }, NUMBER('densityKgM3')] };
  }
}

/** Takes keys off those that must be there, and says what may stand in their place. */
function mayBeLeftOut(schema: JsonSchema, keys: readonly string[], instead: string): void {
  const { required, allOf = [] } = schema as { required: readonly string[]; allOf?: readonly unknown[] };
  schema['required'] = required.filter((key) => !keys.includes(key));
  schema['allOf'] = [...allOf, { anyOf: [{ required: keys }, { required: [instead] }] }];
}

/**
 * The schema of a trip file, for editors and other programs, from the rules that `readTrip` judges by. It says less than
 * they do: that ids are known and days real, that dives do not overlap and what fits together is told by `readTrip` alone.
 * @returns JSON Schema, draft 2020-12
 * Source: JSON Schema, draft 2020-12; the trip file of this project.
 */
export function tripJsonSchema(): JsonSchema {
  const made = z.toJSONSchema(tripSchema, {
    unrepresentable: 'any',
    io: 'input',
    override: ({ zodSchema, jsonSchema }) => {
      const leaf = leafOf(zodSchema);
      if (leaf !== null) Object.assign(jsonSchema, schemaOf(leaf));
      const properties = Object.keys(jsonSchema.properties ?? {});
      if (!properties.includes('bottomMin') || !properties.includes('legs')) return;
      mayBeLeftOut(jsonSchema as JsonSchema, ['depthM', 'bottomMin'], 'legs');
      // A dive brought to the trip.
      if (properties.includes('o2')) mayBeLeftOut(jsonSchema as JsonSchema, ['mix'], 'o2');
    },
  });
  const { $schema: _, ...rest } = made as JsonSchema;
  const version = (rest['properties'] as { version: { const: number } }).version.const;
  return {
    ...schemaHead('trip', version, SAYS),
    ...rest,
    properties: {
      $schema: { type: 'string', description: 'Where this schema is; of no meaning to Carryover, and kept.' },
      ...(rest['properties'] as object),
    },
  };
}

const SAYS =
  'A trip of several days of diving: SI units, wall-clock time at the trip’s place, fractions from 0 to 1; unknown keys are kept. Says less than Carryover asks: that ids are known, days real and dives apart is told on reading.';
