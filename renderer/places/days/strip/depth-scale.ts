/** Depth down the page: even, from the waterline to a round figure below the deepest dive. */
import { M_PER_FOOT } from '../../../../core/units';

export interface DepthScale {
  readonly bottomM: number;
  readonly pxPerM: number;
  /** Lines across the water, the waterline left out. */
  readonly marks: readonly { readonly depthM: number; readonly label: string }[];
}

/** Even a shallow trip keeps this much water, so that a line can be drawn deeper. */
const LEAST_BOTTOM_M = 20;
/** Room under the deepest weight for its figures, where nothing else is said. */
const LABEL_PX = 36;

/**
 * @param deepestM the deepest dive shown, metres
 * @param heightPx height of the water on the page @param labelPx room under the deepest weight
 */
export function depthScale(
  deepestM: number,
  heightPx: number,
  units: 'metric' | 'imperial',
  labelPx = LABEL_PX,
): DepthScale {
  const stepM = units === 'metric' ? 10 : 30 * M_PER_FOOT;
  const neededM = deepestM / Math.max(0.5, 1 - labelPx / heightPx);
  const bottomM = Math.max(LEAST_BOTTOM_M, Math.ceil(neededM / 2) * 2);
  const marks = [];
  for (let i = 1; i * stepM < bottomM - 0.5; i += 1) {
    marks.push({ depthM: i * stepM, label: String(units === 'metric' ? i * 10 : i * 30) });
  }
  return { bottomM, pxPerM: heightPx / bottomM, marks };
}
