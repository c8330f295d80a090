import { travelMin, type Leg, type Surroundings, type Stop } from '../profile';
import { applyMap, type AffineMap, type Lanes } from '../tissues/affine-map';
import { breathedMap, nitrogenInspiredBar } from '../tissues/breathed-legs';
import { COMPARTMENT_COUNT, RATES_PER_MIN } from '../tissues/compartments';
import { stretchMap } from '../tissues/leg-map';
import { ambientBar } from '../water';
import { isWithin, toleratedTensions, type Gradient } from './tolerated';

/** Stops lie this far apart, the last at this depth. Source: common practice, 3 m or 10 ft. */
export const STOP_STEP_M = 3;

/** No stop is waited out longer than a day: past that the ascent counts as not computable. */
const LONGEST_STOP_MIN = 1440;

function wayMap(fromM: number, toM: number, min: number, { column, breathing }: Surroundings): AffineMap {
  const fromBar = ambientBar(fromM, column);
  const toBar = ambientBar(toM, column);
  if (breathing === undefined) return stretchMap(fromBar, toBar, min);
  const leg: Leg = { kind: 'ascent', fromM, toM, fromBar, toBar, min };
  return breathedMap([leg], breathing);
}

function travelMap(fromM: number, toM: number, around: Surroundings): AffineMap {
  return wayMap(fromM, toM, travelMin(fromM, toM, around), around);
}

/** Whole minutes at a stop until the travel on ends inside `limits`; null where waiting does not get there. */
function waitMin(
  tensions: Lanes,
  inspiredN2Bar: number,
  onward: AffineMap,
  n2Fraction: number,
  limits: Lanes,
): number | null {
  let longest = 0;
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
    const limit = (limits[i]! - n2Fraction * onward.uptake[i]!) / onward.decay[i]!;
    const tension = tensions[i]!;
    if (tension <= limit) continue;
    if (inspiredN2Bar >= limit) return null;
    longest = Math.max(
      longest,
      Math.log((tension - inspiredN2Bar) / (limit - inspiredN2Bar)) / RATES_PER_MIN[i]!,
    );
  }
  const whole = Math.ceil(longest - 1e-9);
  return whole > LONGEST_STOP_MIN ? null : whole;
}

/** Tensions on arrival at a stop that is reached straight from the last level. */
function arrivalAt(
  firstM: number,
  tensions: Lanes,
  fromM: number,
  n2Fraction: number,
  around: Surroundings,
): Lanes {
  return applyMap(travelMap(fromM, firstM, around), tensions, n2Fraction);
}

/** Stops from a first one upwards, with the gradient's line drawn from there; null where waiting does not help. */
function stopsFrom(
  firstM: number,
  arrival: Lanes,
  n2Fraction: number,
  gradient: Gradient,
  around: Surroundings,
): readonly Stop[] | null {
  const { column } = around;
  let now = arrival;
  const stops: Stop[] = [];
  for (let depthM = firstM; depthM > 0; depthM -= STOP_STEP_M) {
    const nextM = depthM - STOP_STEP_M;
    const factor = gradient.high + ((gradient.low - gradient.high) * nextM) / firstM;
    const onward = travelMap(depthM, nextM, around);
    const limits = toleratedTensions(ambientBar(nextM, column), factor);
    const inspiredBar = nitrogenInspiredBar(depthM, ambientBar(depthM, column), n2Fraction, around.breathing);
    const wait = waitMin(now, inspiredBar, onward, n2Fraction, limits);
    if (wait === null) return null;
    // The ceiling at the low factor calls for the first stop, even where the line beyond it would not.
    const min = depthM === firstM ? Math.max(1, wait) : wait;
    const rested = applyMap(wayMap(depthM, depthM, min, around), now, n2Fraction);
    now = applyMap(onward, rested, n2Fraction);
    // A tissue that was inside its limit may have loaded past it while the others were waited for.
    if (!isWithin(now, widened(limits))) return null;
    if (min > 0) stops.push({ depthM, min });
  }
  return stops;
}

/**
 * The stops a passed no-stop limit costs: every 3 m, whole minutes, on the same gas. The gradient factor
 * runs linearly in depth from `low` at the first stop to `high` at the surface.
 * @param tensions on leaving the bottom, bar @param fromM depth of the last level, metres
 * @param n2Fraction nitrogen fraction of the mix, 0 to 1; `PURE_NITROGEN` where the surroundings have a breathing
 * @returns stops deepest first, each of 1 minute or more; null where no such ascent exists on this gas
 *   (a tissue would go on loading at the stop itself)
 * Source: E. C. Baker, "Clearing up the confusion about deep stops", Immersed 1998;3(4); 3 m steps and
 * whole minutes are common practice.
 */
export function stagedAscent(
  tensions: Lanes,
  fromM: number,
  n2Fraction: number,
  gradient: Gradient,
  around: Surroundings,
): readonly Stop[] | null {
  // A level that lies on a stop's depth may be that stop: there is no travel to it.
  const deepestStopM = Math.floor(fromM / STOP_STEP_M) * STOP_STEP_M;
  for (let firstM = STOP_STEP_M; firstM <= deepestStopM; firstM += STOP_STEP_M) {
    const arrival = arrivalAt(firstM, tensions, fromM, n2Fraction, around);
    if (isWithin(arrival, toleratedTensions(ambientBar(firstM, around.column), gradient.low))) {
      return stopsFrom(firstM, arrival, n2Fraction, gradient, around);
    }
  }
  return null;
}

/**
 * What a staged ascent would cost with its gradient's line drawn from a shallower first stop: the stops of each such
 * line. When a dive gets a little longer its first stop may come to lie 3 m deeper; the line turns with it, and
 * minutes go up to where less gas is breathed. Counted beside the stops themselves, these keep gas from falling then.
 * They are no way to ascend.
 * @param firstM of the staged ascent @returns a list a line; those that waiting does not solve are left out
 * Source: as `stagedAscent`; CONVENTIONS, "Required stops": gas never falls.
 */
export function shallowerLines(
  firstM: number,
  tensions: Lanes,
  fromM: number,
  n2Fraction: number,
  gradient: Gradient,
  around: Surroundings,
): readonly (readonly Stop[])[] {
  const lines: (readonly Stop[])[] = [];
  for (let lineM = STOP_STEP_M; lineM < firstM; lineM += STOP_STEP_M) {
    const arrival = arrivalAt(lineM, tensions, fromM, n2Fraction, around);
    const stops = stopsFrom(lineM, arrival, n2Fraction, gradient, around);
    if (stops !== null) lines.push(stops);
  }
  return lines;
}

/** Limits with room for rounding: waiting times are solved for equality. */
function widened(limits: Lanes): Lanes {
  const wide = new Array<number>(COMPARTMENT_COUNT);
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) wide[i] = limits[i]! + 1e-9;
  return wide;
}
