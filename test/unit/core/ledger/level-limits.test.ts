import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../../../core/cautions/all';
import { ledger } from '../../../../core/ledger/ledger';
import { ledgerDocument } from '../../../../core/formats/ledger-document';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { deepestLevel } from '../../../../core/ledger/level-limits';
import { aDive, aTrip, RICH } from '../../../builders/trip';
import type { Level } from '../../../../core/profile';

function entryOf(levels: readonly Level[], depthM = Math.max(...levels.map((level) => level.depthM))): Entry {
  const bottomMin = levels.reduce((sum, { min }) => sum + min, 0);
  const dive = aDive({ depthM, bottomMin, ...(levels.length > 1 ? { legs: levels } : {}) });
  return ledger(aTrip([dive])).divers[0]!.entries[0]!;
}

describe('the levels of an entry', () => {
  it('is a single one on a square dive, with the limit of the dive', () => {
    const entry = entryOf([{ depthM: 24, min: 20 }]);
    expect(entry.levels).toEqual([{ depthM: 24, min: 20, noStopMin: entry.noStopMin, unlimited: false }]);
  });

  it('gives the first level the limit of a square dive at its depth, whatever comes after', () => {
    const square = entryOf([{ depthM: 36, min: 5 }]);
    const entry = entryOf([
      { depthM: 36, min: 6 },
      { depthM: 12, min: 27 },
    ]);
    expect(entry.levels[0]!.noStopMin).toBeCloseTo(square.noStopMin!, 9);
    // The whole time is that of the last level and no measure of what 36 m allow.
    expect(entry.noStopMin!).toBeGreaterThan(60);
    expect(entry.levels[0]!.noStopMin!).toBeLessThan(12);
  });

  it('gives the last level what the whole time leaves it', () => {
    const entry = entryOf([
      { depthM: 30, min: 8 },
      { depthM: 18, min: 12 },
    ]);
    expect(8 + entry.levels[1]!.noStopMin!).toBeCloseTo(entry.noStopMin!, 9);
  });

  it('gives a deeper level after a shallow one what is left there, the way down included', () => {
    const rested = entryOf([{ depthM: 30, min: 5 }]);
    const entry = entryOf([
      { depthM: 12, min: 30 },
      { depthM: 30, min: 5 },
    ]);
    expect(entry.levels[1]!.noStopMin!).toBeLessThan(rested.noStopMin! - 1);
    expect(entry.levels[1]!.noStopMin!).toBeGreaterThan(0);
  });

  it('has no limit where no compartment meets one, and none at all where the dive is not made', () => {
    const entry = entryOf([
      { depthM: 24, min: 10 },
      { depthM: 5, min: 10 },
    ]);
    expect(entry.levels[1]).toEqual({ depthM: 5, min: 10, noStopMin: null, unlimited: true });
    const legs = [
      { depthM: 44, min: 10 },
      { depthM: 5, min: 10 },
    ];
    const dive = aDive({ depthM: 44, bottomMin: 20, legs, mix: 'auto' });
    const rich = aTrip([dive], { mixes: [RICH] });
    const unmade = ledger(rich).divers[0]!.entries[0]!;
    expect(unmade.isMade).toBe(false);
    expect(unmade.levels).toEqual(legs.map((level) => ({ ...level, noStopMin: null, unlimited: false })));
  });

  it('is 0 where a direct ascent on arrival already passes', () => {
    const entry = entryOf([
      { depthM: 36, min: 30 },
      { depthM: 20, min: 10 },
      { depthM: 15, min: 5 },
    ]);
    expect(entry.levels.map(({ noStopMin }) => noStopMin)).toEqual([expect.any(Number), 0, 0]);
  });

  it('stands in the ledger document beside the whole time', () => {
    const legs = [
      { depthM: 24, min: 10 },
      { depthM: 5, min: 10 },
    ];
    const made = ledger(aTrip([aDive({ depthM: 24, bottomMin: 20, legs })]));
    const [entry] = ledgerDocument(made, cautionsOf(made)).divers[0]!.entries;
    expect(entry).toMatchObject({ noStopMin: null, unlimited: true });
    expect(entry!.levels).toEqual([
      { depthM: 24, min: 10, noStopMin: made.divers[0]!.entries[0]!.levels[0]!.noStopMin },
      { depthM: 5, min: 10, noStopMin: null, unlimited: true },
    ]);
  });
});

describe('deepestLevel', () => {
  it('is the deepest wherever it stands', () => {
    const entry = entryOf([
      { depthM: 20, min: 10 },
      { depthM: 26, min: 8 },
      { depthM: 10, min: 10 },
    ]);
    expect(deepestLevel(entry.levels)).toBe(entry.levels[1]);
  });

  it('is the one with less time where two lie as deep', () => {
    const entry = entryOf([
      { depthM: 26, min: 8 },
      { depthM: 10, min: 10 },
      { depthM: 26, min: 4 },
    ]);
    expect(entry.levels[2]!.noStopMin!).toBeLessThan(entry.levels[0]!.noStopMin!);
    expect(deepestLevel(entry.levels)).toBe(entry.levels[2]);
    expect(deepestLevel(entry.levels.toReversed())).toBe(entry.levels[2]);
  });
});
