import type { OxygenLeg } from './clock-pieces';
import { EXPOSURE_FROM_BAR } from './limits';
import { meanPower } from './mean-power';

/** Half the exponent 4.57 of the K-index, as the time scale takes its square root. */
const ESOT_POWER = 4.57 / 2;

/**
 * Equivalent surface oxygen time of a dive: minutes of oxygen at 1 bar with the same K-index.
 * @param legs pressures in bar @param o2 oxygen fraction, 0 to 1
 * @returns minutes: the integral of PO2^2.285 dt, counted above 0.5 bar; K = (minutes / 60)^2
 * Source: J. Risberg, P.-J. van Ooij, "Hyperoxic exposure monitoring in diving: a farewell to the UPTD",
 * Undersea Hyperb Med 2022;49(4) (K = t^2 PO2^4.57, hours and bar), after R. Arieli et al., J Appl Physiol
 * 2002;92:248-256. The threshold of 0.5 bar is taken from the older measure, not from the paper.
 */
export function esot(legs: readonly OxygenLeg[], o2: number): number {
  let minutes = 0;
  for (const leg of legs) {
    const from = o2 * leg.fromBar;
    const to = o2 * leg.toBar;
    const high = Math.max(from, to);
    if (high <= EXPOSURE_FROM_BAR) continue;
    const low = Math.min(from, to);
    const countedMin =
      low < EXPOSURE_FROM_BAR ? (leg.min * (high - EXPOSURE_FROM_BAR)) / (high - low) : leg.min;
    minutes += countedMin * meanPower(Math.max(low, EXPOSURE_FROM_BAR), high, ESOT_POWER);
  }
  return minutes;
}

/**
 * The K-index of an equivalent surface oxygen time.
 * @param esotMin minutes, 0 or more
 * @returns K in hours squared: (minutes / 60)^2
 * Source: as `esot`.
 */
export function kIndex(esotMin: number): number {
  return (esotMin / 60) ** 2;
}
