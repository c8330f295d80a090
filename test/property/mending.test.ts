/*
 * Mending beside every plan by hand: test/support/mend-by-hand.ts is written from DEVELOPERS.md, "What mending looks
 * for", alone. `npm run attack -- mending` does more of it.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compared } from '../support/mend-compared';

/** So few plans a trip that two hundred trips are tried in seconds. */
const MOST_PLANS = 1500;

describe('cheapestPlan', () => {
  it.each([
    { about: 'all dives', runs: 100 },
    { about: 'one dive', runs: 100 },
    { about: 'one dive before required stops', runs: 30 },
    { about: 'the flight by another view', runs: 20 },
  ] as const)(
    'finds the first of all plans for $about, or that there is none',
    ({ about, runs }) => {
      let withPlan = 0;
      let without = 0;
      fc.assert(
        fc.property(fc.integer({ min: 1, max: 1_000_000_000 }), (seed) => {
          const { kind, ...told } = compared(seed, MOST_PLANS, about);
          fc.pre(kind === 'compared');
          const { differs, hasPlan } = told as { differs: string; hasPlan: boolean };
          expect(differs).toBe('');
          if (hasPlan) withPlan += 1;
          else without += 1;
        }),
        { numRuns: runs, maxSkipsPerRun: 2000 },
      );
      // Both answers were there to be wrong about.
      expect(withPlan).toBeGreaterThan(runs / 3);
      expect(without).toBeGreaterThan(runs / 30);
    },
    300_000,
  );
});
