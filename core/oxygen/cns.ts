import { clockShare, type OxygenLeg } from './clock-pieces';
import { limitMin, type OxygenClock } from './limits';

/**
 * Half-time of the single-exposure clock at the surface, minutes. A convention of the trade: it has been
 * published only as an assumption that no experiment supports, and is no part of the NOAA table.
 * Source: common practice.
 */
export const CNS_HALF_TIME_MIN = 90;

/**
 * Share of an oxygen limit that a dive takes, exact on level and sloping legs.
 * @param legs in order, pressures in bar @param o2 oxygen fraction, 0 to 1
 * @param clock the limit in one exposure, or in any 24 hours
 * @returns fraction (1 is the whole limit): the integral of dt / limit(PO2(t)); null where PO2 passes 1.6 bar
 * Source: NOAA Diving Manual limits; closed form by E. C. Baker, "Oxygen toxicity calculations".
 */
export function cnsFraction(legs: readonly OxygenLeg[], o2: number, clock: OxygenClock): number | null {
  return clockShare(legs, o2, clock);
}

/**
 * The single-exposure clock after a time at the surface.
 * @param cns fraction @param min minutes at the surface, 0 or more
 * @returns fraction: cns * 2^(-min / 90)
 * Source: common practice (see `CNS_HALF_TIME_MIN`).
 */
export function cnsAfterInterval(cns: number, min: number): number {
  return cns * 2 ** (-min / CNS_HALF_TIME_MIN);
}

/**
 * Minutes more at one oxygen pressure until a clock reads its whole limit. Exact for lengthening a level, as
 * the ascent after it takes the same share whenever it is made.
 * @param cns fraction that the clock reads at the end of the dive as it stands @param po2 bar at the level
 * @returns minutes: (1 - cns) * limit; negative where the limit is passed already, Infinity where nothing
 *   counts and the limit is not passed; null above 1.6 bar
 * Source: the definition of the clock.
 */
export function cnsMinutesLeft(cns: number, po2: number, clock: OxygenClock): number | null {
  const limit = limitMin(po2, clock);
  if (limit === null) return null;
  // At a pressure that does not count, no stay shorter or longer changes the clock.
  if (limit === Infinity) return cns > 1 ? -Infinity : Infinity;
  return (1 - cns) * limit;
}
