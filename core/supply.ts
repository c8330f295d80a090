import { idealBar } from './compressibility';
import { increasingRoot } from './numeric';
import { ascentLegs, type Leg, type Surroundings, type Stop } from './profile';
import { ambientBar, SEA_LEVEL_BAR } from './water';

/**
 * How a pressure becomes an amount of gas: "ideal" volume times pressure, "real" with compressibility at
 * 20 degrees Celsius.
 */
export type GasLaw = 'ideal' | 'real';

/** What of a leg the gas supply asks: pressure runs linearly from one end to the other. */
export type SupplyLeg = Pick<Leg, 'fromBar' | 'toBar' | 'min'>;

/**
 * What legs take of a diver for each litre a minute at the surface.
 * @param legs pressures in bar absolute
 * @returns bar minutes: the sum of mean ambient pressure * minutes, exact on level and sloping legs
 * Source: U.S. Navy Diving Manual, Revision 4 Change A, par. 7-4.1 (consumption in proportion to pressure).
 */
export function barMinutes(legs: readonly SupplyLeg[]): number {
  let barMin = 0;
  for (const leg of legs) barMin += ((leg.fromBar + leg.toBar) / 2) * leg.min;
  return barMin;
}

/**
 * Gas breathed on a dive.
 * @param legs pressures in bar absolute @param surfaceRateLpm litres a minute at 1 bar
 * @returns litres at 1 bar: rate * `barMinutes`
 * Source: as `barMinutes`.
 */
export function gasUsedL(legs: readonly SupplyLeg[], surfaceRateLpm: number): number {
  return surfaceRateLpm * barMinutes(legs);
}

/**
 * Gas that a cylinder gives until its gauge reads 0.
 * @param waterL water volume, litres @param gaugeBar gauge pressure, 0 or more @param o2 oxygen fraction
 * @returns litres at 1 bar. Ideal: volume * pressure. Real: volume * (Q(gauge + 1.01325) - Q(1.01325)) * Z(1 bar)
 *   with Q = p / Z(p); error 0.2 % up to 300 bar (core/compressibility.ts). Temperature is held at 20 degrees:
 *   a cylinder 10 degrees warmer shows about 4 % more pressure for the same gas.
 * Source: ideal gas law; compressibility as in core/compressibility.ts.
 */
export function contentL(waterL: number, gaugeBar: number, o2: number, law: GasLaw): number {
  if (law === 'ideal') return waterL * gaugeBar;
  const amountBar = idealBar(o2, gaugeBar + SEA_LEVEL_BAR) - idealBar(o2, SEA_LEVEL_BAR);
  // Litres are measured at 1 bar, where the gas is as real as in the cylinder.
  return (waterL * amountBar) / idealBar(o2, 1);
}

/** The inverse of the real content is found to this, bar; a gauge is read to 1 at best. */
const PRESSURE_TOLERANCE_BAR = 1e-7;

/**
 * Gauge pressure at which a cylinder holds so much gas, the inverse of `contentL`.
 * @param waterL water volume, litres @param litres at 1 bar @param o2 oxygen fraction
 * @returns bar, gauge; null where litres is negative, as no pressure stands for gas that is not there.
 *   Ideal: litres / volume. Real: root of `contentL`, at most 1e-7 bar below it
 * Source: as `contentL`.
 */
export function pressureBar(waterL: number, litres: number, o2: number, law: GasLaw): number | null {
  if (litres < 0) return null;
  if (law === 'ideal') return litres / waterL;
  const excessL = (gaugeBar: number) => contentL(waterL, gaugeBar, o2, 'real') - litres;
  let upperBar = Math.max(1, litres / waterL);
  while (excessL(upperBar) < 0) upperBar *= 2;
  return increasingRoot(excessL, 0, upperBar, PRESSURE_TOLERANCE_BAR);
}

/** A cylinder, what is in it and what has to be left. */
export interface Supply {
  readonly waterL: number;
  readonly reserveBar: number;
  readonly o2: number;
  readonly law: GasLaw;
}

/**
 * Emergency at the deepest point: two divers on one cylinder, each at twice the diver's rate, a minute to
 * sort things out before the ascent. Source: common practice; no published standard was found.
 */
const SHARING_DIVERS = 2;
const STRESS_FACTOR = 2;
const PROBLEM_MIN = 1;

/** Gas that an emergency at the deepest point takes. */
export interface EmergencyGas {
  /** Litres at 1 bar. */
  readonly litres: number;
  /** The stops it rests on, deepest first. */
  readonly stops: readonly Stop[];
}

/** Gas that must be left when the ascent begins. */
export interface MinimumGas extends EmergencyGas {
  /** Gauge pressure that holds it, and never less than the reserve. */
  readonly bar: number;
}

/** The way up of an emergency, whoever is on it. */
export interface EmergencyWay {
  /** What it takes of one diver for each litre a minute at the surface, bar minutes. */
  readonly barMin: number;
  /** The stops it rests on, deepest first. */
  readonly stops: readonly Stop[];
}

/**
 * A way up from the deepest point, the minute to sort things out included.
 * @param deepestM metres @param stops deepest first, the safety stop being one; those no shallower than the deepest
 *   point are left out @param around water and ascent rate
 * Source: as `emergencyGas`.
 */
export function emergencyWay(deepestM: number, stops: readonly Stop[], around: Surroundings): EmergencyWay {
  const below = stops.filter(({ depthM }) => depthM < deepestM);
  const legs = ascentLegs(deepestM, below, around);
  return { barMin: PROBLEM_MIN * ambientBar(deepestM, around.column) + barMinutes(legs), stops: below };
}

/**
 * What brings two divers from the deepest point to the surface.
 * @param surfaceRateLpm the diver's, litres a minute at 1 bar @param ways that may have to be gone, one or more
 * @returns litres: 2 divers * 2 * rate * (P(deepest) * 1 min + ascent and stops), of the way that takes most
 * Source: common practice; the method (gas at depth, plus ascent at mean depth) is that of the emergency-gas example
 * of the U.S. Navy Diving Manual, Revision 4 Change A, pp. 8-2 and 8-3.
 */
export function emergencyGas(surfaceRateLpm: number, ways: readonly EmergencyWay[]): EmergencyGas {
  let most = ways[0]!;
  for (const way of ways) if (way.barMin > most.barMin) most = way;
  return { litres: SHARING_DIVERS * STRESS_FACTOR * surfaceRateLpm * most.barMin, stops: most.stops };
}

/**
 * Minimum gas: what the emergency takes, as a pressure in the diver's cylinder.
 * @returns bar by `pressureBar`, and never less than the reserve
 * Source: as `emergencyGas`.
 */
export function minimumGas(supply: Supply, emergency: EmergencyGas): MinimumGas {
  const bar = pressureBar(supply.waterL, emergency.litres, supply.o2, supply.law)!;
  return { litres: emergency.litres, stops: emergency.stops, bar: Math.max(bar, supply.reserveBar) };
}

/**
 * Turn pressure: where the party starts back.
 * @param fillBar gauge @param minimumBar gauge, of the minimum gas @param share of the gas above the minimum
 *   that goes into the way out, 0 to 1
 * @returns bar, gauge: fill - (fill - minimum) * share; null where the fill does not reach the minimum, as
 *   then no gas is there to plan with
 * Source: common practice.
 */
export function turnBar(fillBar: number, minimumBar: number, share: number): number | null {
  return fillBar < minimumBar ? null : fillBar - (fillBar - minimumBar) * share;
}

/**
 * How long an amount of gas lasts on a dive, exact on sloping legs.
 * @param legs in order, pressures in bar absolute @param surfaceRateLpm litres a minute at 1 bar
 * @param litres at 1 bar, 0 or more
 * @returns minutes from the start; null where it lasts the whole dive. On a sloping leg the root of
 *   rate (P t + slope t^2 / 2) = litres, in the form 2c / (b + sqrt(b^2 + 2ac)), which is good at any slope
 * Source: U.S. Navy Diving Manual, Revision 4 Change A, par. 7-4.1 (duration of a supply).
 */
export function lastsMin(legs: readonly SupplyLeg[], surfaceRateLpm: number, litres: number): number | null {
  let leftBarMin = litres / surfaceRateLpm;
  let elapsedMin = 0;
  for (const leg of legs) {
    const legBarMin = ((leg.fromBar + leg.toBar) / 2) * leg.min;
    if (legBarMin > leftBarMin) {
      const slope = (leg.toBar - leg.fromBar) / leg.min;
      const root = Math.sqrt(leg.fromBar ** 2 + 2 * slope * leftBarMin);
      return elapsedMin + (2 * leftBarMin) / (leg.fromBar + root);
    }
    leftBarMin -= legBarMin;
    elapsedMin += leg.min;
  }
  return null;
}
