import type { Dive } from '../document/types';
import { SAFETY_STOP_BEYOND_M, safetyStopOf, USUAL_SAFETY_STOP, type ProfileShape } from '../profile';
import { M_PER_FOOT } from '../units';

/** The depths a first plan is made of: whole metres, or whole feet, as the party counts. */
export interface DepthSteps {
  /** Each dive of a day goes this much less deep than the one before, down to `endsM`. */
  readonly lessM: number;
  readonly endsM: number;
  /** No dive is sought shallower than this. */
  readonly shallowestM: number;
  /** No night dive goes deeper than this. */
  readonly nightM: number;
  /** Where a dive rises from its depth, its last level lies no shallower than this. */
  readonly risesToM: number;
  /** A dive no deeper than this stays at its depth. */
  readonly flatToM: number;
  /** The next whole depth above one, to be tried after it. */
  readonly shallower: (depthM: number) => number;
  /** The deepest whole depth no deeper than one. */
  readonly whole: (depthM: number) => number;
}

/** Whole numbers of metres or feet are found again through this much rounding. */
const DUST = 1e-6;

type Step = 'less' | 'ends' | 'shallowest' | 'by' | 'night' | 'risesTo' | 'flatTo';

function stepsIn(
  unitM: number,
  { less, ends, shallowest, by, night, risesTo, flatTo }: Readonly<Record<Step, number>>,
): DepthSteps {
  const below = (depthM: number): number => Math.ceil(depthM / unitM - DUST) - 1;
  return {
    lessM: less * unitM,
    endsM: ends * unitM,
    shallowestM: shallowest * unitM,
    nightM: night * unitM,
    risesToM: risesTo * unitM,
    flatToM: flatTo * unitM,
    shallower: (depthM) => (below(depthM) - (by - 1)) * unitM,
    whole: (depthM) => Math.floor(depthM / unitM + DUST) * unitM,
  };
}

/**
 * Steps of depth by the unit that depths are counted in: 3 m or 10 ft less each time, to 12 m or 40 ft; none
 * sought above 8 m or 25 ft; at night to 18 m or 60 ft; rising dives end at 6 m or 20 ft.
 * Source: common practice.
 */
export const DEPTH_STEPS: Readonly<Record<'m' | 'ft', DepthSteps>> = {
  m: stepsIn(1, { less: 3, ends: 12, shallowest: 8, by: 1, night: 18, risesTo: 6, flatTo: 15 }),
  ft: stepsIn(M_PER_FOOT, { less: 10, ends: 40, shallowest: 25, by: 3, night: 60, risesTo: 20, flatTo: 50 }),
};

/** Safety stop where feet are counted: 15 ft, which is shallower than the 5 m of a dive that says nothing. Source: common practice. */
const STOP_IN_FEET = { depthM: 15 * M_PER_FOOT, min: USUAL_SAFETY_STOP.min };

/**
 * What a dive says of its safety stop: nothing in metres, where the usual one holds; else the usual one in feet, where
 * the dive ends below it.
 * @param unit in which depths are whole
 * Source: common practice, as in core/profile.
 */
export function stopIn(unit: 'm' | 'ft', shape: ProfileShape): Pick<Dive, 'safetyStop'> {
  const stop = { safetyStop: STOP_IN_FEET };
  const isMade = shape.depthM > SAFETY_STOP_BEYOND_M && safetyStopOf({ ...shape, ...stop }) !== null;
  return unit === 'ft' && isMade ? stop : {};
}
