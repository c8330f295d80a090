import type { Surroundings } from '../profile';
import { AIR_N2, WATER_VAPOUR_BAR } from '../tissues/compartments';
import { ambientBar } from '../water';

/** One foot of sea water, bar. Source: U.S. Navy Diving Manual: 1 fsw = 0.30643 msw (sea water of 64 lb/ft3). */
export const BAR_PER_FSW = 0.030643;

/** Water that the table counts above the diver at the surface. Source: as above, ch. 10, "+ 33". */
const SURFACE_FSW = 33;

/**
 * Depth the table is entered with.
 * @param depthM metres @param o2 oxygen fraction, 0 to 1
 * @returns feet of sea water, 0 or more: (1 - o2)(fsw + 33)/0.79 - 33 with fsw = (P - P0)/0.030643
 * Source: U.S. Navy Diving Manual Revision 7 (2016), ch. 10, equivalent air depth.
 */
export function tableDepthFsw(depthM: number, o2: number, around: Surroundings): number {
  const { column } = around;
  const fsw = (ambientBar(depthM, column) - column.surfaceBar) / BAR_PER_FSW;
  return Math.max(0, ((1 - o2) * (fsw + SURFACE_FSW)) / 0.79 - SURFACE_FSW);
}

/**
 * Depth the table is entered with where what is breathed is not one mix: that at which air has so much nitrogen.
 * @param n2Bar the most nitrogen inspired on the dive, bar
 * @returns feet of sea water, 0 or more
 * Source: CONVENTIONS, "On a loop"; the table itself speaks of air and of mixes.
 */
export function fswOfNitrogen(n2Bar: number, { column }: Surroundings): number {
  const ambient = n2Bar / AIR_N2 + WATER_VAPOUR_BAR;
  return Math.max(0, (ambient - column.surfaceBar) / BAR_PER_FSW);
}
