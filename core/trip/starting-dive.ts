import { cautionsOf } from '../cautions/all';
import type { Units } from '../cautions/wording';
import { esotAdvised } from '../oxygen/budgets';
import { ledger } from './ledger';
import type { Caution, Ledger, WallMin } from './ledger-types';
import { roomMinutes } from './room';
import type { Dive, Trip } from './types';

/** Minutes of room that the starting sheet leaves to everybody on every dive. Source: common practice. */
export const ROOM_LEFT_MIN = 5;

/** A dive is worth the way down from this on; a shallower one is sought before a shorter. Source: common practice. */
export const SHORTEST_MIN = 20;

/** No dive is thought shallower than this. */
const SHALLOWEST_M = 8;

/** Bottom times are multiples of this: a first plan is no more exact. */
const STEP_MIN = 5;

/** What is known when the next dive is to be fitted in. */
export interface Fitting {
  /** The trip as far as it is laid out. */
  readonly trip: Trip;
  readonly ledger: Ledger;
  readonly divingDays: number;
  readonly longestMin: number;
  /** Of the depths and pressures in the reasons. */
  readonly units: Units;
}

/** A dive that fits, with the trip and ledger it makes; or why none does. */
export type Fitted =
  | { readonly fits: true; readonly dive: Dive; readonly trip: Trip; readonly ledger: Ledger }
  | { readonly fits: false; readonly reason: string };

type Tried =
  | { readonly spareMin: number; readonly trip: Trip; readonly ledger: Ledger }
  | { readonly reason: string };

function key({ code, diverId, diveId }: Caution): string {
  return JSON.stringify([code, diverId, diveId]);
}

/** Why a dive will not do, or by how many minutes it could be longer. */
function tried(fitting: Fitting, known: ReadonlySet<string>, dive: Dive, endsBy: WallMin): Tried {
  const trip = { ...fitting.trip, dives: [...fitting.trip.dives, dive] };
  const whole = ledger(trip, fitting.ledger);
  let spareMin = Infinity;
  for (const each of whole.divers) {
    const index = each.entries.length - 1;
    const entry = each.entries[index]!;
    // Without a mix the cautions below say which; there is no room to ask for.
    if (!entry.isMade) continue;
    const carry = index === 0 ? each.start : each.carries[index - 1]!;
    const { min } = roomMinutes(trip, carry, entry);
    if (min !== null) spareMin = Math.min(spareMin, min - ROOM_LEFT_MIN);
    spareMin = Math.min(spareMin, endsBy - entry.surfacesMin);
    if (entry.esot.day > esotAdvised(fitting.divingDays)) {
      return { reason: `it would take ${each.diver.name} over the day's advice for the lungs (ESOT).` };
    }
  }
  const caution = cautionsOf(whole, fitting.units).find(
    (each) => each.severity !== 'know' && !known.has(key(each)),
  );
  if (caution) return { reason: lowered(caution.message) };
  if (spareMin < 0) return { reason: `it would leave less than ${ROOM_LEFT_MIN} min of room.` };
  return { spareMin, trip, ledger: whole };
}

function lowered(sentence: string): string {
  return sentence.charAt(0).toLowerCase() + sentence.slice(1);
}

/**
 * Fits a dive in: at the depth wished for or the next shallower one at which it is long enough, and as long
 * as it can be without taking anybody's room, oxygen or gas.
 * @param wished the dive with its deepest thinkable depth; its bottom time is not looked at
 * @param endsBy wall-clock minutes at which everybody has surfaced
 * @returns the longest dive in steps of 5 min that draws no caution to stop or change; or why none does
 * Source: limits as in the ledger and the cautions; the search is this project's.
 */
export function fitted(fitting: Fitting, wished: Dive, endsBy: WallMin): Fitted {
  const known = new Set(cautionsOf(fitting.ledger).map(key));
  let reason = 'no depth was found for it.';
  for (let depthM = wished.depthM; depthM >= Math.min(wished.depthM, SHALLOWEST_M); depthM -= 1) {
    const shortest = { ...wished, depthM, bottomMin: Math.min(SHORTEST_MIN, fitting.longestMin) };
    const first = tried(fitting, known, shortest, endsBy);
    if ('reason' in first) {
      reason = first.reason;
      continue;
    }
    const couldBeMin = Math.min(fitting.longestMin, shortest.bottomMin + first.spareMin);
    for (
      let bottomMin = Math.floor(couldBeMin / STEP_MIN) * STEP_MIN;
      bottomMin > shortest.bottomMin;
      bottomMin -= STEP_MIN
    ) {
      const dive = { ...shortest, bottomMin };
      const longer = tried(fitting, known, dive, endsBy);
      if (!('reason' in longer)) return { fits: true, dive, trip: longer.trip, ledger: longer.ledger };
    }
    return { fits: true, dive: shortest, trip: first.trip, ledger: first.ledger };
  }
  return { fits: false, reason };
}
