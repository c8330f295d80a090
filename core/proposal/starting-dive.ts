import { cautionsOf } from '../cautions/all';
import { esotAdvised } from '../oxygen/budgets';
import { dayNumber, type WallMin } from '../words/calendar';
import { ledger } from '../ledger/ledger';
import type { Entry, Ledger, RoomLimit } from '../ledger/ledger-types';
import { roomMinutes } from '../ledger/room';
import type { DepthSteps } from './starting-steps';
import type { Dive, Diver, Trip } from '../document/types';
import type { Caution } from '../cautions/caution';

/** Minutes of room that the starting sheet leaves to everybody on every dive. Source: common practice. */
export const ROOM_LEFT_MIN = 5;

/** A dive is worth the way down from this on; a shallower one is sought before a shorter. Source: common practice. */
export const SHORTEST_MIN = 20;

/** Bottom times are multiples of this: a first plan is no more exact. */
const STEP_MIN = 5;

/** Divers whose room differs by less are held alike, minutes. */
const ALIKE_MIN = 0.5;

/** A limit that keeps a dive from being longer or deeper. */
export type Limit =
  | Extract<RoomLimit, 'no-stop' | 'gas' | 'cns' | 'cns-day'>
  | 'otu'
  | 'esot'
  | 'density'
  | 'mix'
  | 'altitude'
  | 'interval'
  | 'order'
  | 'flight'
  | 'next-dive';

/** What holds a dive, and whom it concerns. */
export interface Held {
  readonly by: Limit;
  /** Empty where it concerns the trip and nobody in particular. */
  readonly divers: readonly Diver[];
}

/** When everybody has to be out of the water, and on whose account. */
export interface End {
  readonly byMin: WallMin;
  readonly for: 'flight' | 'next-dive';
}

/** What is known when the next dive is to be fitted in. */
export interface Fitting {
  /** The trip as far as it is laid out. */
  readonly trip: Trip;
  readonly ledger: Ledger;
  /** Numbers of the days that are to have dives. */
  readonly divingDays: readonly number[];
  readonly longestMin: number;
  readonly steps: DepthSteps;
}

/** A dive that fits, with the trip and ledger it makes and what holds it; or why none does. */
export type Fitted =
  | {
      readonly fits: true;
      readonly dive: Dive;
      readonly trip: Trip;
      readonly ledger: Ledger;
      /** What would not let it be longer; null where it is as long as asked. */
      readonly timeHeld: Held | null;
      /** What would not let it be deeper; null at the depth wished for. */
      readonly depthHeld: Held | null;
    }
  | { readonly fits: false; readonly held: Held; readonly depthM: number };

type Tried =
  | { readonly spareMin: number; readonly next: Held; readonly trip: Trip; readonly ledger: Ledger }
  | { readonly held: Held };

/** What each caution to stop or change is about. */
const LIMITS: Readonly<Record<string, Limit>> = {
  'no-mix': 'mix',
  'below-mod': 'mix',
  'below-mod-analysed': 'mix',
  'richer-than-diver': 'mix',
  'po2-above-working': 'mix',
  'po2-above-contingency': 'mix',
  'po2-without-limit': 'mix',
  'past-no-stop': 'no-stop',
  'level-past-no-stop': 'no-stop',
  'stops-into-next-dive': 'no-stop',
  'gas-not-for-stops': 'gas',
  'gas-runs-out': 'gas',
  'below-minimum-gas': 'gas',
  'below-reserve': 'gas',
  'cns-over-80': 'cns',
  'cns-over-100': 'cns',
  'cns-day-over-100': 'cns-day',
  'otu-over-day': 'otu',
  'gas-too-dense': 'density',
  'altitude-too-soon': 'altitude',
  'short-interval': 'interval',
  'flight-too-soon': 'flight',
};

function key({ code, diverId, diveId }: Caution): string {
  return JSON.stringify([code, diverId, diveId]);
}

/** The first caution to stop or change that the dive brings, and everybody to whom it says the same. */
function cautioned(whole: Ledger, known: ReadonlySet<string>): Held | null {
  const fresh = cautionsOf(whole).filter((each) => each.severity !== 'know' && !known.has(key(each)));
  const [first] = fresh;
  if (!first) return null;
  const by = LIMITS[first.code] ?? 'order';
  const ids = fresh.filter(({ code }) => code === first.code).map(({ diverId }) => diverId);
  const { party } = whole.trip;
  return { by, divers: ids.includes(null) ? party : party.filter(({ id }) => ids.includes(id)) };
}

/** How many minutes longer a diver could stay, and which limit comes first. */
interface Spare {
  readonly min: number;
  readonly by: Limit;
  readonly diver: Diver;
}

function sparesOf(trip: Trip, whole: Ledger): readonly Spare[] {
  return whole.divers.flatMap(({ diver, entries }) => {
    const { min, minLimit } = roomMinutes(trip, entries[entries.length - 1]!);
    return min === null ? [] : [{ min: min - ROOM_LEFT_MIN, by: minLimit as Limit, diver }];
  });
}

/** Why a dive will not do, or by how many minutes it could be longer. */
function tried(fitting: Fitting, known: ReadonlySet<string>, dive: Dive, end: End): Tried {
  const trip = { ...fitting.trip, dives: [...fitting.trip.dives, dive] };
  const whole = ledger(trip, fitting.ledger);
  const last = whole.divers.map(({ entries }): Entry => entries[entries.length - 1]!);
  const without = last.filter(({ isMade }) => !isMade).map(({ diver }) => diver);
  if (without.length > 0) return { held: { by: 'mix', divers: without } };

  const spares = sparesOf(trip, whole);
  const leastMin = Math.min(...spares.map(({ min }) => min));
  const tightest = spares.find(({ min }) => min === leastMin);
  const untilEndMin = end.byMin - Math.max(...last.map(({ surfacesMin }) => surfacesMin));
  const next: Held =
    tightest === undefined || untilEndMin < leastMin
      ? { by: end.for, divers: [] }
      : {
          by: tightest.by,
          divers: spares
            .filter(({ min, by }) => by === tightest.by && min < leastMin + ALIKE_MIN)
            .map(({ diver }) => diver),
        };
  const spareMin = Math.min(leastMin, untilEndMin);
  if (spareMin < 0) return { held: next };

  const overAdvice = whole.divers
    .filter(({ earlier, entries }) => {
      const brought = earlier.map(({ startMin }) => dayNumber(startMin));
      const advised = esotAdvised(new Set([...fitting.divingDays, ...brought]).size);
      return entries[entries.length - 1]!.esot.day > advised;
    })
    .map(({ diver }) => diver);
  if (overAdvice.length > 0) return { held: { by: 'esot', divers: overAdvice } };
  const held = cautioned(whole, known);
  return held ? { held } : { spareMin, next, trip, ledger: whole };
}

/**
 * Fits a dive in: at the depth wished for or the next shallower one at which it is long enough, and as long
 * as it can be without taking anybody's room, oxygen or gas.
 * @param wished the dive with its deepest thinkable depth; its bottom time is not looked at
 * @param end when everybody has surfaced
 * @returns the longest dive in steps of 5 min that draws no caution to stop or change, and what holds it; or
 *   why none does, at the shallowest depth that was tried
 * Source: limits as in the ledger and the cautions; the search is this project's.
 */
export function fitted(fitting: Fitting, wished: Dive, end: End): Fitted {
  const { steps, longestMin } = fitting;
  const known = new Set(cautionsOf(fitting.ledger).map(key));
  let held: Held | null = null;
  let { depthM } = wished;
  for (;;) {
    const shortest = { ...wished, depthM, bottomMin: Math.min(SHORTEST_MIN, longestMin) };
    const first = tried(fitting, known, shortest, end);
    if (!('held' in first)) {
      return { fits: true, ...longest(fitting, known, shortest, first, end), depthHeld: held };
    }
    held = first.held;
    const nextM = steps.shallower(depthM);
    if (nextM < steps.shallowestM) return { fits: false, held, depthM };
    depthM = nextM;
  }
}

/** The dive as long as it may be. */
function longest(
  fitting: Fitting,
  known: ReadonlySet<string>,
  shortest: Dive,
  first: Extract<Tried, { spareMin: number }>,
  end: End,
): Omit<Extract<Fitted, { fits: true }>, 'fits' | 'depthHeld'> {
  const { longestMin } = fitting;
  const couldBeMin = shortest.bottomMin + first.spareMin;
  let timeHeld = couldBeMin < longestMin ? first.next : null;
  const fromMin = Math.floor(Math.min(longestMin, couldBeMin) / STEP_MIN) * STEP_MIN;
  for (let bottomMin = fromMin; bottomMin > shortest.bottomMin; bottomMin -= STEP_MIN) {
    const dive = { ...shortest, bottomMin };
    const longer = tried(fitting, known, dive, end);
    if (!('held' in longer)) return { dive, trip: longer.trip, ledger: longer.ledger, timeHeld };
    timeHeld = longer.held;
  }
  return { dive: shortest, trip: first.trip, ledger: first.ledger, timeHeld };
}
