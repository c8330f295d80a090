import type { DivePlan } from '../ledger/dive-plan';
import { surfaceLimits } from '../ledger/nitrogen-outcome';
import { lastLevelStay } from '../ledger/level-limits';
import { noStopLimitMin } from '../ascent/no-stop-limit';
import { ascentLegs, type Leg, type Surroundings } from '../profile';
import { applyMap, compose, identity, type AffineMap, type Lanes } from '../tissues/affine-map';
import { breathedMap } from '../tissues/breathed-legs';
import { AIR_N2, inspiredBar } from '../tissues/compartments';

/** One minute of a dive: what each compartment would show, were it left now. */
export interface NitrogenPoint {
  /** Minutes since leaving the surface. */
  readonly min: number;
  /** Share of its limit on surfacing that each compartment would have; 0 at rest, 1 at the limit. */
  readonly shares: Lanes;
  /** The largest of them. */
  readonly share: number;
}

export interface NitrogenCurve {
  readonly points: readonly NitrogenPoint[];
  /**
   * Minutes since leaving the surface at which the last level, made as long as it may be, meets the limit: the no-stop
   * time of the whole dive. Infinity where it never does.
   */
  readonly meetsMin: number;
}

/** A dive that is left at any of its minutes. */
export interface LeftDive {
  readonly plan: DivePlan;
  /** Tensions at its start, bar. */
  readonly before: Lanes;
  /** Nitrogen fraction of the mix; `PURE_NITROGEN` where the plan's surroundings say what is breathed. */
  readonly n2: number;
  readonly gradientHigh: number;
}

/** A leg as far as the diver is so many minutes into it. */
function intoLeg(leg: Leg, min: number): Leg {
  const part = leg.min === 0 ? 1 : min / leg.min;
  return {
    ...leg,
    toM: leg.fromM + part * (leg.toM - leg.fromM),
    toBar: leg.fromBar + part * (leg.toBar - leg.fromBar),
    min,
  };
}

/** The way straight up, no stop made; from the surface nothing changes. */
function straightUp(depthM: number, around: Surroundings): AffineMap {
  return depthM <= 0 ? identity : breathedMap(ascentLegs(depthM, [], around), around.breathing);
}

/**
 * Nitrogen, were the diver to go straight up now: by minute the share of the limit on surfacing that each compartment
 * would show, the last level going on until the end asked for.
 * @param untilMin minutes since leaving the surface, above 0 @param stepMin between points
 * @returns points from 0 on, the minute at which the limit is met among them: there the share is 1
 * Source: CONVENTIONS, "Share of the limit"; the no-stop limit as in core/ascent/no-stop-limit.ts.
 */
export function nitrogenCurve(
  { plan, before, n2, gradientHigh }: LeftDive,
  untilMin: number,
  stepMin: number,
): NitrogenCurve {
  const { around, profile } = plan;
  const limits = surfaceLimits(around.column, gradientHigh);
  const restBar = AIR_N2 * inspiredBar(around.column.surfaceBar);
  const meetsMin = noStopLimitMin(lastLevelStay(plan, before, n2, limits));
  const times: number[] = [];
  for (let i = 0; i * stepMin < untilMin - 1e-9; i += 1) times.push(i * stepMin);
  times.push(untilMin);
  if (meetsMin > 0 && meetsMin < untilMin) times.push(meetsMin);
  times.sort((a, b) => a - b);

  const legs = [...profile.toLastLevel, { ...profile.lastLevel, min: Infinity }];
  const points: NitrogenPoint[] = [];
  let at = 0;
  let beganMin = 0;
  let toLeg = identity;
  let way = { fromM: 0, up: identity };
  for (const min of times) {
    while (min - beganMin > legs[at]!.min) {
      const done = legs[at]!;
      toLeg = breathedMap([done], around.breathing, toLeg);
      beganMin += done.min;
      at += 1;
    }
    const part = intoLeg(legs[at]!, min - beganMin);
    const toNow = breathedMap([part], around.breathing, toLeg);
    // At a level the way up is the same at every minute.
    if (part.toM !== way.fromM) way = { fromM: part.toM, up: straightUp(part.toM, around) };
    const surfacing = applyMap(compose(toNow, way.up), before, n2);
    const shares = surfacing.map((bar, i) => (bar - restBar) / (limits[i]! - restBar));
    points.push({ min, shares, share: Math.max(...shares) });
  }
  return { points, meetsMin };
}

/**
 * The compartments that lead at some minute of a curve.
 * @returns places, 0 to 15, rising
 * Source: `leadingShare` (core/ascent/tolerated.ts).
 */
export function leadingCompartments({ points }: NitrogenCurve): readonly number[] {
  const leading = new Set(points.map(({ shares, share }) => shares.indexOf(share)));
  return [...leading].toSorted((a, b) => a - b);
}
