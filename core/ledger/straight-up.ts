/** What would be, were a diver to leave for the surface at any moment of a dive, or to stay where it is. */
import { noStopLimitMin } from '../ascent/no-stop-limit';
import { leadingShare } from '../ascent/tolerated';
import type { Leg, Surroundings } from '../profile';
import { applyMap, identity, type AffineMap } from '../tissues/affine-map';
import { AIR_N2, inspiredBar } from '../tissues/compartments';
import { breathedMap, nitrogenInspiredBar } from '../tissues/breathed-legs';
import { nitrogenOf } from './breathed-oxygen';
import { surfaceLimits } from './nitrogen-outcome';
import type { Entry } from './ledger-types';
import { aroundOf } from './loop-around';
import { straightUpMap } from './straight-up-map';
import type { Trip } from '../document/types';
import type { WallMin } from '../words/calendar';

/** A moment in the water, and what follows from leaving it and from staying. */
export interface MomentInWater {
  readonly depthM: number;
  /** The largest share of its limit that a compartment has on surfacing from a direct ascent, and which (1 to 16). */
  readonly fractionOfLimit: number;
  readonly compartment: number;
  /**
   * Minutes more at this depth from which a direct ascent still passes nothing; 0 where it does already, Infinity
   * where it never will.
   */
  readonly stayMin: number;
}

/** Where a diver is at a moment of a dive: the map from its beginning, and the depth. */
function placeAt(
  legs: readonly Leg[],
  sinceMin: number,
  breathing: Surroundings['breathing'],
): { readonly map: AffineMap; readonly leg: Leg } {
  let map = identity;
  let left = sinceMin;
  for (const [i, leg] of legs.entries()) {
    if (left >= leg.min && i < legs.length - 1) {
      map = breathedMap([leg], breathing, map);
      left -= leg.min;
      continue;
    }
    const share = leg.min === 0 ? 1 : Math.min(1, left / leg.min);
    const toM = leg.fromM + share * (leg.toM - leg.fromM);
    const toBar = leg.fromBar + share * (leg.toBar - leg.fromBar);
    const done = { ...leg, toM, toBar, min: share * leg.min };
    return { map: breathedMap([done], breathing, map), leg: done };
  }
  throw new RangeError('a dive without a leg');
}

/**
 * One moment of a dive, read out of it.
 * @param entry of a dive that is made @param trip the document it was reckoned from @param atMin wall minutes
 * @returns null before the dive and after it
 * Source: as the no-stop limit; CONVENTIONS, "Share of the limit".
 */
export function momentInWater(entry: Entry, trip: Trip, atMin: WallMin): MomentInWater | null {
  if (!entry.isMade || atMin < entry.startMin || atMin > entry.surfacesMin) return null;
  const around = aroundOf(trip, entry);
  const { surfaceBar } = around.column;
  const n2Fraction = nitrogenOf(entry);
  const { map, leg } = placeAt(entry.legs, atMin - entry.startMin, around.breathing);
  const arrivalTensions = applyMap(map, entry.tensionsBefore, n2Fraction);
  const directAscent = straightUpMap(leg.toM, around);
  const limits = surfaceLimits(around.column, entry.diver.gradient.high);
  const surfacing = applyMap(directAscent, arrivalTensions, n2Fraction);
  return {
    depthM: leg.toM,
    ...leadingShare(surfacing, AIR_N2 * inspiredBar(surfaceBar), limits),
    stayMin: noStopLimitMin({
      arrivalTensions,
      arrivalMin: 0,
      inspiredN2Bar: nitrogenInspiredBar(leg.toM, leg.toBar, n2Fraction, around.breathing),
      directAscent,
      n2Fraction,
      limits,
    }),
  };
}
