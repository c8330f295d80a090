import { wallDate, type WallMin } from '../words/calendar';
import type { DayDate, Diver } from './types';

/**
 * The gas rate that is planned with for a diver on a day.
 * @param date "2027-03-06"
 * @returns litres a minute at 1 bar: the last rate that holds from that day or before, else the diver's first
 * Source: CONVENTIONS, "Gas".
 */
export function rateOn(
  { rates = [], surfaceRateLpm }: Pick<Diver, 'rates' | 'surfaceRateLpm'>,
  date: DayDate,
): number {
  return rates.findLast(({ from }) => from <= date)?.surfaceRateLpm ?? surfaceRateLpm;
}

const known = new WeakMap<Diver, Map<number, Diver>>();

/**
 * A diver as they are on the day of a dive: with the gas rate that holds then.
 * @param startMin of the dive
 * @returns the diver; the same object for the same rate, and the very diver where it is the first
 * Source: as `rateOn`.
 */
export function diverOn(diver: Diver, startMin: WallMin): Diver {
  if (diver.rates === undefined) return diver;
  const surfaceRateLpm = rateOn(diver, wallDate(startMin));
  if (surfaceRateLpm === diver.surfaceRateLpm) return diver;
  let byRate = known.get(diver);
  if (!byRate) known.set(diver, (byRate = new Map()));
  let dated = byRate.get(surfaceRateLpm);
  if (!dated) byRate.set(surfaceRateLpm, (dated = { ...diver, surfaceRateLpm }));
  return dated;
}
