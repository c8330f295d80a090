import { describe, expect, it } from 'vitest';
import { compressibility, idealBar } from '../../../core/compressibility';
import { DENSITY_ADVISED_GL, DENSITY_LIMIT_GL, gasDensityGL } from '../../../core/gas';
import { contentL } from '../../../core/supply';
import { altitudeBar, ambientBar, waterColumn } from '../../../core/water';
import { publishedRows } from './table';

// ISO 2533:1975 = U.S. Standard Atmosphere 1976.
describe('pressure by altitude', () => {
  const rows = publishedRows('altitude.csv', ['altitudeM', 'pascal'], 10);
  /** Half the last printed digit, and what the printed exponent (5.25588) makes of 5.255876 at 11 000 m. */
  const PRINTED_PA = 0.05 + 0.14;

  it('agrees with the table in every row', () => {
    for (const row of rows) {
      expect(Math.abs(altitudeBar(row.altitudeM) * 1e5 - row.pascal), `${row.altitudeM} m`).toBeLessThan(
        PRINTED_PA,
      );
    }
  });
});

function perM(density: 'gauge' | 'fresh' | number): number {
  return waterColumn({ density, altitudeM: 0 }).barPerM;
}

// Density times 9.80665; EN 13319:2000 for 10 m to the bar.
describe('pressure by depth', () => {
  const rows = publishedRows('hydrostatics.csv', ['densityKgM3', 'barPer10M'], 6);

  /** Half the last printed digit; 9.80665 itself falls on the half. */
  const PRINTED = 0.000005 + 1e-9;

  it('agrees with the table for every density', () => {
    for (const row of rows) {
      const column = waterColumn({ density: row.densityKgM3, altitudeM: 0 });
      const added = ambientBar(10, column) - ambientBar(0, column);
      expect(Math.abs(added - row.barPer10M), `${row.densityKgM3}`).toBeLessThan(PRINTED);
    }
  });

  // EN 13319:2000 as summarised: 10 m indicated is 1 bar; fresh water is 102 % of indicated, sea water of 1030 99 %.
  it('"gauge" water has 10 m to the bar, fresh water 2 % more, dense sea water 1 % less', () => {
    expect(10 * perM('gauge')).toBeCloseTo(1, 4);
    expect(perM('gauge') / perM('fresh')).toBeCloseTo(1.02, 3);
    expect(perM('gauge') / perM(1030)).toBeCloseTo(0.99, 3);
  });
});

// Reference equations of state at 293.15 K; see README.md.
describe('compressibility', () => {
  const columns = ['absoluteBar', 'o2', 'n2', 'air', 'ean32', 'ean36', 'ean40'] as const;
  const rows = publishedRows('compressibility-20c.csv', columns, 9);
  /** Half the last printed digit, and 1 bar and 207 bar are no nodes of ours: interpolation is in it. */
  const PRINTED = 0.0001;
  /** Air's own equation against the mean of its two gases; the mean is above, so it holds less gas. */
  const AMAGAT = 0.0023;

  it('agrees for oxygen, nitrogen and their means in every row, also where no node stands', () => {
    for (const row of rows) {
      expect(Math.abs(compressibility(1, row.absoluteBar) - row.o2)).toBeLessThanOrEqual(PRINTED);
      expect(Math.abs(compressibility(0, row.absoluteBar) - row.n2)).toBeLessThanOrEqual(PRINTED);
    }
  });

  it('agrees for the tabled mixes, which are the same mean of the two gases', () => {
    for (const row of rows) {
      expect(Math.abs(compressibility(0.32, row.absoluteBar) - row.ean32)).toBeLessThanOrEqual(PRINTED);
      expect(Math.abs(compressibility(0.36, row.absoluteBar) - row.ean36)).toBeLessThanOrEqual(PRINTED);
      expect(Math.abs(compressibility(0.4, row.absoluteBar) - row.ean40)).toBeLessThanOrEqual(PRINTED);
    }
  });

  it('of air lies above the equation of state of air, by 0.0023 at most: contents come out on the low side', () => {
    for (const row of rows) {
      const excess = compressibility(0.21, row.absoluteBar) - row.air;
      expect(excess).toBeGreaterThan(-PRINTED);
      expect(excess).toBeLessThan(AMAGAT);
    }
  });

  // 12 L of air at 20 degrees, from the equation of state of air: 2338.3, 2656.7 and 3258.8 bar litres at 200, 232
  // and 300 bar absolute.
  it('12 L of air hold what the equation of state of air gives, less 0.25 % at most', () => {
    for (const [absoluteBar, litres] of [
      [200, 2338.3],
      [232, 2656.7],
      [300, 3258.8],
    ] as const) {
      const held = (12 * idealBar(0.21, absoluteBar)) / idealBar(0.21, 1);
      expect(held).toBeLessThanOrEqual(litres);
      expect(held / litres).toBeGreaterThan(1 - 0.0025);
    }
  });

  it('air at 232 bar holds at least 4.5 % less than ideal, at 300 bar 9.5 %, and not half a percent more', () => {
    for (const [gaugeBar, missing] of [
      [232, 0.045],
      [300, 0.095],
    ] as const) {
      const found = 1 - contentL(12, gaugeBar, 0.21, 'real') / contentL(12, gaugeBar, 0.21, 'ideal');
      expect(found).toBeGreaterThan(missing);
      expect(found).toBeLessThan(missing + 0.005);
    }
  });
});

// 22.4-L values: oxygen 1.428, nitrogen 1.251 g/L at 0 degrees and 1 atm (University of Michigan page, read).
describe('density', () => {
  it('of oxygen and nitrogen at 0 degrees and 1 atm is as printed', () => {
    expect(gasDensityGL(1, 1.01325)).toBeCloseTo(1.428, 3);
    expect(Math.abs(gasDensityGL(0, 1.01325) - 1.251)).toBeLessThan(0.0015);
  });

  // Anthony and Mitchell 2016: 5.2 g/L is air at about 31 m, 6.2 g/L at about 39 m (the numbers from memory).
  it('of air meets the marks at about 31 m and 39 m', () => {
    const column = waterColumn({ density: 'gauge', altitudeM: 0 });
    for (const [markGL, atM] of [
      [DENSITY_ADVISED_GL, 31],
      [DENSITY_LIMIT_GL, 39],
    ] as const) {
      expect(gasDensityGL(0.21, ambientBar(atM, column))).toBeGreaterThan(markGL);
      expect(gasDensityGL(0.21, ambientBar(atM - 1, column))).toBeLessThan(markGL);
    }
  });
});
