import { M_PER_FOOT } from '../units';

/** The depths a first plan is made of: whole metres, or whole feet, as the party counts. */
export interface DepthSteps {
  /** Each dive of a day goes this much less deep than the one before, down to `endsM`. */
  readonly lessM: number;
  readonly endsM: number;
  /** No dive is sought shallower than this. */
  readonly shallowestM: number;
  /** The next whole depth above one, to be tried after it. */
  readonly shallower: (depthM: number) => number;
  /** The deepest whole depth no deeper than one. */
  readonly whole: (depthM: number) => number;
}

/** Whole numbers of metres or feet are found again through this much rounding. */
const DUST = 1e-6;

function stepsIn(
  unitM: number,
  [less, ends, shallowest, by]: readonly [number, number, number, number],
): DepthSteps {
  const below = (depthM: number): number => Math.ceil(depthM / unitM - DUST) - 1;
  return {
    lessM: less * unitM,
    endsM: ends * unitM,
    shallowestM: shallowest * unitM,
    shallower: (depthM) => (below(depthM) - (by - 1)) * unitM,
    whole: (depthM) => Math.floor(depthM / unitM + DUST) * unitM,
  };
}

/**
 * Steps of depth by the unit that depths are counted in: 3 m or 10 ft less each time, to 12 m or 40 ft; none
 * sought above 8 m or 25 ft.
 * Source: common practice.
 */
export const DEPTH_STEPS: Readonly<Record<'m' | 'ft', DepthSteps>> = {
  m: stepsIn(1, [3, 12, 8, 1]),
  ft: stepsIn(M_PER_FOOT, [10, 40, 25, 3]),
};
