import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkTrip } from '../../core/document/check-trip';
import { readTrip } from '../../core/document/read-trip';
import { writeTrip } from '../../core/document/write-trip';
import { fixture, type Loose } from '../support/trip-documents';
import { trips } from '../support/trip-arbitrary';

/** Objects inside a document that may carry keys of others. */
function objectsOf(value: unknown, found: Loose[] = []): Loose[] {
  if (Array.isArray(value)) for (const each of value) objectsOf(each, found);
  else if (typeof value === 'object' && value !== null) {
    found.push(value);
    for (const each of Object.values(value)) objectsOf(each, found);
  }
  return found;
}

/** Keys that mean nothing to version 3, and values of any shape JSON has. */
const strangers = fc.array(
  fc.record({
    at: fc.nat(),
    key: fc.string({ minLength: 1, maxLength: 8 }).map((key) => `x-${key}`),
    value: fc.jsonValue({ maxDepth: 3 }),
  }),
  { maxLength: 12 },
);

function strange(document: Loose, additions: readonly { at: number; key: string; value: unknown }[]): Loose {
  const copy = structuredClone(document);
  const objects = objectsOf(copy);
  for (const { at, key, value } of additions) objects[at % objects.length][key] = value;
  return copy;
}

describe('a trip file', () => {
  it('comes back from writing as it was read, keys of others included', () => {
    fc.assert(
      fc.property(fc.constantFrom('v3-full', 'v3-minimal'), strangers, (name, additions) => {
        // Through JSON once: it knows no minus zero.
        const document = JSON.parse(JSON.stringify(strange(fixture(name), additions)));
        const read = readTrip(JSON.stringify(document));
        if (!read.ok) throw new Error(JSON.stringify(read.troubles));
        const text = writeTrip(read.value);
        const again = readTrip(text);
        expect(again).toEqual(read);
        expect(writeTrip((again as { value: typeof read.value }).value)).toBe(text);
        // Everything the file said is still said; defaults may have joined it.
        expect(JSON.parse(text)).toMatchObject(document);
      }),
      { numRuns: 300 },
    );
  });

  it('of a random trip that can be dived is accepted, and means the same when read back', () => {
    fc.assert(
      fc.property(trips(), (trip) => {
        // Shorter than the shortest level or bottom time the format admits: refused, and rightly so.
        fc.pre(
          trip.dives.every(
            ({ bottomMin, legs }) => bottomMin >= 1 && (legs ?? []).every(({ min }) => min >= 0.5),
          ),
        );
        // A stop under the last level is not made, and the format refuses to say it were.
        fc.pre(
          trip.dives.every(
            ({ safetyStop, depthM, legs }) =>
              !safetyStop || safetyStop.depthM < (legs?.at(-1)?.depthM ?? depthM),
          ),
        );
        expect(checkTrip(trip)).toEqual([]);
        expect(readTrip(writeTrip(trip))).toEqual({ ok: true, value: trip });
      }),
      { numRuns: 200 },
    );
  });
});
