import { describe, expect, it } from 'vitest';
import { idealBar } from '../../../core/compressibility';
import type { Stop, Surroundings } from '../../../core/profile';
import {
  contentL,
  emergencyGas,
  emergencyWay,
  gasUsedL,
  lastsMin,
  minimumGas,
  pressureBar,
  turnBar,
} from '../../../core/supply';

/** Round figures: 1 bar at the surface, 10 m to the bar. */
const AROUND: Surroundings = {
  column: { surfaceBar: 1, barPerM: 0.1 },
  descentMPerMin: 18,
  ascentMPerMin: 9,
};

const SUPPLY = { waterL: 12, reserveBar: 50, o2: 0.32, law: 'ideal' as const };

describe('gasUsedL', () => {
  it('is rate times pressure times minutes, at mean pressure on a slope', () => {
    expect(gasUsedL([{ fromBar: 3, toBar: 3, min: 10 }], 20)).toBeCloseTo(600, 12);
    expect(gasUsedL([{ fromBar: 1, toBar: 4, min: 2 }], 20)).toBeCloseTo(100, 12);
    expect(gasUsedL([], 20)).toBe(0);
  });
});

describe('contentL', () => {
  it('is volume times gauge pressure in the ideal', () => {
    expect(contentL(12, 200, 0.32, 'ideal')).toBe(2400);
  });

  it('is nothing at gauge 0 under either law', () => {
    expect(contentL(12, 0, 0.32, 'ideal')).toBe(0);
    expect(contentL(12, 0, 0.32, 'real')).toBe(0);
  });

  it('in the real is close to the ideal at low pressure, more than it at 100 bar, less at 300', () => {
    expect(contentL(12, 1, 0.21, 'real') / 12).toBeCloseTo(1, 2);
    expect(contentL(12, 100, 0.32, 'real')).toBeGreaterThan(1200);
    expect(contentL(12, 300, 0.32, 'real')).toBeLessThan(3600 * 0.93);
    expect(contentL(24, 200, 0.32, 'real')).toBeCloseTo(2 * contentL(12, 200, 0.32, 'real'), 9);
  });

  it('is the difference of amounts, measured in litres of the same gas at 1 bar', () => {
    const amountBar = idealBar(0.32, 200 + 1.01325) - idealBar(0.32, 1.01325);
    expect(contentL(12, 200, 0.32, 'real')).toBeCloseTo((12 * amountBar) / idealBar(0.32, 1), 9);
    expect(idealBar(0.32, 1)).not.toBeCloseTo(1, 4);
  });

  it('holds more of a mix richer in oxygen, which is more compressible', () => {
    expect(contentL(12, 220, 0.4, 'real')).toBeGreaterThan(contentL(12, 220, 0.21, 'real'));
  });
});

describe('pressureBar', () => {
  it.each(['ideal', 'real'] as const)('is null for gas that is not there, 0 for none (%s)', (law) => {
    expect(pressureBar(12, -0.001, 0.32, law)).toBeNull();
    expect(pressureBar(12, 0, 0.32, law)).toBe(0);
  });

  it('finds what no gauge shows: a pressure beyond the table', () => {
    const bar = pressureBar(10, 5000, 0.32, 'real')!;
    expect(bar).toBeGreaterThan(500);
    expect(contentL(10, bar, 0.32, 'real')).toBeCloseTo(5000, 4);
  });

  it('is ideal litres over volume', () => {
    expect(pressureBar(12, 600, 0.32, 'ideal')).toBe(50);
  });
});

describe('minimumGas', () => {
  const SAFETY_STOP = { depthM: 5, min: 3 };
  const at = (
    depthM: number,
    waysUp: readonly (readonly Stop[])[] = [[]],
    supply: Parameters<typeof minimumGas>[0] = SUPPLY,
  ) => {
    const ways = waysUp.map((stops) => emergencyWay(depthM, stops, AROUND));
    return minimumGas(supply, emergencyGas(20, ways));
  };

  it('is two divers at twice the rate: a minute deep, the ascent, the safety stop', () => {
    // 30 m: 4 bar for 1 min; 25 m to 5 m at a mean of 2.75 bar and 5 m to 0 at 1.25 bar, 9 m/min; 3 min at 1.5 bar.
    const barMin = 4 * 1 + (25 / 9) * 2.75 + 3 * 1.5 + (5 / 9) * 1.25;
    const minimum = at(30, [[SAFETY_STOP]]);
    expect(minimum.litres).toBeCloseTo(2 * 2 * 20 * barMin, 9);
    expect(minimum.bar).toBeCloseTo(minimum.litres / 12, 9);
  });

  it('without a safety stop goes straight up, and is never less than the reserve', () => {
    const minimum = at(9);
    expect(minimum.litres).toBeCloseTo(80 * (1.9 + 1.45), 9);
    expect(minimum.bar).toBe(50);
  });

  it('leaves out a safety stop that lies no shallower than the dive', () => {
    const without = at(5, [[]]);
    expect(at(5, [[SAFETY_STOP]])).toEqual(without);
    expect(at(4, [[SAFETY_STOP]]).litres).toBeLessThan(without.litres);
  });

  it('goes by the way up that takes most, whichever that is', () => {
    const many = [
      { depthM: 6, min: 2 },
      { depthM: 3, min: 8 },
    ];
    const few = [{ depthM: 3, min: 1 }];
    const bySafetyStop = at(30, [[SAFETY_STOP]]);
    const byMany = at(30, [[SAFETY_STOP], few, many]);
    const barMin = 4 + (24 / 9) * 2.8 + 2 * 1.6 + (3 / 9) * 1.45 + 8 * 1.3 + (3 / 9) * 1.15;
    expect(byMany.litres).toBeCloseTo(80 * barMin, 9);
    expect(byMany.stops).toEqual(many);
    // A single minute at 3 m takes less than three at 5 m.
    expect(at(30, [[SAFETY_STOP], few])).toEqual(bySafetyStop);
    expect(at(30, [few, [SAFETY_STOP]]).stops).toEqual([SAFETY_STOP]);
  });

  it('under the real law asks a higher gauge pressure of a high one', () => {
    const small = { ...SUPPLY, waterL: 3 };
    const ideal = at(30, [[]], small);
    const real = at(30, [[]], { ...small, law: 'real' });
    expect(real.litres).toBe(ideal.litres);
    expect(real.bar).toBeGreaterThan(ideal.bar);
  });
});

describe('turnBar', () => {
  it('is the fill less the share of what lies above the minimum', () => {
    expect(turnBar(200, 80, 0.5)).toBe(140);
    expect(turnBar(200, 80, 0)).toBe(200);
    expect(turnBar(210, 60, 1 / 3)).toBeCloseTo(160, 12);
    expect(turnBar(80, 80, 0.5)).toBe(80);
  });

  it('is null where the fill does not reach the minimum', () => {
    expect(turnBar(79.9, 80, 0.5)).toBeNull();
  });
});

describe('lastsMin', () => {
  const legs = [
    { fromBar: 1, toBar: 3, min: 2 },
    { fromBar: 3, toBar: 3, min: 20 },
    { fromBar: 3, toBar: 1, min: 4 },
  ];

  it('is null where the gas lasts, to the last litre', () => {
    expect(lastsMin(legs, 20, gasUsedL(legs, 20))).toBeNull();
    expect(lastsMin([], 20, 0)).toBeNull();
  });

  it('finds the minute on a level, going down and going up', () => {
    expect(lastsMin(legs, 20, 20 * (4 + 3 * 7))).toBeCloseTo(9, 12);
    // Down: 1 + t bar, so t + t^2/2 = 1.5 after one minute. Up: 3 - t/2, so 3t - t^2/4 = 5 after two.
    expect(lastsMin(legs, 20, 20 * 1.5)).toBeCloseTo(1, 12);
    expect(lastsMin(legs, 20, 20 * (4 + 60 + 5))).toBeCloseTo(24, 12);
    expect(lastsMin(legs, 20, 0)).toBe(0);
  });
});
