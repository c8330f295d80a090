import { cnsAfterInterval } from '../oxygen/cns';
import type { Surroundings } from '../profile';
import { applyMap } from '../tissues/affine-map';
import { AIR_N2, restTensions } from '../tissues/compartments';
import { intervalMap } from '../tissues/leg-map';
import { SEA_LEVEL_BAR, type WaterColumn } from '../water';
import { asAnalysed } from '../document/as-dived';
import { wallMin, type WallMin } from '../words/calendar';
import { surroundingsAt } from '../document/waters';
import { atSurface } from './at-surface';
import { newDivePlan } from './dive-plan';
import { step } from './entry';
import type { Carry, Entry } from './ledger-types';
import { mixFor } from './mix-choice';
import type { Diver, EarlierDive, Mix, Trip } from '../document/types';

const restKnown = new WeakMap<WaterColumn, Carry>();

/** A diver who has not dived, the same object for a party at one place: what they have always breathed at is alike. */
function atRest(column: WaterColumn): Carry {
  let rest = restKnown.get(column);
  if (!rest) {
    rest = {
      atMin: -Infinity,
      tensions: restTensions(column.surfaceBar),
      cns: 0,
      doses: [],
      exposures: [],
      table: null,
      scrubberMin: 0,
    };
    restKnown.set(column, rest);
  }
  return rest;
}

/** What is held on coming up to altitude, after the time at sea level since the last dive. */
function climbed(carry: Carry, climbMin: WallMin): Carry {
  if (carry.atMin === -Infinity) return { ...carry, atMin: climbMin };
  const sinceMin = Math.max(0, climbMin - carry.atMin);
  return {
    ...carry,
    atMin: carry.atMin + sinceMin,
    tensions: applyMap(intervalMap(SEA_LEVEL_BAR, sinceMin), carry.tensions, AIR_N2),
    cns: carry.cns === null ? null : cnsAfterInterval(carry.cns, sinceMin),
  };
}

function earlierMix(dive: EarlierDive, diver: Diver, trip: Trip, around: Surroundings): Mix | null {
  return dive.o2 === undefined ? mixFor(dive, diver, trip, around) : asAnalysed(dive.o2);
}

/** What a diver brings to the trip. */
export interface Start {
  /** The dives made before it, in order; one whose mix is not known is not made, as far as figures go. */
  readonly earlier: readonly Entry[];
  /** What they leave: the carry at the last of those moments. */
  readonly carry: Carry;
}

/**
 * What a diver brings to the trip: at rest, or with earlier dives and a climb to altitude carried through
 * by the ledger's own steps. Dives that began before the climb count as made at sea level.
 * @returns the entries of those dives and the carry at the end; its `atMin` is -Infinity for a diver at rest
 * Source: CONVENTIONS, "Dives brought to the trip"; CONVENTIONS, "Tissues" for the rest before the first.
 */
export function startOf(trip: Trip, diver: Diver, around: Surroundings): Start {
  const climbMin = diver.arrivedAt === undefined ? null : wallMin(diver.arrivedAt);
  const seaLevel: Surroundings = { ...around, column: { ...around.column, surfaceBar: SEA_LEVEL_BAR } };
  const [above, below] = [around, seaLevel].map(({ column }) => atSurface(trip, column.surfaceBar));
  let place = climbMin === null ? around : seaLevel;
  const earlier: Entry[] = [];
  let carry = atRest(place.column);
  for (const dive of diver.before ?? []) {
    const startMin = wallMin(dive.startsAt);
    if (climbMin !== null && place === seaLevel && startMin >= climbMin) {
      carry = climbed(carry, climbMin);
      place = around;
    }
    // In a water of its own a dive was made there, whenever the diver came up.
    const own = surroundingsAt(trip, dive);
    const at = own === around ? place : own;
    const mix = earlierMix(dive, diver, trip, at);
    const effective = {
      shape: dive,
      startMin,
      analysedO2: null,
      analysedMix: null,
      isAsDived: true,
      isAsPlanned: false,
      endBar: null,
    };
    const context = { trip, diver, surface: place === around ? above! : below! };
    const asDive = { ...dive, siteId: dive.siteId ?? '' };
    const entry = step(context, carry, asDive, effective, mix, newDivePlan(dive, at));
    earlier.push(entry);
    carry = entry.after;
  }
  if (climbMin !== null && place === seaLevel) carry = climbed(carry, climbMin);
  return { earlier, carry };
}
