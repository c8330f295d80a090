/** Standard gravity, m/s2. Source: 3rd CGPM (1901), declaration; as used by ISO 2533:1975. */
export const GRAVITY_M_PER_S2 = 9.80665;

/** Standard atmosphere at sea level, bar. Source: ISO 2533:1975. */
export const SEA_LEVEL_BAR = 1.01325;

/**
 * Water densities, kg/m3.
 * Source: "gauge" EN 13319:2000 (1 bar to 10 m indicated); "salt" and "fresh" common practice.
 */
export const DENSITIES_KG_M3 = { gauge: 1019.7, salt: 1025, fresh: 1000 } as const;

/** What water it is, and how high it lies. */
export interface Water {
  /** "gauge" 1019.7 kg/m3 (EN 13319), "salt" 1025, "fresh" 1000, or a density in kg/m3. */
  readonly density: keyof typeof DENSITIES_KG_M3 | number;
  /** Altitude of the water's surface above sea level. */
  readonly altitudeM: number;
}

/** A water and the air above it: all that turns depth into pressure. */
export interface WaterColumn {
  /** Ambient pressure at the surface, bar absolute. */
  readonly surfaceBar: number;
  readonly barPerM: number;
}

/**
 * Air pressure at an altitude in the standard atmosphere.
 * @param altitudeM metres above sea level, 0 to 11 000 (the schema holds trips to 0 to 4 500)
 * @returns bar absolute: 1.01325 (1 - 0.0065 h / 288.15)^5.25588
 * Source: ISO 2533:1975, Standard Atmosphere.
 */
export function altitudeBar(altitudeM: number): number {
  return SEA_LEVEL_BAR * (1 - (0.0065 * altitudeM) / 288.15) ** 5.25588;
}

/**
 * The column of a water.
 * @param water density as one of the three names or in kg/m3; altitude in metres
 * @returns surface pressure (bar) and pressure per metre: density * 9.80665 / 100 000
 * Source: hydrostatics; densities and atmosphere as above.
 */
export function waterColumn(water: Water): WaterColumn {
  const densityKgM3 = typeof water.density === 'number' ? water.density : DENSITIES_KG_M3[water.density];
  return {
    surfaceBar: altitudeBar(water.altitudeM),
    barPerM: (densityKgM3 * GRAVITY_M_PER_S2) / 100_000,
  };
}

/**
 * Ambient pressure at a depth.
 * @param depthM metres below the surface, 0 or more
 * @returns bar absolute: P0 + barPerM * depth
 * Source: hydrostatics.
 */
export function ambientBar(depthM: number, column: WaterColumn): number {
  return column.surfaceBar + column.barPerM * depthM;
}

/**
 * Depth at an ambient pressure; negative above the surface.
 * @param bar absolute
 * @returns metres, the inverse of `ambientBar`
 * Source: hydrostatics.
 */
export function depthAtM(bar: number, column: WaterColumn): number {
  return (bar - column.surfaceBar) / column.barPerM;
}
