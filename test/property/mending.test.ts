/*
 * Mending beside every plan by hand: test/support/mend-by-hand.ts is written from DEVELOPERS.md, "What mending looks
 * for", alone. `npm run attack -- mending` does more of it.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compared } from '../support/mend-compared';

/** So few plans a trip that two hundred trips are tried in seconds. */
const MOST_PLANS = 1500;

/** The ledger of a loop takes longer, as it looks for the way up on bail-out. */
const MOST_PLANS_ON_LOOPS = 400;

/** Trips of all kinds for which there is no plan: of the rarer kinds few are drawn. */
let withoutPlan = 0;

describe('cheapestPlan', () => {
  it.each([
    { about: 'all dives', runs: 100, most: MOST_PLANS },
    { about: 'one dive', runs: 100, most: MOST_PLANS },
    { about: 'one dive before required stops', runs: 30, most: MOST_PLANS },
    { about: 'the flight by another view', runs: 20, most: MOST_PLANS },
    { about: 'all dives of a mixed party', runs: 25, most: MOST_PLANS_ON_LOOPS },
    { about: 'one dive of a mixed party', runs: 15, most: MOST_PLANS_ON_LOOPS },
  ] as const)(
    'finds the first of all plans for $about, or that there is none',
    ({ about, runs, most }) => {
      let withPlan = 0;
      fc.assert(
        fc.property(fc.integer({ min: 1, max: 1_000_000_000 }), (seed) => {
          const { kind, ...told } = compared(seed, most, about);
          fc.pre(kind === 'compared');
          const { differs, hasPlan } = told as { differs: string; hasPlan: boolean };
          expect(differs).toBe('');
          if (hasPlan) withPlan += 1;
          else withoutPlan += 1;
        }),
        { numRuns: runs, maxSkipsPerRun: 2000 },
      );
      expect(withPlan).toBeGreaterThan(runs / 3);
    },
    300_000,
  );

  it('was asked of trips that no plan mends, too', () => {
    expect(withoutPlan).toBeGreaterThan(10);
  });
});
