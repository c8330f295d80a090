import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../core/cautions/all';
import { checkTrip } from '../../core/document/check-trip';
import { ledger } from '../../core/ledger/ledger';
import { startingSheet, type StartingAnswers } from '../../core/proposal/starting-sheet';
import { divers, tripSettings, tripWaters } from '../support/trip-arbitrary';

const clock = fc
  .tuple(fc.integer({ min: 5, max: 22 }), fc.integer({ min: 0, max: 11 }))
  .map(([hour, five]) => `${String(hour).padStart(2, '0')}:${String(five * 5).padStart(2, '0')}`);

const answers: fc.Arbitrary<StartingAnswers> = fc.record({
  title: fc.constant('Laid out'),
  place: fc.constant(''),
  firstDay: fc.constantFrom('2027-03-06', '2028-02-27', '2027-12-30'),
  nights: fc.integer({ min: 0, max: 4 }),
  times: fc.uniqueArray(clock, { minLength: 1, maxLength: 5 }),
  sites: fc
    .array(fc.integer({ min: 3, max: 60 }), { minLength: 1, maxLength: 7 })
    .map((depths) =>
      depths.map((depthM, index) => ({ id: `s${index}`, name: `Site ${index}`, depthM, notes: '' })),
    ),
  party: fc
    .array(divers, { minLength: 1, maxLength: 3 })
    .map((people) => people.map((diver, index) => ({ id: `p${index}`, name: `Guest ${index}`, ...diver }))),
  mixes: fc
    .uniqueArray(fc.constantFrom(0.21, 0.28, 0.32, 0.36, 0.4), { minLength: 1, maxLength: 3 })
    .map((shares) => shares.map((o2) => ({ id: `ean${o2 * 100}`, o2, costPerFill: 0 }))),
  flight: fc.constantFrom(null, '2027-03-09T12:00', '2028-03-03T06:00', '2027-12-31T23:00'),
  water: tripWaters,
  settings: tripSettings,
  depthUnit: fc.constantFrom('m' as const, 'ft' as const),
  longestMin: fc.constantFrom(20, 45, 60),
});

/** How many dives the reasons say are left out. */
function leftOutOf(explanations: readonly string[], asked: number): number {
  return explanations.reduce((sum, sentence) => {
    if (sentence.startsWith('No dive can be laid out')) return asked;
    const several = /^(?:The |The last )?(\d+) dives\b.* are left out/.exec(sentence);
    return sum + (several ? Number(several[1]) : / is left out: /.test(sentence) ? 1 : 0);
  }, 0);
}

describe('the starting sheet', () => {
  it('never lays out a dive that somebody would have to change, whatever is answered', () => {
    let dives = 0;
    fc.assert(
      fc.property(answers, (given) => {
        const result = startingSheet(given);
        if (!result.ok) throw new Error(JSON.stringify(result.troubles));
        const { trip, explanations } = result.value;
        expect(checkTrip(trip)).toEqual([]);
        const severe = cautionsOf(ledger(trip)).filter(({ severity }) => severity !== 'know');
        expect(severe).toEqual([]);
        // Every dive of every day is either there or its absence explained.
        const asked = given.times.length * (given.nights >= 2 ? given.nights - 1 : 1);
        expect(trip.dives.length + leftOutOf(explanations, asked)).toBe(asked);
        dives += trip.dives.length;
      }),
      { numRuns: 60 },
    );
    // A sheet that lays out nothing would pass all of the above.
    expect(dives).toBeGreaterThan(60);
  });
});
