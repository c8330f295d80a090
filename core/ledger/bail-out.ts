/** The way up of a diver who leaves the loop for open circuit. */
import { stagedAscent } from '../ascent/staged-ascent';
import { isWithin } from '../ascent/tolerated';
import type { MixesBreathing } from '../breathing';
import type { Diver, LoopGear, Trip } from '../document/types';
import { modM } from '../gas';
import {
  ascentLegs,
  runtimeMin,
  safetyStopOf,
  type Leg,
  type ProfileShape,
  type Surroundings,
} from '../profile';
import { barMinutes, contentL } from '../supply';
import { applyMap, type AffineMap, type Lanes } from '../tissues/affine-map';
import { breathedMap, legsByMix, PURE_NITROGEN } from '../tissues/breathed-legs';
import { ambientBar } from '../water';
import type { DivePlan } from './dive-plan';
import type { BailOutMix, BailOutWay } from './ledger-types';
import { mixO2 } from './mix-choice';

/** Without a rate of its own a diver on bail-out breathes as in the emergency of minimum gas. Source: common practice. */
const STRESS_FACTOR = 2;

/** Before the ascent there is a minute to sort things out. Source: as above. */
const PROBLEM_MIN = 1;

/** A moment at which the loop may have to be left. */
interface Moment {
  readonly atMin: number;
  readonly fromM: number;
  /** From the start of the dive. */
  readonly map: AffineMap;
}

/** Arrival and end of each level: between them every compartment goes one way. */
function momentsOf({ earlierLevels, lastLevel, toArrival, toLeaving }: DivePlan): readonly Moment[] {
  let sinceMin = 0;
  const moments: Moment[] = [];
  for (const level of [...earlierLevels, { ...lastLevel, toArrival, map: toLeaving }]) {
    for (const [min, map] of [
      [level.travelMin, level.toArrival],
      [level.min, level.map],
    ] as const) {
      moments.push({ atMin: sinceMin + min, fromM: level.depthM, map });
    }
    sinceMin += level.min;
  }
  return moments;
}

/** Of one mix: what its cylinders hold above their reserve, litres at 1 bar. */
function holdsL({ bailOut }: LoopGear, mixId: string, o2: number, { gasLaw }: Trip['settings']): number {
  let litres = 0;
  for (const { mix, cylinder } of bailOut) {
    if (mix !== mixId) continue;
    const { waterL, fillBar, reserveBar } = cylinder;
    litres += contentL(waterL, fillBar, o2, gasLaw) - contentL(waterL, reserveBar, o2, gasLaw);
  }
  return litres;
}

/** The minute at depth before the ascent. */
function problemLeg(fromM: number, { column }: Surroundings): Leg {
  const bar = ambientBar(fromM, column);
  return { kind: 'level', fromM, toM: fromM, fromBar: bar, toBar: bar, min: PROBLEM_MIN };
}

/** Minute, ascent and stops on bail-out; null where no ascent was found. */
function wayFrom(
  { fromM, map }: Moment,
  before: Lanes,
  shape: ProfileShape,
  diver: Diver,
  limits: Lanes,
  around: Surroundings,
): (Pick<BailOutWay, 'stops'> & { readonly legs: readonly Leg[] }) | null {
  const wait = problemLeg(fromM, around);
  const tensions = applyMap(map, before, PURE_NITROGEN);
  const leaving = applyMap(breathedMap([wait], around.breathing), tensions, PURE_NITROGEN);
  const straight = applyMap(
    breathedMap(ascentLegs(fromM, [], around), around.breathing),
    leaving,
    PURE_NITROGEN,
  );
  const safety = safetyStopOf({
    ...shape,
    legs: [
      { depthM: shape.depthM, min: 1 },
      { depthM: fromM, min: 1 },
    ],
  });
  const stops = isWithin(straight, limits)
    ? safety === null
      ? []
      : [safety]
    : stagedAscent(leaving, fromM, PURE_NITROGEN, diver.gradient, around);
  return stops && { stops, legs: [wait, ...ascentLegs(fromM, stops, around)] };
}

/** The mixes that a diver has for bail-out, the richest first, each with its MOD at the working PO2. Source: core/gas.ts. */
export function bailOutMixes(
  { mixes }: Trip,
  { bailOut }: LoopGear,
  { po2 }: Diver,
  { column }: Surroundings,
): readonly Pick<BailOutMix, 'mix' | 'o2' | 'modM'>[] {
  return mixes
    .filter(({ id }) => bailOut.some(({ mix }) => mix === id))
    .map((mix) => ({ mix, o2: mixO2(mix), modM: modM(mixO2(mix), po2.working, column) }))
    .toSorted((a, b) => b.o2 - a.o2);
}

function breathedOn(along: readonly Pick<BailOutMix, 'o2' | 'modM'>[]): MixesBreathing {
  return { is: 'mixes', mixes: along.map(({ o2, modM: downToM }) => ({ o2, downToM })) };
}

/**
 * From the start of a dive to each moment at which the loop may have to be left, the minute there, and straight up on
 * bail-out: where all of these keep the limits, no way up takes a required stop.
 * Source: CONVENTIONS, "Bail-out".
 */
export function straightOnBailOut(
  trip: Trip,
  plan: DivePlan,
  gear: LoopGear,
  diver: Diver,
): readonly AffineMap[] {
  const breathing = breathedOn(bailOutMixes(trip, gear, diver, plan.around));
  return momentsOf(plan).map(({ fromM, map }) =>
    breathedMap([problemLeg(fromM, plan.around), ...ascentLegs(fromM, [], plan.around)], breathing, map),
  );
}

/**
 * The way up on bail-out from the moment of a dive that takes most of what is along: a minute at depth, the ascent at the
 * ascent rate, and the stops that it costs, else the safety stop. Each mix is breathed as deep as its MOD at the working PO2
 * allows, the richest first; below them all the leanest is.
 * @param before tensions at the start of the dive, bar @param limits tolerated at the surface, bar
 * @returns null where from some moment no ascent was found
 * Source: CONVENTIONS, "Bail-out".
 */
export function bailOutWay(
  trip: Trip,
  plan: DivePlan,
  shape: ProfileShape,
  before: Lanes,
  gear: LoopGear,
  diver: Diver,
  limits: Lanes,
): BailOutWay | null {
  const along = bailOutMixes(trip, gear, diver, plan.around);
  const breathing = breathedOn(along);
  const around: Surroundings = { ...plan.around, breathing };
  const rateLpm = gear.bailOutRateLpm ?? STRESS_FACTOR * diver.surfaceRateLpm;
  const holds = along.map(({ mix, o2 }) => holdsL(gear, mix.id, o2, trip.settings));
  let worst: BailOutWay | null = null;
  for (const moment of momentsOf(plan)) {
    const way = wayFrom(moment, before, shape, diver, limits, around);
    if (way === null) return null;
    const needed = along.map(() => 0);
    for (const { leg, mix } of legsByMix(way.legs, breathing)) {
      needed[mix] = needed[mix]! + rateLpm * barMinutes([leg]);
    }
    const spareL = Math.min(...needed.map((litres, i) => holds[i]! - litres));
    // Of moments alike the last, with what was dived before it.
    if (worst !== null && spareL > worst.spareL) continue;
    worst = {
      atMin: moment.atMin,
      fromM: moment.fromM,
      stops: way.stops,
      runtimeMin: runtimeMin(way.legs),
      mixes: along.map((each, i) => ({ ...each, neededL: needed[i]!, holdsL: holds[i]! })),
      spareL,
    };
  }
  return worst;
}
