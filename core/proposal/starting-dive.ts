import { cautionsOf } from '../cautions/all';
import { esotAdvised } from '../oxygen/budgets';
import { dayNumber, type WallMin, type WallTime } from '../words/calendar';
import { ledger } from '../ledger/ledger';
import type { Entry, Ledger, RoomLimit } from '../ledger/ledger-types';
import { roomMinutes } from '../ledger/room';
import { surroundingsOf } from '../profile';
import { SHORTEST_MIN } from './starting-days';
import { levelsAt, timed, type TimedLevel } from './starting-profile';
import { stopIn, type DepthSteps } from './starting-steps';
import type { Dive, Diver, Site, Trip } from '../document/types';
import type { Caution } from '../cautions/caution';

/** Minutes of room that the starting sheet leaves to everybody on every dive. Source: common practice. */
export const ROOM_LEFT_MIN = 5;

/**
 * As long as a dive is worth going less deep for, minutes: at one depth the first of a day is dived for its depth, and
 * may be shorter. Source: common practice.
 */
export const WANTED_MIN = 45;
export const WANTED_FLAT_FIRST_MIN = 30;

/** For the sake of more time a dive goes no less deep than to this share of the depth wished for: own choice. */
const LEAST_OF_DEPTH = 0.6;
const LEAST_OF_FIRST_DEPTH = 0.8;

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
  | 'flight-view'
  | 'next-dive'
  | 'locked'
  | 'way';

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
  /** Whether sites without levels are taken to rise. */
  readonly rising: boolean;
  readonly steps: DepthSteps;
  readonly depthUnit: 'm' | 'ft';
}

/** What of a dive a draft decides. */
type DraftedKey = 'depthM' | 'bottomMin' | 'legs' | 'mix' | 'safetyStop';

/** The dive that is wished for: where, when, and its deepest thinkable depth. */
export interface Wish {
  readonly id: string;
  readonly site: Site;
  readonly startsAt: WallTime;
  readonly depthM: number;
  readonly isFirstOfDay: boolean;
  /** Who dives it, where it is not the whole party, and whatever else a dive that is drafted again keeps. */
  readonly named: Omit<Dive, DraftedKey> | Pick<Dive, 'divers'>;
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
      /** What would not let it be deeper and last as long as is told; null at the depth wished for. */
      readonly depthHeld: (Held & { readonly underMin: number }) | null;
    }
  | { readonly fits: false; readonly held: Held; readonly depthM: number };

type Tried =
  | {
      readonly spareMin: number;
      readonly next: Held;
      readonly dive: Dive;
      readonly trip: Trip;
      readonly ledger: Ledger;
    }
  | { readonly held: Held; readonly over: Over | null };

/** Which level of a dive is too long for somebody, and by how much; the last one stands for the whole. */
interface Over {
  readonly level: number;
  readonly min: number;
}

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
  'flight-before-other-view': 'flight-view',
};

function key({ code, diverId, diveId }: Caution): string {
  return JSON.stringify([code, diverId, diveId]);
}

/** The cautions to stop or change, each by what tells it from the others. */
export function severeKeys(whole: Ledger): ReadonlySet<string> {
  return new Set(cautionsOf(whole).flatMap((each) => (each.severity === 'know' ? [] : [key(each)])));
}

/**
 * The first caution to stop or change that the dive brings, and everybody to whom it says the same. One of another
 * dive is one of a locked dive after it: all others are laid out before it.
 */
function cautioned(whole: Ledger, known: ReadonlySet<string>, diveId: string): Held | null {
  const fresh = cautionsOf(whole).filter((each) => each.severity !== 'know' && !known.has(key(each)));
  const [first] = fresh;
  if (!first) return null;
  if (first.diveId !== null && first.diveId !== diveId) return { by: 'locked', divers: [] };
  const by = LIMITS[first.code] ?? 'order';
  const ids = fresh.filter(({ code }) => code === first.code).map(({ diverId }) => diverId);
  const { party } = whole.trip;
  return { by, divers: ids.includes(null) ? party : party.filter(({ id }) => ids.includes(id)) };
}

/** How many minutes longer a diver could stay at a level, and which limit comes first. */
interface Spare {
  readonly min: number;
  readonly by: Limit;
  readonly diver: Diver;
  readonly level: number;
}

function sparesOf(trip: Trip, mine: readonly Entry[]): readonly Spare[] {
  return mine.flatMap((entry) => {
    const { diver, levels } = entry;
    const last = levels.length - 1;
    const earlier = levels.slice(0, last).flatMap(({ min, noStopMin }, level): readonly Spare[] => {
      return noStopMin === null
        ? []
        : [{ min: noStopMin - min - ROOM_LEFT_MIN, by: 'no-stop', diver, level }];
    });
    const { min, minLimit } = roomMinutes(trip, entry);
    if (min === null) return earlier;
    return [...earlier, { min: min - ROOM_LEFT_MIN, by: minLimit as Limit, diver, level: last }];
  });
}

/** A trip with one dive more, in order of start. */
export function withDive(trip: Trip, dive: Dive): Trip {
  const at = trip.dives.findIndex(({ startsAt }) => startsAt > dive.startsAt);
  return { ...trip, dives: trip.dives.toSpliced(at === -1 ? trip.dives.length : at, 0, dive) };
}

/** Whose oxygen of the day, at the lungs, passes what is advised for their number of diving days. */
function overAdvice(whole: Ledger, dive: Dive, divingDays: readonly number[]): readonly Diver[] {
  const date = dive.startsAt.slice(0, 10);
  return whole.divers
    .filter(({ earlier, entries }) => {
      const brought = earlier.map(({ startMin }) => dayNumber(startMin));
      const advised = esotAdvised(new Set([...divingDays, ...brought]).size);
      return entries.some((entry) => entry.dive.startsAt.startsWith(date) && entry.esot.day > advised);
    })
    .map(({ diver }) => diver);
}

/** Why a dive will not do, or by how many minutes it could be longer. */
function tried(fitting: Fitting, known: ReadonlySet<string>, dive: Dive, end: End): Tried {
  const trip = withDive(fitting.trip, dive);
  const whole = ledger(trip, fitting.ledger);
  const mine = whole.divers.flatMap(({ entries }): readonly Entry[] =>
    entries.filter((entry) => entry.dive === dive),
  );
  const without = mine.filter(({ isMade }) => !isMade).map(({ diver }) => diver);
  if (without.length > 0) return { held: { by: 'mix', divers: without }, over: null };

  const spares = sparesOf(trip, mine);
  const leastMin = Math.min(...spares.map(({ min }) => min));
  const tightest = spares.find(({ min }) => min === leastMin);
  const untilEndMin = end.byMin - Math.max(...mine.map(({ surfacesMin }) => surfacesMin));
  const isByEnd = tightest === undefined || untilEndMin < leastMin;
  const next: Held = isByEnd
    ? { by: end.for, divers: [] }
    : {
        by: tightest.by,
        divers: spares
          .filter(
            ({ min, by, level }) =>
              by === tightest.by && level === tightest.level && min < leastMin + ALIKE_MIN,
          )
          .map(({ diver }) => diver),
      };
  const spareMin = Math.min(leastMin, untilEndMin);
  if (spareMin < 0) {
    const level = isByEnd ? (dive.legs?.length ?? 1) - 1 : tightest.level;
    return { held: next, over: { level, min: -spareMin } };
  }
  const tired = overAdvice(whole, dive, fitting.divingDays);
  if (tired.length > 0) return { held: { by: 'esot', divers: tired }, over: null };
  const held = cautioned(whole, known, dive.id);
  return held ? { held, over: null } : { spareMin, next, dive, trip, ledger: whole };
}

/** The dive at one depth as long as it may be, what holds it there, and whether anything was long enough. */
interface AtDepth {
  readonly best: Extract<Tried, { dive: Dive }> | null;
  readonly held: Held | null;
}

function wholeSteps(min: number): number {
  return Math.floor(min / STEP_MIN) * STEP_MIN;
}

/**
 * The longest dive at these levels, of no less than a time. A level that is too long for somebody gives its minutes to
 * the last; where that is not enough, the whole is shortened.
 */
function longestAt(
  fitting: Fitting,
  known: ReadonlySet<string>,
  wish: Wish,
  { levels, leastMin }: { readonly levels: readonly TimedLevel[]; readonly leastMin: number },
  end: End,
): AtDepth {
  const around = surroundingsOf(fitting.trip);
  const last = levels.length - 1;
  const capsMin = levels.map(() => Infinity);
  let held: Held | null = null;
  let wholeMin = Math.max(leastMin, wholeSteps(fitting.longestMin));
  while (wholeMin >= leastMin) {
    const shape = timed(levels, wholeMin, capsMin, around);
    if (shape === null) {
      wholeMin -= STEP_MIN;
      continue;
    }
    const dive: Dive = {
      id: wish.id,
      siteId: wish.site.id,
      startsAt: wish.startsAt,
      ...shape,
      mix: 'auto',
      ...wish.named,
      ...stopIn(fitting.depthUnit, shape),
    };
    const outcome = tried(fitting, known, dive, end);
    if ('dive' in outcome) return { best: outcome, held };
    held = outcome.held;
    const { over } = outcome;
    if (over !== null && over.level < last) {
      capsMin[over.level] = dive.legs![over.level]!.min - Math.ceil(over.min);
    } else {
      // At one depth it is known by how much; with levels a shorter dive has shorter levels too.
      const overMin = (over?.min ?? 0) / (last === 0 ? 1 : 2);
      wholeMin -= Math.max(STEP_MIN, Math.ceil(overMin / STEP_MIN) * STEP_MIN);
    }
  }
  return { best: null, held };
}

/**
 * Fits a dive in: at the depth wished for, or less deep where it is long enough to be worth it, and as long as it can
 * be without taking anybody's room, oxygen or gas.
 * @param wish where and when, with the deepest thinkable depth @param end when everybody has surfaced
 * @returns the longest dive in steps of 5 min that draws no caution to stop or change, and what holds it; or
 *   why none does, at the shallowest depth that was tried
 * Source: limits as in the ledger and the cautions; the search is this project's.
 */
export function fitted(fitting: Fitting, wish: Wish, end: End): Fitted {
  const { steps, longestMin, rising } = fitting;
  const known = severeKeys(fitting.ledger);
  let fallback: Extract<Fitted, { fits: true }> | null = null;
  let depthHeld: (Held & { readonly underMin: number }) | null = null;
  let { depthM } = wish;
  for (;;) {
    const levels = levelsAt(wish.site, depthM, rising, steps);
    const isDeepDive = wish.isFirstOfDay && levels.length === 1;
    const wantedMin = Math.min(isDeepDive ? WANTED_FLAT_FIRST_MIN : WANTED_MIN, longestMin);
    const leastMin: number = fallback === null ? Math.min(SHORTEST_MIN, longestMin) : wantedMin;
    const { best, held } = longestAt(fitting, known, wish, { levels, leastMin }, end);
    const heldBy: Held = held ?? depthHeld ?? { by: 'way', divers: [] };
    if (best !== null) {
      const { dive, trip, ledger: whole } = best;
      const timeHeld = dive.bottomMin + STEP_MIN > longestMin ? null : held;
      const found: Extract<Fitted, { fits: true }> = {
        fits: true,
        dive,
        trip,
        ledger: whole,
        timeHeld,
        depthHeld,
      };
      // Where the hours end it, it is no longer for being less deep.
      if (dive.bottomMin >= wantedMin || held?.by === 'flight' || held?.by === 'next-dive') return found;
      fallback = found;
    }
    depthHeld = { ...heldBy, underMin: best === null ? leastMin : wantedMin };
    const floorM = wish.depthM * (isDeepDive ? LEAST_OF_FIRST_DEPTH : LEAST_OF_DEPTH);
    const shallowestM = fallback === null ? steps.shallowestM : Math.max(floorM, steps.shallowestM);
    const nextM = steps.shallower(depthM);
    if (nextM < shallowestM) return fallback ?? { fits: false, held: heldBy, depthM };
    depthM = nextM;
  }
}
