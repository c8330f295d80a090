import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toleratedBar } from '../../core/ascent/tolerated';
import { levelsOf, ascentLegs, type Leg, surroundingsOf } from '../../core/profile';
import { applyMap, type Lanes } from '../../core/tissues/affine-map';
import { COMPARTMENT_COUNT } from '../../core/tissues/compartments';
import { stretchMap } from '../../core/tissues/leg-map';
import { newDivePlan } from '../../core/ledger/dive-plan';
import { ledger } from '../../core/ledger/ledger';
import type { Entry, EntryLevel } from '../../core/ledger/ledger-types';
import type { Trip } from '../../core/document/types';
import { trips } from '../support/trip-arbitrary';

const ONE_SECOND = 1 / 60;

/** Rounding of the closed form, bar: a few ulp of 11 bar. */
const DUST_BAR = 1e-12;

/** Whether a way up, looked at every three seconds, keeps within the tolerated tension. */
function smallestMargin(legs: readonly Leg[], from: Lanes, n2: number, gradient: number): number {
  let tensions = from;
  let smallest = Infinity;
  for (const leg of legs) {
    const steps = Math.max(1, Math.ceil(leg.min / 0.05));
    for (let step = 1; step <= steps; step += 1) {
      const at = (share: number) => leg.fromBar + (leg.toBar - leg.fromBar) * share;
      const bar = at(step / steps);
      tensions = applyMap(stretchMap(at((step - 1) / steps), bar, leg.min / steps), tensions, n2);
      for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
        smallest = Math.min(smallest, toleratedBar(i, bar, gradient) - tensions[i]!);
      }
    }
  }
  return smallest;
}

/** The margin of a direct ascent from a level that lasts so long, the levels before it being done. */
function marginAfter(trip: Trip, entry: Entry, index: number, min: number): number {
  const around = surroundingsOf(trip);
  const levels = levelsOf(entry.dive).slice(0, index + 1);
  const { depthM } = levels[index]!;
  const legs = [...levels.slice(0, index), { depthM, min }];
  const bottomMin = legs.reduce((sum, level) => sum + level.min, 0);
  const plan = newDivePlan(
    { depthM: Math.max(...legs.map((each) => each.depthM)), bottomMin, legs, safetyStop: null },
    around,
  );
  const n2 = 1 - entry.o2!;
  const leaving = applyMap(plan.toLeaving, entry.tensionsBefore, n2);
  return smallestMargin(ascentLegs(depthM, [], around), leaving, n2, entry.diver.gradient.high);
}

interface Asked {
  readonly trip: Trip;
  readonly entry: Entry;
  readonly index: number;
  readonly level: EntryLevel;
  /** Of the level's minutes the way to it takes so many. */
  readonly travelMin: number;
}

function eachLevel(trip: Trip, ask: (asked: Asked) => void): void {
  for (const { entries } of ledger(trip).divers) {
    for (const entry of entries) {
      if (!entry.isMade) continue;
      const plan = newDivePlan(entry.dive, surroundingsOf(trip));
      entry.levels.forEach((level, index) => {
        const { travelMin } = [...plan.earlierLevels, plan.lastLevel][index]!;
        ask({ trip, entry, index, level, travelMin });
      });
    }
  }
}

describe('the no-stop limit of each level', () => {
  it('is tight: left a second sooner a direct ascent passes nothing, a second later it does', () => {
    const seen = { first: 0, later: 0 };
    fc.assert(
      fc.property(trips({ dives: { min: 1, max: 3 }, party: { min: 1, max: 1 } }), (trip) => {
        eachLevel(trip, ({ entry, index, level, travelMin }) => {
          const { noStopMin } = level;
          if (noStopMin === null || noStopMin < travelMin + ONE_SECOND) return;
          if (index === 0) seen.first += 1;
          else seen.later += 1;
          expect(marginAfter(trip, entry, index, noStopMin - ONE_SECOND)).toBeGreaterThan(-DUST_BAR);
          expect(marginAfter(trip, entry, index, noStopMin + ONE_SECOND)).toBeLessThan(DUST_BAR);
        });
      }),
      { numRuns: 200 },
    );
    expect(seen.first).toBeGreaterThan(100);
    expect(seen.later).toBeGreaterThan(30);
  });

  it('is null only where a week at the level passes nothing, and 0 only where the arrival passes', () => {
    const seen = { unlimited: 0, over: 0 };
    fc.assert(
      fc.property(trips({ dives: { min: 1, max: 3 }, party: { min: 1, max: 1 } }), (trip) => {
        eachLevel(trip, ({ entry, index, level, travelMin }) => {
          if (level.unlimited) {
            seen.unlimited += 1;
            expect(marginAfter(trip, entry, index, 10_080)).toBeGreaterThan(-1e-9);
          } else if (level.noStopMin === 0) {
            seen.over += 1;
            expect(marginAfter(trip, entry, index, travelMin)).toBeLessThan(DUST_BAR);
          }
        });
      }),
      { numRuns: 200 },
    );
    expect(seen.unlimited).toBeGreaterThan(10);
    expect(seen.over).toBeGreaterThan(10);
  });

  it('agrees with what counts as past: an earlier level too long by it, the whole dive by its last', () => {
    let past = 0;
    fc.assert(
      fc.property(trips({ dives: { min: 1, max: 4 }, party: { min: 1, max: 2 } }), (trip) => {
        for (const { entries } of ledger(trip).divers) {
          for (const entry of entries) {
            if (!entry.isMade) continue;
            const over = entry.levels.filter(
              ({ min, noStopMin }) => noStopMin !== null && min > noStopMin + 1e-6,
            );
            if (entry.isPastLimit) past += 1;
            expect(over.length > 0).toBe(entry.isPastLimit);
          }
        }
      }),
      { numRuns: 200 },
    );
    expect(past).toBeGreaterThan(20);
  });
});
