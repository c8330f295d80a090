import { describe, expect, it } from 'vitest';
import { partialPressureFill } from '../../core/mixes/fills';
import { richestMix, usableModM } from '../../core/mixes/richest';
import { eadM } from '../../core/gas';
import { demoTrip } from '../../core/document/demo-trip';
import type { Surroundings } from '../../core/profile';
import type { Diver } from '../../core/document/types';

/** The trade's water in the worked examples: 1 at the surface, 1 more each 10 m or 33 ft. */
const metres: Surroundings = {
  column: { surfaceBar: 1, barPerM: 0.1 },
  descentMPerMin: 18,
  ascentMPerMin: 9,
};
const feet: Surroundings = {
  column: { surfaceBar: 1, barPerM: 1 / 33 },
  descentMPerMin: 60,
  ascentMPerMin: 30,
};

const trip = demoTrip();
const diver: Diver = { ...trip.party[0]!, maxO2: 0.4, po2: { working: 1.4, contingency: 1.6 } };
const mix = (o2: number) => ({ id: 'm', o2, costPerFill: 0 });

// Source: encyclopaedia article "Maximum operating depth" (28.9 m, 95.3 fsw for 36 % at 1.4; the page prints
// 95.4, a rounding slip) and a diving club's formula page (111 fsw for 32 %). Read in mirrors, not in print.
describe('the MOD that the choice of a mix rests on', () => {
  const rows = [
    { o2: 0.36, around: metres, depth: 28.9, halfDigit: 0.05 },
    { o2: 0.36, around: feet, depth: 95.3333, halfDigit: 0.00005 },
    { o2: 0.32, around: feet, depth: 111.375, halfDigit: 0.0005 },
    { o2: 0.32, around: metres, depth: 33.75, halfDigit: 0.005 },
  ];
  it('meets the four worked examples within half the last digit printed', () => {
    expect(rows.length).toBe(4);
    for (const { o2, around, depth, halfDigit } of rows) {
      expect(Math.abs(usableModM(mix(o2), diver, trip, around) - depth)).toBeLessThanOrEqual(halfDigit);
    }
  });
});

// Source: the inverse of the MOD formula; the numbers are computed, no printed example was found: 35 % for
// 30 m at 1.4, 34.73 % or 34 % whole for 100 fsw.
describe('the richest mix for a depth', () => {
  it('is 35 % at 30 m and 34 % at 100 ft', () => {
    expect(richestMix(30, diver, trip, metres)).toMatchObject({ tenthO2: 0.35, percent: 35, limit: 'po2' });
    expect(richestMix(100, diver, trip, feet)).toMatchObject({ tenthO2: 0.347, percent: 34, limit: 'po2' });
  });
});

// Source: encyclopaedia article "Equivalent air depth": 36 % at 27 m is 20 m (19.9747), at 90 fsw 67 fsw (66.6456).
describe('the equivalent air depth of a chosen mix', () => {
  it('meets the worked examples', () => {
    expect(eadM(0.36, 27, metres.column)).toBeCloseTo(19.9747, 4);
    expect(eadM(0.36, 90, feet.column)).toBeCloseTo(66.6456, 4);
  });
});

// Source: compressibility at 293.15 K computed from the reference equations of state (nitrogen: R. Span et al.,
// J Phys Chem Ref Data 2000;29:1361; oxygen: R. Schmidt, W. Wagner 1985), means by Amagat's law, four digits:
// 32 % oxygen Z 0.9859 at 50 bar, 1.0157 at 200, 0.9996 at 1; 36 % Z 1.0303 at 232.
describe('the oxygen a fill takes, with compressibility', () => {
  /** Half the last digit of each of three Z values, relative, added up. */
  const TABLE_ROUNDING = 3 * 0.00005;
  /** Surface pressure, as gauges read from it. */
  const SURFACE_BAR = 1.01325;

  it('is Dalton on the amounts that the table of Z gives: 12 L of 32 %, 50 to 200 bar absolute', () => {
    const start = { waterL: 12, startBar: 50 - SURFACE_BAR, fillBar: 200 - SURFACE_BAR, startO2: 0.32 };
    const fill = partialPressureFill(start, 0.32, 'real');
    if (!fill.ok) throw new Error(fill.troubles[0].what);
    const addedL = 12 * (200 / 1.0157 - 50 / 0.9859) * 0.9996;
    const oxygenL = (addedL * (0.32 - 0.21)) / 0.79;
    expect(Math.abs(fill.value.oxygenL / oxygenL - 1)).toBeLessThan(TABLE_ROUNDING);
    expect(Math.abs((fill.value.oxygenL + fill.value.airL) / addedL - 1)).toBeLessThan(TABLE_ROUNDING);
  });

  it('takes less than the ideal law says: at 232 bar 36 % holds 3 % less, as printed', () => {
    const start = { waterL: 12, startBar: 0, fillBar: 232 - SURFACE_BAR, startO2: 0.36 };
    const [real, ideal] = (['real', 'ideal'] as const).map((law) => {
      const fill = partialPressureFill(start, 0.36, law);
      if (!fill.ok) throw new Error(fill.troubles[0].what);
      return fill.value.oxygenL;
    });
    const held = 12 * (232 / 1.0303 - SURFACE_BAR / 0.9996) * 0.9996;
    expect(Math.abs(real! / ((held * 0.15) / 0.79) - 1)).toBeLessThan(TABLE_ROUNDING);
    expect(1 - real! / ideal!).toBeGreaterThan(0.025);
  });
});
