/** The arithmetic of taking hold of a dive: from a place on the page to a figure of the plan, snapped. */
import { M_PER_FOOT } from '../../../../core/units';
import { rounded } from '../../../../core/words/quantity';

/** What was taken hold of: the weight, the end of the bar, the line. */
export type Grip = 'depth' | 'time' | 'start';

/** Coarse steps by hand and by arrow key; fine ones with the modifier. Feet for who thinks in feet. */
export function depthStepM(units: 'metric' | 'imperial', fine: boolean): number {
  if (units === 'imperial') return (fine ? 1 : 5) * M_PER_FOOT;
  return fine ? 0.5 : 1;
}

export function startStepMin(fine: boolean): number {
  return fine ? 1 : 5;
}

export const BOTTOM_STEP_MIN = 1;

/** To the nearest step, halves away from zero, without the dust of binary fractions. */
export function snapped(value: number, step: number): number {
  return rounded(Math.round(value / step) * step, 6, 'near');
}

/** The next whole step up or down: an uneven figure moves to the grid first. */
export function stepped(value: number, step: number, direction: 1 | -1): number {
  const steps = value / step;
  const next = direction === 1 ? Math.floor(steps + 1e-6) + 1 : Math.ceil(steps - 1e-6) - 1;
  return rounded(next * step, 6, 'near');
}

/** Depth under the pointer. The weight keeps the distance to the pointer it was taken hold of at. */
export function draggedDepthM(
  originM: number,
  movedPx: number,
  pxPerM: number,
  units: 'metric' | 'imperial',
  fine: boolean,
): number {
  return snapped(originM + movedPx / pxPerM, depthStepM(units, fine));
}

/**
 * The step whose place lies nearest a target, where places rise with the figure. The page's time stretches
 * around a dive, so the place of its own line or bar end depends on the figure sought: each candidate is asked.
 * @param from lowest figure @param until highest figure @param step between candidates, aligned to 0
 * @param place where the line or the end of the bar would stand with this figure
 */
export function figureAt(
  targetPx: number,
  from: number,
  until: number,
  step: number,
  place: (figure: number) => number,
): number {
  let low = Math.ceil(from / step);
  let high = Math.floor(until / step);
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (place(middle * step) <= targetPx) low = middle;
    else high = middle;
  }
  const isLowNearer = Math.abs(place(low * step) - targetPx) <= Math.abs(place(high * step) - targetPx);
  return (isLowNearer ? low : high) * step;
}
