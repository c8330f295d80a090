import type { OxygenLeg } from './clock-pieces';
import { EXPOSURE_FROM_BAR } from './limits';
import { meanPower } from './mean-power';

/** Exponent of the unit pulmonary toxic dose. Source: J. M. Clark, C. J. Lambertsen (1971); printed 0.83 or 5/6. */
const OTU_POWER = 5 / 6;

/**
 * Oxygen tolerance units (= unit pulmonary toxic dose) of a dive, closed form on level and sloping legs.
 * @param legs pressures in bar @param o2 oxygen fraction, 0 to 1
 * @returns units, 1 for a minute of oxygen at 1 bar: the integral of ((PO2 - 0.5) / 0.5)^(5/6) dt above 0.5 bar
 * Source: J. M. Clark, C. J. Lambertsen, "Pulmonary oxygen toxicity: a review", Pharmacol Rev 1971;23:37-133;
 * W. B. Wright, NEDU Report 2-72 (1972); sloping legs: E. C. Baker, "Oxygen toxicity calculations".
 */
export function otu(legs: readonly OxygenLeg[], o2: number): number {
  let units = 0;
  for (const leg of legs) {
    const from = o2 * leg.fromBar - EXPOSURE_FROM_BAR;
    const to = o2 * leg.toBar - EXPOSURE_FROM_BAR;
    if (Math.max(from, to) <= 0) continue;
    // Only the part of the leg above 0.5 bar counts, and a slope spends its minutes evenly.
    const countedMin =
      Math.min(from, to) < 0 ? (leg.min * Math.max(from, to)) / Math.abs(to - from) : leg.min;
    units +=
      countedMin *
      meanPower(Math.max(0, from) / EXPOSURE_FROM_BAR, Math.max(0, to) / EXPOSURE_FROM_BAR, OTU_POWER);
  }
  return units;
}
