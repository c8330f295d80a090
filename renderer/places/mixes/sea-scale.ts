/** The chart of the sites in its own pixels: minutes across by their logarithm, depth down. */

export interface SeaScale {
  readonly left: number;
  /** Where the scale of minutes ends; what is longer stands beyond it. */
  readonly right: number;
  readonly beyond: number;
  readonly top: number;
  readonly bottom: number;
  readonly fromM: number;
  readonly toM: number;
  readonly xPx: (min: number | null) => number;
  readonly yPx: (depthM: number) => number;
}

/** The shortest and the longest time with a place on the scale, minutes. */
export const SHORTEST_MIN = 5;
export const LONGEST_MIN = 240;

/** Minutes that have a line. */
export const MINUTE_TICKS = [5, 7, 10, 15, 20, 30, 45, 60, 90, 120, 180, 240] as const;

/** Minutes at the end of the axis that stands for all that is longer, so that it has a place of its own. */
export const BEYOND_MIN = 330;

/**
 * @param frame in pixels, what is beyond the scale left in
 * @returns places; a time that is shorter than the scale lies at its beginning, one that is longer in the place beyond
 */
export function seaScale(
  frame: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number },
  fromM: number,
  toM: number,
): SeaScale {
  const { left, top, bottom } = frame;
  const at = (min: number): number =>
    left + ((frame.right - left) * Math.log(min / SHORTEST_MIN)) / Math.log(BEYOND_MIN / SHORTEST_MIN);
  const right = at(LONGEST_MIN);
  return {
    left,
    right,
    beyond: frame.right,
    top,
    bottom,
    fromM,
    toM,
    xPx: (min) =>
      min === null || min > LONGEST_MIN ? (right + frame.right) / 2 : at(Math.max(SHORTEST_MIN, min)),
    yPx: (depthM) => top + ((bottom - top) * (depthM - fromM)) / (toM - fromM),
  };
}

/** Of the width, for the names of sites at the most. */
const NAMES_SHARE = 0.28;
/** A letter of a site's name is so wide, in sizes of the window's text, and the elbow before it so long. */
const LETTER_REM = 0.54;
const ELBOW_PX = 30;

/** Room at the right of the chart for the longest name of a site with its depth. */
export function namesPx(names: readonly string[], widthPx: number): number {
  const remPx = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
  const letters = Math.max(...names.map(({ length }) => length), 0) + ' 100 m'.length;
  return Math.min(widthPx * NAMES_SHARE, ELBOW_PX + letters * LETTER_REM * remPx);
}
