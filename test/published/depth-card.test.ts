import { describe, expect, it } from 'vitest';
import { AIR_O2 } from '../../core/gas';
import { depthCard } from '../../core/mixes/depth-card';
import { LIMIT_SPANS } from '../../core/oxygen/limits';
import { aDiver, aTrip } from '../builders/trip';

const party = [aDiver()];
const mix = (o2: number) => ({ id: 'm', o2, costPerFill: 0 });
const cardOf = (o2: number, system: 'metric' | 'imperial' = 'metric') =>
  depthCard({ ...aTrip([]), party }, mix(o2), party, system);
const rowOf = (o2: number, depthM: number) => cardOf(o2).rows.find((row) => row.depthM === depthM)!;

/** The trade counts 1 bar at the surface, gauge water 1.01325: so much of a bar, times the share. */
const SURFACE_BAR = 0.01325;

// Source: encyclopaedia article "Equivalent air depth": 36 % at 27 m is 20 m (19.9747). U.S. Navy Diving Manual
// Revision 7 (2016), ch. 10, forms it alike in feet. The depth that differs is the surface, 1.01325 bar for 1.
it('has the equivalent air depth of the worked example', () => {
  const offM = Math.abs(rowOf(0.36, 27).eadM - 19.9747);
  expect(offM).toBeLessThanOrEqual((10 * SURFACE_BAR * Math.abs(0.64 - 0.79)) / 0.79 + 0.00005);
});

// Source: NOAA Diving Manual limits, single exposure: the rows of 0.8 to 1.4 bar.
it('takes the whole CNS clock in the minutes of the table, on the straight line between its rows', () => {
  const rows = [
    [0.8, 450],
    [0.9, 360],
    [1.0, 300],
    [1.1, 240],
    [1.2, 210],
    [1.3, 180],
    [1.4, 150],
  ] as const;
  const told = cardOf(0.36).rows.filter((row) => !row.isPastMod && row.po2Bar >= 0.8);
  expect(told.length).toBeGreaterThan(3);
  for (const { po2Bar, cnsMin } of told) {
    const at = rows.findIndex(([bar]) => bar >= po2Bar);
    const [low, high] = [rows[at - 1]!, rows[at]!];
    const share = (po2Bar - low[0]) / (high[0] - low[0]);
    expect(cnsMin).toBeCloseTo(low[1] + share * (high[1] - low[1]), 9);
  }
  expect(LIMIT_SPANS.single.at(-1)!.toBar).toBe(1.6);
});

// Source: G. Anthony, S. J. Mitchell (2016): air meets 5.2 g/L at 31 m and 6.2 g/L at 39 m.
it('meets the advised and the highest density on air where they are published', () => {
  const { rows } = depthCard(
    { ...aTrip([]), party: [aDiver({ maxDepthM: 60 })] },
    mix(AIR_O2),
    [aDiver({ maxDepthM: 60 })],
    'metric',
  );
  const at = (depthM: number) => {
    const i = rows.findIndex((row) => row.depthM > depthM);
    const [above, below] = [rows[i - 1]!, rows[i]!];
    const share = (depthM - above.depthM) / (below.depthM - above.depthM);
    return above.densityGL + share * (below.densityGL - above.densityGL);
  };
  /** Half of the last digit of the density, and of half a metre of it. */
  const HALF = 0.05 + 0.5 * 0.13;
  expect(Math.abs(at(31) - 5.2)).toBeLessThanOrEqual(HALF);
  expect(Math.abs(at(39) - 6.2)).toBeLessThanOrEqual(HALF);
});

// Source: a diving club's formula page: 111 fsw for 32 % at 1.4; encyclopaedia article "Maximum operating depth".
describe('ends its times at the MOD', () => {
  it('of 32 % between 110 and 120 ft, and tells no depth past 1.6 bar', () => {
    const { rows } = cardOf(0.32, 'imperial');
    const feet = rows.map(({ depthM, isPastMod }) => [Math.round(depthM / 0.3048), isPastMod] as const);
    expect(feet).toEqual([
      ...[40, 50, 60, 70, 80, 90, 100, 110].map((ft) => [ft, false]),
      [120, true],
      [130, true],
    ]);
  });
});
