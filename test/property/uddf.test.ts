import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readUddf } from '../../core/formats/uddf/read-uddf';
import { writeUddf } from '../../core/formats/uddf/write-uddf';
import { ledger } from '../../core/ledger/ledger';
import type { Trip } from '../../core/document/types';
import { trips } from '../support/trip-arbitrary';
import { brokenReferences, schemaTrouble } from '../support/uddf-schema';

const STAMP = '2027-03-01T18:00:00Z';

/** Waypoints stand at whole seconds: a corner lies half a second off at most, and one after it may be put off by one. */
const SECOND_MIN = 1 / 60;

function dived(trip: Trip): Trip {
  return {
    ...trip,
    dives: trip.dives
      .filter(({ bottomMin }) => bottomMin > 2)
      .map((dive) => ({ ...dive, asDived: [{ endBar: 60 }] })),
  };
}

describe('UDDF', () => {
  it('comes back as it was dived, whatever the trip, and is valid by the schema', () => {
    fc.assert(
      fc.property(trips({ dives: { min: 1, max: 6 } }).map(dived), (trip) => {
        const whole = ledger(trip);
        for (const { diver, entries } of whole.divers) {
          const { text } = writeUddf(whole, diver.id, STAMP);
          expect(schemaTrouble(text)).toBeNull();
          expect(brokenReferences(text)).toEqual([]);
          const made = entries.filter(({ isMade }) => isMade);
          if (made.length === 0) continue;
          const { dives, troubles } = readUddf(text, trip.settings.ascentMPerMin);
          expect(troubles).toEqual([]);
          expect(dives).toHaveLength(made.length);
          made.forEach((entry, at) => {
            const read = dives[at]!;
            expect(read.diver).toBe(diver.name);
            expect(read.startsAt).toBe(entry.dive.startsAt);
            expect(read.o2).toBe(entry.o2);
            expect(read.endBar).toBe(60);
            expect(read.depthM).toBeCloseTo(entry.depthM, 5);
            const [endMin, endM] = read.samples.at(-1)!;
            expect(endM).toBe(0);
            expect(Math.abs(endMin - (entry.surfacesMin - entry.startMin))).toBeLessThan(3 * SECOND_MIN);
          });
        }
      }),
      { numRuns: 60 },
    );
  });
});
