import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { effectiveDive } from '../../core/document/as-dived';
import { ledger } from '../../core/ledger/ledger';
import type { Entry } from '../../core/ledger/ledger-types';
import { deeper, entryWith, longer } from '../../core/ledger/changed-dive';
import { levelsOf, type ProfileShape } from '../../core/profile';
import { trips } from '../support/trip-arbitrary';

/** Pressures under the real gas law are found to 1e-7 bar. */
const SAME_BAR = 1e-6;
/** Sums of a dozen legs of up to some thousand litres. */
const SAME_L = 1e-6;

const last = trips({ dives: { min: 1, max: 4 }, party: { min: 1, max: 1 } }).map((trip) => {
  const entry = ledger(trip).divers[0]!.entries.at(-1)!;
  return { trip, entry, shape: effectiveDive(entry.dive, entry.diver).shape };
});

/** From a hair to more than any stop: small steps meet the edges, large ones the whole. */
const steps = fc.oneof(
  fc.double({ min: 0.001, max: 0.3, noNaN: true }),
  fc.double({ min: 0.3, max: 20, noNaN: true }),
);

/** On a last level above the one before tissues give gas off: a minute there may save a whole minute of a stop. */
function isLastDeepest(shape: ProfileShape): boolean {
  const depths = levelsOf(shape).map(({ depthM }) => depthM);
  return depths.at(-1)! >= Math.max(...depths);
}

describe('the gas of a dive', () => {
  const seen = { stopsAppear: 0, firstStopMoves: 0, levels: 0 };
  const count = (entry: Entry, more: Entry, shape: ProfileShape): void => {
    const [was, is] = [entry.stops ?? [], more.stops ?? []];
    if (was.length === 0 && is.length > 0) seen.stopsAppear += 1;
    if (was.length > 0 && is.length > 0 && was[0]!.depthM < is[0]!.depthM) seen.firstStopMoves += 1;
    if (shape.legs !== undefined && is.length > 0) seen.levels += 1;
  };
  const expectNoLess = (entry: Entry, more: Entry, withUsed: boolean): void => {
    const [was, is] = [entry.gas, more.gas];
    // Where no way up on the gas is found there is no figure to compare.
    if (was.minimumBar !== null && is.minimumBar !== null) {
      expect(is.minimumBar).toBeGreaterThanOrEqual(was.minimumBar - SAME_BAR);
      // A turn pressure is null where the fill does not reach the minimum: then nothing may be left to turn with.
      if (was.turnBar === null) expect(is.turnBar).toBeNull();
      else if (is.turnBar !== null) expect(is.turnBar).toBeGreaterThanOrEqual(was.turnBar - SAME_BAR);
    }
    if (withUsed && was.usedL !== null && is.usedL !== null) {
      expect(is.usedL).toBeGreaterThanOrEqual(was.usedL - SAME_L);
    }
  };

  it('is never less on a longer dive: minimum gas on any, gas used where the last level is the deepest', () => {
    fc.assert(
      fc.property(last, steps, ({ trip, entry, shape }, byMin) => {
        fc.pre(entry.isMade);
        const more = entryWith(trip, entry, longer(shape, byMin));
        count(entry, more, shape);
        expectNoLess(entry, more, isLastDeepest(shape));
      }),
      { numRuns: 2000, interruptAfterTimeLimit: 110_000 },
    );
  }, 120_000);

  it('is never less on a deeper dive, every level shifted alike', () => {
    fc.assert(
      fc.property(last, steps, ({ trip, entry, shape }, byM) => {
        const first = levelsOf(shape)[0]!;
        fc.pre(entry.isMade && (first.depthM + byM) / trip.settings.descentMPerMin <= first.min);
        const more = entryWith(trip, entry, deeper(shape, byM));
        count(entry, more, shape);
        expectNoLess(entry, more, isLastDeepest(shape));
      }),
      { numRuns: 2000, interruptAfterTimeLimit: 110_000 },
    );
  }, 120_000);

  it('was asked where stops appear, where the first of them moves, and on levels', () => {
    console.log('gas of longer and deeper dives:', seen);
    expect(seen.stopsAppear).toBeGreaterThan(50);
    expect(seen.firstStopMoves).toBeGreaterThan(50);
    expect(seen.levels).toBeGreaterThan(50);
  });
});
