import { travelMin, type ProfileShape, type Surroundings } from '../profile';
import type { Site } from '../document/types';
import type { DepthSteps } from './starting-steps';

/** A level of a dive that is yet to be timed: its depth, and its share of the time. */
export interface TimedLevel {
  readonly depthM: number;
  readonly share: number;
}

/** No level but the last is shorter: it would be no level but the way past it. Source: common practice. */
export const SHORTEST_LEVEL_MIN = 5;

/** A dive that rises spends a third of its time at each of three depths. Source: common practice. */
const THIRDS = [1, 2 / 3, 1 / 3] as const;

/** Levels with those of one depth that follow each other put together. */
function merged(levels: readonly TimedLevel[]): readonly TimedLevel[] {
  const kept: TimedLevel[] = [];
  for (const level of levels) {
    const last = kept[kept.length - 1];
    if (last?.depthM === level.depthM) kept[kept.length - 1] = { ...last, share: last.share + level.share };
    else kept.push(level);
  }
  return kept;
}

/**
 * The levels of a dive at a site that goes no deeper than asked: the site's own, those that lie deeper raised; else,
 * where sites rise, a third of the time each at the depth, two thirds and one third of it.
 * @param depthM no deeper than the site @param rising whether a site without levels is taken to rise
 * @returns one level or more in the order of the dive, shares adding up to 1
 * Source: the site's levels; thirds: common practice.
 */
export function levelsAt(
  site: Site,
  depthM: number,
  rising: boolean,
  steps: DepthSteps,
): readonly TimedLevel[] {
  const { levels } = site;
  if (levels !== undefined && levels.length > 0) {
    const wholeMin = levels.reduce((sum, { min }) => sum + min, 0);
    return merged(
      levels.map((level) => ({ depthM: Math.min(level.depthM, depthM), share: level.min / wholeMin })),
    );
  }
  if (!rising || depthM <= steps.flatToM) return [{ depthM, share: 1 }];
  return merged(
    THIRDS.map((part) => ({
      depthM: part === 1 ? depthM : Math.max(steps.risesToM, steps.whole(depthM * part)),
      share: 1 / THIRDS.length,
    })),
  );
}

/**
 * Gives levels their minutes: whole ones, of every level but the last no more than its cap; what is over goes to the
 * last.
 * @param capsMin most minutes of each level but the last
 * @returns null where a level would be too short to be one, or to be reached
 * Source: this project's own.
 */
export function timed(
  levels: readonly TimedLevel[],
  wholeMin: number,
  capsMin: readonly number[],
  around: Surroundings,
): ProfileShape | null {
  const earlier = levels
    .slice(0, -1)
    .map(({ share }, at) => Math.min(capsMin[at] ?? Infinity, Math.round(share * wholeMin)));
  const lastMin = wholeMin - earlier.reduce((sum, min) => sum + min, 0);
  const legs = [...earlier, lastMin].map((min, at) => ({ depthM: levels[at]!.depthM, min }));
  const isLongEnough = legs.every(({ depthM, min }, at) => {
    const wayMin = travelMin(legs[at - 1]?.depthM ?? 0, depthM, around);
    return min >= Math.max(SHORTEST_LEVEL_MIN, wayMin);
  });
  if (!isLongEnough) return null;
  const depthM = Math.max(...levels.map((level) => level.depthM));
  return legs.length === 1 ? { depthM, bottomMin: wholeMin } : { depthM, bottomMin: wholeMin, legs };
}
