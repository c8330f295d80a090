import { shallowerLines, stagedAscent } from '../ascent/staged-ascent';
import type { EffectiveDive } from '../document/as-dived';
import type { Dive, Diver, Trip } from '../document/types';
import { ascentLegs, type Leg, type Stop } from '../profile';
import {
  barMinutes,
  contentL,
  emergencyGas,
  emergencyWay,
  minimumGas,
  pressureBar,
  turnBar,
  type EmergencyGas,
  type GasLaw,
  type MinimumGas,
} from '../supply';
import { applyMap, type Lanes } from '../tissues/affine-map';
import type { DivePlan } from './dive-plan';
import type { NitrogenOutcome } from './nitrogen-outcome';
import type { Entry } from './ledger-types';

/** Share of the gas above the minimum after which a party turns. Source: CONVENTIONS, "Turn pressure". */
export const USUAL_TURN_SHARE = 0.5;

/** The stops that a dive's gas has to last through; each a way up, deepest stop first. */
export interface StopsToReckon {
  /** From the last level; empty inside the limit, null where no ascent on this gas was found. */
  readonly fromLast: readonly (readonly Stop[])[] | null;
  /** From any moment at any level; null as above. */
  readonly fromAny: readonly (readonly Stop[])[] | null;
}

const NO_STOPS: StopsToReckon = { fromLast: [], fromAny: [] };

/**
 * The stops that gas is reckoned with where a dive is past its limit: those required, and what keeps gas from falling
 * as a dive gets longer (see `shallowerLines`).
 * @param before tensions at the start, bar @param n2 nitrogen fraction
 * Source: CONVENTIONS, "Required stops"; CONVENTIONS, "Minimum gas".
 */
export function stopsToReckon(
  plan: DivePlan,
  {
    stops,
    isPastLimit,
    levelsPastLimitM,
  }: Pick<NitrogenOutcome, 'stops' | 'isPastLimit' | 'levelsPastLimitM'>,
  before: Lanes,
  n2: number,
  { gradient }: Diver,
): StopsToReckon {
  if (!isPastLimit) return NO_STOPS;
  const { around } = plan;
  const withLines = (leaving: Lanes, fromM: number, required: readonly Stop[]) => [
    required,
    ...shallowerLines(required[0]!.depthM, leaving, fromM, n2, gradient, around),
  ];
  const fromLevel = (tensions: Lanes, fromM: number) => {
    const required = stagedAscent(tensions, fromM, n2, gradient, around);
    return required && withLines(tensions, fromM, required);
  };
  const lastM = plan.profile.lastLevel.toM;
  const leaving = applyMap(plan.toLeaving, before, n2);
  let fromLast: StopsToReckon['fromLast'] = [];
  let fromAny: StopsToReckon['fromAny'] = [];
  if (stops === null) fromLast = fromAny = null;
  else if (stops.length > 0) {
    fromLast = fromAny = withLines(leaving, lastM, stops);
    // At a shallow last level some tissues give gas off: trouble may come on arrival just as well as later. The
    // emergency is reckoned from the deepest point, and so are its stops; from the last level there may be no way, and
    // where there is one it may take more, as less is given off on a shorter way to the first stop.
    const arriving = applyMap(plan.toArrival, before, n2);
    if (arriving.some((tension, i) => tension > leaving[i]!)) {
      const highest = leaving.map((tension, i) => Math.max(tension, arriving[i]!));
      const ways = fromLevel(highest, plan.profile.deepestM);
      fromAny = ways && [...fromLast, ...ways, ...(fromLevel(highest, lastM) ?? [])];
    }
  }
  for (const { depthM, map } of plan.earlierLevels) {
    if (fromAny === null || !levelsPastLimitM.includes(depthM)) continue;
    const ways = fromLevel(applyMap(map, before, n2), depthM);
    fromAny = ways && [...fromAny, ...ways];
  }
  return { fromLast, fromAny };
}

/**
 * The legs a dive's gas is reckoned with: as made, or with the safety stop that required stops take the place of, or
 * with other stops to reckon with, whichever take most gas.
 * @param made the legs as the dive is made
 * Source: CONVENTIONS, "Required stops".
 */
export function breathedLegs(plan: DivePlan, made: readonly Leg[], stops: StopsToReckon): readonly Leg[] {
  if (made === plan.legs) return made;
  let most = plan.breathedBarMin > barMinutes(made) ? plan.legs : made;
  const toLeaving = made.slice(0, plan.profile.toLastLevel.length + 1);
  for (const way of stops.fromLast ?? []) {
    const legs = [...toLeaving, ...ascentLegs(plan.profile.lastLevel.toM, way, plan.around)];
    if (barMinutes(legs) > barMinutes(most)) most = legs;
  }
  return most;
}

/**
 * Gas of an emergency on a dive: of the safety stop and of the required stops of going up at any moment of any level,
 * what takes most gas counts.
 * @param waysUp as of `StopsToReckon.fromAny`
 * Source: CONVENTIONS, "Minimum gas".
 */
export function emergencyGasOf(
  plan: DivePlan,
  waysUp: readonly (readonly Stop[])[],
  { surfaceRateLpm }: Pick<Diver, 'surfaceRateLpm'>,
): EmergencyGas {
  if (waysUp.length === 0) return emergencyGas(surfaceRateLpm, [plan.usualWayUp]);
  const { deepestM } = plan.profile;
  const required = waysUp.map((stops) => emergencyWay(deepestM, stops, plan.around));
  return emergencyGas(surfaceRateLpm, [plan.usualWayUp, ...required]);
}

/**
 * Minimum gas of a dive for one diver.
 * @returns as `minimumGas`; null where there is no way up on this gas
 * Source: as `emergencyGasOf`.
 */
export function minimumGasOf(
  plan: DivePlan,
  { fromAny }: StopsToReckon,
  diver: Diver,
  o2: number,
  law: GasLaw,
): MinimumGas | null {
  if (fromAny === null) return null;
  const { waterL, reserveBar } = diver.cylinder;
  return minimumGas({ waterL, reserveBar, o2, law }, emergencyGasOf(plan, fromAny, diver));
}

/**
 * The gas of a dive: what the cylinder holds, gives and must keep.
 * @param before tensions at the start, bar
 * @param effective what was read and dived of it
 * @returns litres at 1 bar and gauge pressures, those read where the dive was logged with them; null where no way up on this gas was found, as then nobody can say
 *   what it takes
 * Source: core/supply.ts; CONVENTIONS, "Gas".
 */
export function gasOutcome(
  plan: DivePlan,
  nitrogen: Pick<NitrogenOutcome, 'legs' | 'stops' | 'isPastLimit' | 'levelsPastLimitM'>,
  before: Lanes,
  dive: Dive,
  diver: Diver,
  { endBar, shape }: Pick<EffectiveDive, 'endBar' | 'shape'>,
  o2: number,
  trip: Trip,
): Entry['gas'] {
  const { waterL, fillBar } = diver.cylinder;
  const law = trip.settings.gasLaw;
  const filledL = contentL(waterL, fillBar, o2, law);
  const stops = stopsToReckon(plan, nitrogen, before, 1 - o2, diver);
  const legs = breathedLegs(plan, nitrogen.legs, stops);
  const breathedBarMin = legs === plan.legs ? plan.breathedBarMin : barMinutes(legs);
  const readL = endBar === null ? null : filledL - contentL(waterL, endBar, o2, law);
  // Of what was read, every leg as it was made took its share.
  const rateLpm = readL === null ? diver.surfaceRateLpm : readL / barMinutes(nitrogen.legs);
  const usedL = readL ?? (stops.fromLast === null ? null : diver.surfaceRateLpm * breathedBarMin);
  // Levels were a plan: of what was dived otherwise only the deepest point is known, and it would take more gas.
  const isShapeKnown = shape === dive || shape.samples !== undefined || dive.legs === undefined;
  const minimum = minimumGasOf(plan, stops, diver, o2, law);
  return {
    contentL: filledL,
    // Whatever the way up, the legs to it are the planned ones.
    usedAtLeavingL: rateLpm * plan.atLeavingBarMin,
    usedL,
    endBar: endBar ?? (usedL === null ? null : pressureBar(waterL, filledL - usedL, o2, law)),
    isEndRead: endBar !== null,
    breathedLpm: readL === null || readL <= 0 || !isShapeKnown ? null : rateLpm,
    turnBar: minimum && turnBar(fillBar, minimum.bar, dive.turnShare ?? USUAL_TURN_SHARE),
    minimumBar: minimum && minimum.bar,
  };
}

/**
 * Litres left above what must remain: the reserve at the surface, the minimum gas on leaving the bottom.
 * @returns litres at 1 bar; negative where one of the two is not left, -Infinity where nobody can say what it takes
 * Source: CONVENTIONS, "Minimum gas".
 */
export function spareL(entry: Pick<Entry, 'gas' | 'diver' | 'o2'>, trip: Trip): number {
  const { contentL: filledL, usedL, usedAtLeavingL, minimumBar } = entry.gas;
  if (filledL === null || usedL === null || usedAtLeavingL === null || minimumBar === null) return -Infinity;
  const { waterL, reserveBar } = entry.diver.cylinder;
  const law = trip.settings.gasLaw;
  const reserveL = contentL(waterL, reserveBar, entry.o2!, law);
  const minimumL = contentL(waterL, minimumBar, entry.o2!, law);
  return Math.min(filledL - usedL - reserveL, filledL - usedAtLeavingL - minimumL);
}

/** The legs the gas of an entry is reckoned with, and the stops. Source: as `gasOutcome`. */
export function reckonedOf(
  plan: DivePlan,
  entry: Entry,
): { readonly legs: readonly Leg[]; readonly stops: StopsToReckon } {
  const stops = stopsToReckon(plan, entry, entry.tensionsBefore, 1 - entry.o2!, entry.diver);
  return { legs: breathedLegs(plan, entry.legs, stops), stops };
}

/** Of a dive that is not made. */
export const NO_GAS: Entry['gas'] = {
  contentL: null,
  usedAtLeavingL: null,
  usedL: null,
  endBar: null,
  isEndRead: false,
  breathedLpm: null,
  turnBar: null,
  minimumBar: null,
};
