/** The published JSON Schemas, held to what is read and written by a validator that is not ours. */
import { readFileSync } from 'node:fs';
import Ajv from 'ajv/dist/2020';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SCHEMAS, schemaText } from '../../../../build/schemas';
import { at } from '../../../../build/paths';
import { cautionsOf } from '../../../../core/cautions/all';
import { demoTrip } from '../../../../core/document/demo-trip';
import { NUMBER_RULES } from '../../../../core/document/fields';
import { readTrip } from '../../../../core/document/read-trip';
import { tripJsonSchema } from '../../../../core/document/trip-json-schema';
import { writeTrip } from '../../../../core/document/write-trip';
import { ledgerDocument } from '../../../../core/formats/ledger-document';
import { ledgerJsonSchema } from '../../../../core/formats/ledger-json-schema';
import { ledger } from '../../../../core/ledger/ledger';
import { fixture, tenDives, type Loose } from '../../../support/trip-documents';
import { trips } from '../../../support/trip-arbitrary';
import { worseDemo } from '../../../support/worse-demo';

const ajv = new Ajv({ strict: true, strictRequired: false, allErrors: true });
const isTrip = ajv.compile(tripJsonSchema());
const isLedger = ajv.compile(ledgerJsonSchema());

function faults(validate: typeof isTrip, document: unknown): readonly string[] {
  validate(document);
  return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
}

describe('the published schemas', () => {
  it.each(Object.entries(SCHEMAS))('are as they are made: %s (npm run schemas)', (path, schema) => {
    expect(readFileSync(at(path), 'utf8')).toBe(schemaText(schema()));
  });
});

describe('the schema of a trip', () => {
  it('accepts every trip of this version, with what is unknown and with its own name', () => {
    const documents = [
      fixture('v3-full'),
      fixture('v3-minimal'),
      tenDives(),
      JSON.parse(writeTrip(demoTrip())),
    ];
    for (const document of documents) {
      expect(faults(isTrip, document)).toEqual([]);
      expect(faults(isTrip, { ...document, $schema: 'trip.schema.json', boat: 'ours' })).toEqual([]);
    }
  });

  it('accepts whatever is written', () => {
    fc.assert(
      fc.property(trips(), (trip) => {
        const text = writeTrip(trip);
        // Some are drawn past what a file may say; of those nothing is promised.
        fc.pre(readTrip(text).ok);
        expect(faults(isTrip, JSON.parse(text))).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  it.each<[string, (trip: Loose) => void, RegExp]>([
    ['a depth out of range', (trip) => (trip.dives[0].depthM = 101), /^\/dives\/0\/depthM must be <= 100$/],
    [
      'a number in quotation marks',
      (trip) => (trip.dives[0].depthM = '18'),
      /^\/dives\/0\/depthM must be number$/,
    ],
    [
      'no depth and no levels',
      (trip) => delete trip.dives[0].depthM,
      /^\/dives\/0 must have required property/,
    ],
    ['no party', (trip) => delete trip.party, /^ must have required property 'party'$/],
    ['an empty party', (trip) => (trip.party = []), /^\/party must NOT have fewer than 1 items$/],
    [
      'a moment that is none',
      (trip) => (trip.dives[0].startsAt = 'noon'),
      /^\/dives\/0\/startsAt must match/,
    ],
    ['another version', (trip) => (trip.version = 9), /^\/version must be equal to constant$/],
    ['water that is none', (trip) => (trip.water = { density: 'oil' }), /^\/water\/density must/],
    ['a name of blanks gone', (trip) => (trip.sites[0].name = ''), /^\/sites\/0\/name must NOT have fewer/],
    [
      'half a sample',
      (trip) => (trip.dives[0].asDived = [{ samples: [[0, 0], [5]] }]),
      /samples\/1 must NOT have fewer/,
    ],
  ])('refuses what is refused on reading: %s', (_, change, fault) => {
    const trip = tenDives();
    change(trip);
    expect(readTrip(JSON.stringify(trip)).ok).toBe(false);
    expect(faults(isTrip, trip).filter((each) => fault.test(each))).not.toEqual([]);
  });

  it('lets levels stand for depth and time, as the reader does', () => {
    const trip = tenDives();
    const { depthM: _, bottomMin: __, ...dive } = trip.dives[0];
    trip.dives[0] = { ...dive, legs: [{ depthM: 18, min: 20 }] };
    expect(readTrip(JSON.stringify(trip)).ok).toBe(true);
    expect(faults(isTrip, trip)).toEqual([]);
  });

  it('has the range of every number that a trip holds', () => {
    const text = JSON.stringify(tripJsonSchema());
    for (const { min, max } of Object.values(NUMBER_RULES)) {
      expect(text).toContain(`"minimum":${min},"maximum":${max}`);
    }
  });
});

describe('the smallest trip of the README', () => {
  const readme = readFileSync(at('README.md'), 'utf8');
  const [, text = ''] = /```json\n(\{\n {2}"format": "carryover\/trip"[^`]*)```/.exec(readme) ?? [];

  it('is a whole trip', () => {
    expect(readTrip(text).ok).toBe(true);
    expect(faults(isTrip, JSON.parse(text))).toEqual([]);
  });

  it('has nothing that could be left out', () => {
    const whole = JSON.parse(text) as Loose;
    const parts = (value: Loose, path: readonly (string | number)[] = []): (readonly (string | number)[])[] =>
      typeof value !== 'object'
        ? []
        : Object.keys(value).flatMap((key) => [
            ...(Array.isArray(value) ? [] : [[...path, key]]),
            ...parts(value[key], [...path, key]),
          ]);
    for (const path of parts(whole)) {
      const less = structuredClone(whole);
      const last = path.at(-1)!;
      delete path.slice(0, -1).reduce((at_: Loose, key) => at_[key], less)[last];
      expect(readTrip(JSON.stringify(less)).ok, path.join('.')).toBe(false);
    }
  });
});

describe('the schema of a ledger', () => {
  it.each([
    ['of the demo trip', demoTrip()],
    ['with dives past their limits', worseDemo()],
  ])('accepts one %s', (_, trip) => {
    const whole = ledger(trip);
    const document = JSON.parse(JSON.stringify(ledgerDocument(whole, cautionsOf(whole))));
    expect(faults(isLedger, document)).toEqual([]);
  });

  it('accepts those of any trip', () => {
    fc.assert(
      fc.property(trips(), (trip) => {
        const whole = ledger(trip);
        const document = JSON.parse(JSON.stringify(ledgerDocument(whole, cautionsOf(whole))));
        expect(faults(isLedger, document)).toEqual([]);
      }),
      { numRuns: 30 },
    );
  });

  it('refuses a figure that is missing, or one that it does not know', () => {
    const whole = ledger(demoTrip());
    const document: Loose = JSON.parse(JSON.stringify(ledgerDocument(whole, [])));
    delete document.divers[0].entries[0].cns;
    document.divers[1].entries[0].depthFt = 3;
    const found = faults(isLedger, document);
    expect(found).toContain("/divers/0/entries/0 must have required property 'cns'");
    expect(found).toContain('/divers/1/entries/0 must NOT have additional properties');
  });
});

describe('the table of the README', () => {
  const readme = readFileSync(at('README.md'), 'utf8');
  const section = readme.slice(readme.indexOf('**Trip** ('), readme.indexOf('**Ledger** ('));
  const rows = section.split('\n').filter((line) => line.startsWith('| `'));

  /** The names of all keys below a part of the schema. */
  function keysBelow(part: unknown): readonly string[] {
    if (typeof part !== 'object' || part === null) return [];
    const own = Object.keys((part as Loose)['properties'] ?? {});
    return [...own, ...Object.values(part).flatMap(keysBelow)];
  }

  const named = (row: string, key: string): boolean => new RegExp(`\`${key}(?:\\[\\])?\``).test(row);

  /** The row of a key of the trip: one that begins with it. */
  const rowOf = (key: string): string =>
    rows.find((row) => named(row.slice(0, row.indexOf(' | ', 2)), key)) ?? '';

  it('has every key that a trip can have, in the row of its part', () => {
    const { properties } = tripJsonSchema() as { readonly properties: Record<string, Loose> };
    // Format and version stand above it, $schema below.
    const { $schema, format, version, ...parts } = properties;
    expect([$schema, format, version]).not.toContain(undefined);
    expect(Object.keys(parts).length).toBeGreaterThan(12);
    const missing = Object.entries(parts).flatMap(([key, part]) =>
      [key, ...keysBelow(part)]
        // Dives before the trip are told to be as those of it.
        .filter((each) => !named(rowOf(key), each) && !(key === 'party' && named(rowOf('dives'), each)))
        .map((each) => `${key}: ${each}`),
    );
    expect([...new Set(missing)]).toEqual([]);
  });
});
