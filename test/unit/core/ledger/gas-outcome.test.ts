import { describe, expect, it } from 'vitest';
import { ledger } from '../../../../core/ledger/ledger';
import type { Entry } from '../../../../core/ledger/ledger-types';
import type { Dive, Diver, Mix } from '../../../../core/document/types';
import { aDive, aDiver, aTrip } from '../../../builders/trip';

const EAN32: Mix = { id: 'ean32', o2: 0.32, costPerFill: 0 };

function entriesOf(dives: readonly Dive[], change: Partial<Diver> = {}): readonly Entry[] {
  return ledger(aTrip(dives, { party: [aDiver(change)], mixes: [EAN32] })).divers[0]!.entries;
}

function onEan32(change: Partial<Dive>): Dive {
  return aDive({ mix: 'ean32', ...change });
}

describe('gas past the no-stop limit', () => {
  const cylinder = { waterL: 12, fillBar: 200, reserveBar: 50 };
  const at = (bottomMin: number) =>
    entriesOf([onEan32({ depthM: 27, bottomMin })], { surfaceRateLpm: 15, cylinder })[0]!;

  it('does not fall where a minute of required stop takes the place of the safety stop', () => {
    const { noStopMin } = at(20);
    const inside = at(noStopMin! - 0.005);
    const past = at(noStopMin! + 0.005);
    expect([inside.stops, past.stops!.length > 0]).toEqual([[], true]);
    // Two divers at 30 L/min each: a minute at 27 m, up to 5 m, 3 min there, up.
    const bar = (m: number) => 1.01325 + ((1019.7 * 9.80665) / 100_000) * m;
    const litres = 60 * (bar(27) + (22 / 9) * bar(16) + 3 * bar(5) + (5 / 9) * bar(2.5));
    expect(inside.gas.minimumBar).toBeCloseTo(litres / 12, 3);
    expect(past.gas.minimumBar).toBe(inside.gas.minimumBar);
    expect(past.gas.turnBar).toBe(inside.gas.turnBar);
    expect(past.gas.usedL! - inside.gas.usedL!).toBeCloseTo(15 * bar(27) * 0.01, 6);
    // The tensions follow the stops required: a minute at 3 m and not three at 5 m.
    expect(past.surfacesMin).toBeLessThan(inside.surfacesMin);
  });

  it('takes the stops once they take more', () => {
    const [long] = entriesOf([onEan32({ depthM: 27, bottomMin: 60 })], { surfaceRateLpm: 15, cylinder });
    expect(long!.stops!.reduce((sum, stop) => sum + stop.min, 0)).toBeGreaterThan(5);
    expect(long!.gas.minimumBar).toBeGreaterThan(at(28).gas.minimumBar! + 10);
  });
});

describe('minimum gas of a dive of several levels', () => {
  const legs = (...levels: readonly (readonly [m: number, min: number])[]) => ({
    depthM: Math.max(...levels.map(([m]) => m)),
    bottomMin: levels.reduce((sum, [, min]) => sum + min, 0),
    legs: levels.map(([depthM, min]) => ({ depthM, min })),
  });

  it('lasts for the stops of going up from the level that needs them, whatever is planned after it', () => {
    const [square] = entriesOf([onEan32({ depthM: 33, bottomMin: 35 })]);
    const [levelled] = entriesOf([onEan32(legs([33, 35], [6, 60]))]);
    expect(square!.stops!.length).toBeGreaterThan(0);
    expect(levelled!.levelsPastLimitM).toEqual([33]);
    expect(levelled!.gas.minimumBar).toBeGreaterThanOrEqual(square!.gas.minimumBar!);
  });

  it('does not fall with more time on a shallow last level, which sheds stops', () => {
    const at = (min: number) => entriesOf([onEan32(legs([33, 35], [9, min]))])[0]!;
    const [short, long] = [at(4), at(30)];
    const stopMin = (entry: Entry) => entry.stops!.reduce((sum, stop) => sum + stop.min, 0);
    expect(stopMin(long)).toBeLessThan(stopMin(short));
    expect(long.gas.minimumBar).toBeGreaterThanOrEqual(short.gas.minimumBar!);
  });
});

describe('gas where no way up is found', () => {
  // At rest a mixture this lean has more nitrogen at 3 m than the gradient lets the slow tissues hold.
  const lean: Mix = { id: 'lean', o2: 0.05, costPerFill: 0 };
  const [entry] = ledger(
    aTrip([aDive({ depthM: 12, bottomMin: 1200, mix: 'lean' })], {
      party: [aDiver({ gradient: { low: 0.05, high: 0.1 } })],
      mixes: [lean],
    }),
  ).divers[0]!.entries;

  it('is not told, and what is in the cylinder and used until then is', () => {
    expect(entry!.stops).toBeNull();
    expect(entry!.gas).toMatchObject({ usedL: null, endBar: null, turnBar: null, minimumBar: null });
    expect(entry!.gas.contentL).toBe(24 * 230);
    expect(entry!.gas.usedAtLeavingL).toBeGreaterThan(1200 * 12);
  });
});
