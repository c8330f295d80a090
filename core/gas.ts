import { ambientBar, depthAtM, type WaterColumn } from './water';

/** Oxygen fraction of dry air, the rest counted as nitrogen. Source: common practice of the trade. */
export const AIR_O2 = 0.21;

/**
 * Breathing-gas densities, g/L: below the first is advised, above the second is not.
 * Source: G. Anthony, S. J. Mitchell, "Respiratory physiology of rebreather diving", in: Rebreathers and
 * Scientific Diving, workshop proceedings (2015), Durham NC 2016, pp. 66-79.
 */
export const DENSITY_ADVISED_GL = 5.2;
export const DENSITY_LIMIT_GL = 6.2;

/** Molar masses, g/mol. Source: IUPAC standard atomic weights, O 15.9994 and N 14.0067. */
const O2_G_PER_MOL = 31.9988;
const N2_G_PER_MOL = 28.0134;

/** J/(mol K). Source: SI (2019), exact value cut to ten digits. */
const GAS_CONSTANT = 8.314462618;

/**
 * Temperature of the density figures. The limits of 5.2 and 6.2 g/L were published beside air at 31 m and
 * 39 m; that holds for gas at 0 degrees Celsius (5.23 and 6.25 g/L), not at 20, so 0 is the convention meant.
 */
const DENSITY_KELVIN = 273.15;

/**
 * What rounding alone can add to a product of a fraction and a pressure. A figure this close to a whole
 * number or to a limit is on it.
 */
const FLOAT_DUST = 1e-9;

/**
 * Nitrogen fraction of a mix of oxygen and nitrogen.
 * @param o2 oxygen fraction, 0 to 1
 * @returns fraction: 1 - o2
 * Source: definition; argon counts as nitrogen (common practice).
 */
export function n2Fraction(o2: number): number {
  return 1 - o2;
}

/**
 * Oxygen partial pressure of a mix.
 * @param o2 oxygen fraction, 0 to 1 @param pressureBar bar absolute
 * @returns bar: o2 * P
 * Source: Dalton's law.
 */
export function po2Bar(o2: number, pressureBar: number): number {
  return o2 * pressureBar;
}

/**
 * Maximum operating depth: where the oxygen of a mix reaches a limit. Exact, not rounded.
 * @param o2 oxygen fraction, above 0 @param po2LimitBar bar
 * @returns metres: depth at P = limit / o2; negative where the mix passes the limit at the surface already
 * Source: NOAA Diving Manual, 4th ed. (2001), ch. 15; Dalton's law.
 */
export function modM(o2: number, po2LimitBar: number, column: WaterColumn): number {
  return depthAtM(po2LimitBar / o2, column);
}

/**
 * Equivalent air depth: where air has the nitrogen pressure that the mix has here. Exact, not rounded.
 * @param o2 oxygen fraction, 0 to 1 @param depthM metres, 0 or more
 * @returns metres: depth at P(d) (1 - o2) / 0.79; with 10 m to the bar and 1 bar at the surface this is
 *   the trade's (d + 10) (1 - o2) / 0.79 - 10. Negative where the mix at the surface holds less nitrogen than air.
 * Source: U.S. Navy Diving Manual Revision 7 (2016), ch. 10; NOAA Diving Manual, 4th ed. (2001), ch. 15.
 */
export function eadM(o2: number, depthM: number, column: WaterColumn): number {
  return depthAtM((n2Fraction(o2) * ambientBar(depthM, column)) / n2Fraction(AIR_O2), column);
}

/**
 * Richest mix for a depth. Exact: above 1 in the shallows, and not held to any diver's ceiling.
 * @param po2LimitBar bar @param depthM metres, 0 or more
 * @returns oxygen fraction: limit / P
 * Source: Dalton's law, the inverse of `modM`.
 */
export function richestO2(po2LimitBar: number, depthM: number, column: WaterColumn): number {
  return po2LimitBar / ambientBar(depthM, column);
}

/**
 * A figure rounded down to a whole number, where one that misses the whole by rounding alone is whole.
 * For limits that are shown: a maximum depth, a no-stop time.
 * @param value any finite number
 * @returns whole number, at most 1e-9 above `value`
 * Source: common practice: limits round down.
 */
export function wholeDown(value: number): number {
  return Math.floor(value + FLOAT_DUST);
}

/**
 * An oxygen fraction rounded down to the whole percent (0.3472 to 0.34), still as a fraction.
 * @param o2 oxygen fraction, 0 or more
 * @returns fraction, a whole number of hundredths
 * Source: common practice: mixes are ordered in whole percent, and limits round down.
 */
export function wholePercentDown(o2: number): number {
  return wholeDown(o2 * 100) / 100;
}

/**
 * Whether an oxygen pressure is above a limit by more than rounding alone can make it.
 * @param po2 bar @param limitBar bar
 * @returns false at the limit itself and within 1e-9 bar above it
 * Source: arithmetic: 0.32 * 5 is 1.6, and 0.4 * 4.000000000000001 is too.
 */
export function isAbovePo2(po2: number, limitBar: number): boolean {
  return po2 > limitBar + FLOAT_DUST;
}

/**
 * Density of the breathed gas at 0 degrees Celsius.
 * @param o2 oxygen fraction, 0 to 1 @param pressureBar bar absolute
 * @returns g/L: P (o2 31.9988 + n2 28.0134) / (R 273.15 K), ideal (real air is 0.1 % denser at 1 bar)
 * Source: ideal gas law; the temperature is the one that the limits imply (see `DENSITY_KELVIN`).
 */
export function gasDensityGL(o2: number, pressureBar: number): number {
  const gPerMol = o2 * O2_G_PER_MOL + n2Fraction(o2) * N2_G_PER_MOL;
  // 1 bar litre is 100 J.
  return (pressureBar * 100 * gPerMol) / (GAS_CONSTANT * DENSITY_KELVIN);
}
