import { describe, expect, it } from 'vitest';
import { esotAdvised, otuAllowedToday, otuTotalAllowed } from '../../../core/oxygen/budgets';
import { cnsFraction } from '../../../core/oxygen/cns';
import { esot, kIndex } from '../../../core/oxygen/esot';
import { limitMin, NOAA_LIMITS, type OxygenClock } from '../../../core/oxygen/limits';
import { otu } from '../../../core/oxygen/otu';
import { publishedRows } from './table';

/** Rounding of doubles over a handful of operations; the values compared are exact by definition. */
const ROUNDING = 1e-12;

function level(po2Bar: number, min: number) {
  return [{ fromBar: po2Bar, toBar: po2Bar, min }];
}

// NOAA Diving Manual, 3rd to 6th ed., "Normal Exposure Oxygen Partial Pressure Limits".
describe('NOAA oxygen limits', () => {
  const rows = publishedRows('noaa-limits.csv', ['po2Atm', 'singleMin', 'dailyMin'], 11);

  it('stand in core as printed', () => {
    expect(NOAA_LIMITS).toEqual(
      rows.map((row) => ({ po2Bar: row.po2Atm, singleMin: row.singleMin, dailyMin: row.dailyMin })),
    );
  });

  it.each(['single', 'daily'] as const)('an exposure as long as each %s limit reads 100 %%', (clock) => {
    let cells = 0;
    for (const row of rows) {
      const min = clock === 'single' ? row.singleMin : row.dailyMin;
      expect(cnsFraction(level(row.po2Atm, min), 1, clock)).toBeCloseTo(1, 14);
      for (const o2 of [0.21, 0.28, 0.32, 0.36, 0.4, 0.5]) {
        const share = cnsFraction(level(row.po2Atm / o2, min), o2, clock);
        expect(Math.abs(share! - 1), `${o2} at ${row.po2Atm}`).toBeLessThan(ROUNDING);
      }
      cells += 1;
    }
    expect(cells).toBe(11);
  });

  it('fall as pressure rises, and a day allows no less than one exposure', () => {
    for (const [index, row] of rows.entries()) {
      expect(row.dailyMin).toBeGreaterThanOrEqual(row.singleMin);
      const next = rows[index + 1];
      if (next) expect(next.singleMin).toBeLessThan(row.singleMin);
      if (next) expect(next.dailyMin).toBeLessThanOrEqual(row.dailyMin);
    }
  });

  // E. C. Baker, "Oxygen toxicity calculations", segment table (from memory): limit = slope * PO2 + intercept,
  // single exposure. Below 0.6 his line is longer than the 0.6 row, which is held here instead.
  it('lie on the printed straight lines in between', () => {
    const segments = [
      [0.6, 0.7, -1500, 1620],
      [0.7, 0.8, -1200, 1410],
      [0.8, 0.9, -900, 1170],
      [0.9, 1.1, -600, 900],
      [1.1, 1.5, -300, 570],
      [1.5, 1.6, -750, 1245],
    ] as const;
    for (const [fromBar, toBar, slope, intercept] of segments) {
      for (const part of [0, 0.25, 0.5, 0.75, 1]) {
        const po2 = fromBar + part * (toBar - fromBar);
        expect(limitMin(po2, 'single')).toBeCloseTo(slope * po2 + intercept, 9);
      }
    }
  });

  it('hold the 0.6 row down to 0.5, count nothing at 0.5, and end at 1.6', () => {
    for (const clock of ['single', 'daily'] satisfies OxygenClock[]) {
      expect(limitMin(0.5, clock)).toBe(Infinity);
      expect(limitMin(0.5001, clock)).toBe(720);
      expect(limitMin(0.55, clock)).toBe(720);
      expect(limitMin(1.6, clock)).toBe(clock === 'single' ? 45 : 150);
      expect(limitMin(1.6001, clock)).toBeNull();
    }
  });
});

// UPTD/OTU a minute: ((PO2 - 0.5) / 0.5)^(5/6), Clark and Lambertsen 1971; NEDU Report 2-72.
describe('OTU a minute', () => {
  const rows = publishedRows('otu-per-minute.csv', ['po2Atm', 'otuPerMin'], 11);
  /** Half the last printed digit. */
  const PRINTED = 0.00005;

  it('agrees with the table in every row', () => {
    for (const row of rows) {
      expect(Math.abs(otu(level(row.po2Atm, 1), 1) - row.otuPerMin), `${row.po2Atm}`).toBeLessThanOrEqual(
        PRINTED,
      );
    }
  });
});

// Hamilton, Kenyon, Peterson, NOAA Technical Report 88-1B, 1988.
describe('REPEX', () => {
  const rows = publishedRows('repex.csv', ['day', 'averageOtu', 'totalOtu'], 30);

  it('gives the printed total of every day, and 300 a day where it prints no total', () => {
    const printed = rows.filter((row) => !Number.isNaN(row.totalOtu));
    expect(printed).toHaveLength(14);
    for (const row of printed) {
      expect(otuTotalAllowed(row.day)).toBe(row.totalOtu);
    }
    for (const row of rows.slice(14)) expect(otuTotalAllowed(row.day)).toBe(300 * row.day);
  });

  it('its printed averages times the days are its totals', () => {
    for (const row of rows) expect(row.averageOtu * row.day).toBe(otuTotalAllowed(row.day));
  });

  it('lets a diver take each day exactly what keeps the running total on its row', () => {
    let total = 0;
    for (const row of rows) {
      total += otuAllowedToday(row.day, total);
      expect(total).toBe(otuTotalAllowed(row.day));
    }
  });
});

// Risberg and van Ooij, Undersea Hyperb Med 2022;49(4), abstract: K 120 for at most two days, 70 for five,
// 40 to 50 without days of recovery.
describe('advised K-index', () => {
  it('is the printed K for the number of diving days', () => {
    const printed = [
      [1, 120],
      [2, 120],
      [3, 70],
      [5, 70],
      [6, 40],
      [14, 40],
    ] as const;
    for (const [days, k] of printed) expect(kIndex(esotAdvised(days))).toBeCloseTo(k, 10);
  });

  // The same limits as minutes, derived: 60 sqrt(K), printed with one decimal.
  it('is 657.3, 502.0 and 379.5 minutes', () => {
    expect(esotAdvised(2)).toBeCloseTo(657.3, 1);
    expect(esotAdvised(5)).toBeCloseTo(502.0, 1);
    expect(esotAdvised(6)).toBeCloseTo(379.5, 1);
  });

  it('K is t^2 PO2^4.57 for any constant pressure above 0.5', () => {
    for (const [hours, po2] of [
      [1, 1.4],
      [3, 1.3],
      [0.5, 1.6],
      [6, 0.6],
    ] as const) {
      expect(kIndex(esot(level(po2, 60 * hours), 1))).toBeCloseTo(hours ** 2 * po2 ** 4.57, 10);
    }
  });
});
