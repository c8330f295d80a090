/** Where a diver breathes between dives: at the trip's height, or at that of an event. */
import type { Trip, TripEvent } from '../document/types';
import { applyMap, compose, type AffineMap, type Lanes } from '../tissues/affine-map';
import { AIR_N2, COMPARTMENT_COUNT, inspiredBar, RATES_PER_MIN } from '../tissues/compartments';
import { intervalMap } from '../tissues/leg-map';
import { altitudeBar } from '../water';
import { wallMin, type WallMin } from '../words/calendar';

/** A while at one pressure of the air. */
export interface Stay {
  readonly fromMin: WallMin;
  /** Infinity: for good. */
  readonly toMin: WallMin;
  readonly bar: number;
}

/** The pressure breathed at, over time. */
export interface Air {
  /** At the trip's own height, bar. */
  readonly homeBar: number;
  /** Everything else, in order. */
  readonly stays: readonly Stay[];
}

/** The same, with what is worked out of it. */
export interface AtSurface extends Air {
  /** Maps of intervals at home, by their minutes, shared by the divers of a party. */
  readonly waits: Map<number, AffineMap>;
}

const NOWHERE_ELSE: readonly Stay[] = [];

const staysKnown = new WeakMap<readonly TripEvent[], readonly Stay[]>();

function staysOf(events: readonly TripEvent[] | undefined): readonly Stay[] {
  if (events === undefined || events.length === 0) return NOWHERE_ELSE;
  let stays = staysKnown.get(events);
  if (!stays) {
    stays = events.map(({ from, to, altitudeM }) => ({
      fromMin: wallMin(from),
      toMin: wallMin(to),
      bar: altitudeBar(altitudeM),
    }));
    staysKnown.set(events, stays);
  }
  return stays;
}

/**
 * Where the party of a trip breathes between its dives.
 * @param homeBar of the trip's water, or of wherever a diver comes from, bar
 * Source: CONVENTIONS, "Height after diving".
 */
export function atSurface(trip: Pick<Trip, 'events'>, homeBar: number): AtSurface {
  return { homeBar, stays: staysOf(trip.events), waits: new Map() };
}

/** Whether two say the same of every moment. */
export function isSameAir(one: Air, other: Air): boolean {
  return one.homeBar === other.homeBar && one.stays === other.stays;
}

/** The pressure breathed from one moment to another, cut where it changes, in order; the last may have no end. */
export function stretchesOf({ homeBar, stays }: Air, fromMin: WallMin, toMin: WallMin): readonly Stay[] {
  const stretches: Stay[] = [];
  let atMin = fromMin;
  for (const stay of stays) {
    if (stay.toMin <= atMin) continue;
    if (stay.fromMin >= toMin) break;
    if (stay.fromMin > atMin) stretches.push({ fromMin: atMin, toMin: stay.fromMin, bar: homeBar });
    const endMin = Math.min(stay.toMin, toMin);
    stretches.push({ fromMin: Math.max(atMin, stay.fromMin), toMin: endMin, bar: stay.bar });
    atMin = endMin;
  }
  if (atMin < toMin || stretches.length === 0) stretches.push({ fromMin: atMin, toMin, bar: homeBar });
  return stretches;
}

/**
 * The map of a time at the surface, cut where the party climbs and comes down; a way up or down takes no time: the
 * pressure of an event holds from its beginning to its end.
 * @param fromMin @param toMin wall minutes, the second no sooner
 * @returns the map; apply it with the nitrogen fraction of air
 * Source: as `intervalMap` and `compose`.
 */
export function surfaceMap(surface: AtSurface, fromMin: WallMin, toMin: WallMin): AffineMap {
  const { stays, waits } = surface;
  if (stays.length > 0 && toMin > fromMin) {
    const stretches = stretchesOf(surface, fromMin, toMin);
    if (stretches.length > 1 || stretches[0]!.bar !== surface.homeBar) {
      return stretches
        .map((each) => intervalMap(each.bar, each.toMin - each.fromMin))
        .reduce((first, then) => compose(first, then));
    }
  }
  const min = toMin - fromMin;
  let map = waits.get(min);
  if (!map) waits.set(min, (map = intervalMap(surface.homeBar, min)));
  return map;
}

/** Tensions after a time at the surface. Source: as `surfaceMap`. */
export function afterSurface(
  surface: AtSurface,
  { atMin, tensions }: { readonly atMin: WallMin; readonly tensions: Lanes },
  toMin: WallMin,
): Lanes {
  if (atMin === -Infinity || toMin <= atMin) return tensions;
  return applyMap(surfaceMap(surface, atMin, toMin), tensions, AIR_N2);
}

/** From when on tensions stay below bounds, and which of the 16 is the last to come there; null: it is so at once. */
export interface Fallen {
  readonly atMin: WallMin;
  readonly compartment: number | null;
}

/** From when on one tension stays at or below its bound; null where it never does. */
function fallenAt(tension: number, bound: number, k: number, stretches: readonly Stay[]): WallMin | null {
  let at = tension;
  let since = -Infinity;
  for (const { fromMin, toMin, bar } of stretches) {
    const rest = AIR_N2 * inspiredBar(bar);
    const isEndless = toMin === Infinity;
    const after = isEndless ? rest : rest + (at - rest) * Math.exp(-k * (toMin - fromMin));
    if (isEndless && (rest > bound || (rest === bound && at > bound))) return null;
    // Within a stretch a tension goes one way; what is above at its end crosses in a later one, the last of them without end.
    if (at > bound && after <= bound) since = fromMin + Math.log((at - rest) / (bound - rest)) / k;
    at = after;
  }
  return since;
}

/**
 * From when on every compartment stays at or below a bound, whatever heights the diver comes to.
 * @param held tensions at a moment, bar @param bounds one a compartment, bar
 * @returns no sooner than the moment itself; the number (1 to 16) of a compartment that never does
 * Source: Haldane's solution at the surface for t, stretch by stretch.
 */
export function fallenBelow(
  held: { readonly atMin: WallMin; readonly tensions: Lanes },
  bounds: Lanes,
  surface: Air,
): Fallen | { readonly never: number } {
  const stretches = stretchesOf(surface, held.atMin, Infinity);
  let atMin = held.atMin;
  let compartment: number | null = null;
  for (let i = 0; i < COMPARTMENT_COUNT; i += 1) {
    const since = fallenAt(held.tensions[i]!, bounds[i]!, RATES_PER_MIN[i]!, stretches);
    if (since === null) return { never: i + 1 };
    if (since <= atMin) continue;
    atMin = since;
    compartment = i + 1;
  }
  return { atMin, compartment };
}
