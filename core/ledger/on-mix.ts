/** What a dive does to nitrogen and oxygen carried into it, before anything of the diver's own comes in. */
import { cnsAfterInterval } from '../oxygen/cns';
import { DAY_MIN, dayPeak } from '../oxygen/cns-day';
import { sharedDoses, type KnownDoses, type OxygenDoses } from '../oxygen/doses';
import type { Leg, Profile, Surroundings } from '../profile';
import { tableStep, type TableReading, type TableStep } from '../tables/procedure';
import { applyMap, type AffineMap, type Lanes } from '../tissues/affine-map';
import { AIR_N2 } from '../tissues/compartments';
import { isSame } from '../same';
import { dayNumber, type WallMin } from '../words/calendar';
import { isSameAir, surfaceMap, type AtSurface } from './at-surface';
import type { NitrogenOutcome } from './nitrogen-outcome';
import type { Carry, DayDose, Entry, EntryLevel, Exposure } from './ledger-types';
import { tableDepthFsw } from './table-depth';

/** What of a carry a dive begins with, once the surface interval has passed. */
export type Brought = Pick<Carry, 'tensions' | 'cns'>;

/** Oxygen on every clock, as the entry has it, and the carry on surfacing. */
export interface OnMix extends Pick<Entry, 'cns' | 'otu' | 'esot' | 'after'> {
  readonly exposure: Exposure;
}

/** A profile as far as it matters here. */
export interface Course {
  readonly legs: readonly Leg[];
  /** Of all of them. */
  readonly runtimeMin: number;
  /** From surface to surface. */
  readonly whole: AffineMap;
}

/** What of a dive's plan is asked before it begins. */
export interface BeforeCourse {
  readonly profile: Pick<Profile, 'deepestM' | 'bottomMin'>;
  readonly around: Surroundings;
  readonly onMix: KnownOnMix;
}

/**
 * What was last reckoned of one profile, by oxygen fraction, newest first. Divers who come to a dive with the very same
 * carry leave it with the same one: a party that dives together on one mix is reckoned once, until something tells two
 * apart, and after that each of its groups once, in whatever order the divers stand.
 */
export type KnownOnMix = Map<number, BeforeDive[]>;

/** So many groups of a party are told apart on one dive and mix; of more, those least lately asked are reckoned again. */
const MOST_GROUPS = 4;

/** A dive from a carry, on one mix: what it begins with, and what it comes to where it is made as planned. */
export interface BeforeDive {
  readonly from: Carry;
  readonly startMin: WallMin;
  readonly surface: AtSurface;
  readonly brought: Brought;
  /** The table's step from there, which asks for the deepest point and the bottom time alone. */
  readonly table: TableStep;
  made: OnMix | null;
  nitrogen: SharedNitrogen | null;
}

/** The nitrogen of a dive, for divers with the same limits. */
export interface SharedNitrogen {
  readonly limits: Lanes;
  readonly gradientLow: number;
  readonly outcome: NitrogenOutcome;
  readonly levels: readonly EntryLevel[];
}

/** What of an earlier reckoning of the same dive by the same diver may still hold. */
export interface KnownBefore {
  readonly from: Carry;
  readonly after: Carry;
  readonly intervalMin: number | null;
  readonly table: TableReading | null;
  readonly exposure: Exposure | null;
  readonly cns: { readonly day: number | null };
}

/** Adds a dose to its day; days stay in order because dives do. */
function withDose(doses: readonly DayDose[], dose: DayDose): readonly DayDose[] {
  const last = doses[doses.length - 1];
  if (last?.day !== dose.day) return [...doses, dose];
  return doses.with(doses.length - 1, {
    day: dose.day,
    otu: last.otu + dose.otu,
    esot: last.esot + dose.esot,
  });
}

/** Exposures a dive may still share a 24 h window with, and its own. */
function withRecent(exposures: readonly Exposure[], current: Exposure): readonly Exposure[] {
  const sinceMin = current.startMin - DAY_MIN;
  const recent = exposures.filter(({ endMin }) => endMin > sinceMin);
  recent.push(current);
  return recent;
}

/**
 * The highest of the rolling clock during a dive: what is in its window all along is a sum, the rest is swept.
 * @param recent as `withRecent`
 */
function cnsDayPeak(recent: readonly Exposure[], current: Exposure): number | null {
  if (current.pieces === null) return null;
  let inside = 0;
  const leaving = [];
  for (let i = 0; i < recent.length - 1; i += 1) {
    const { startMin, pieces, dailyShare } = recent[i]!;
    if (pieces === null || dailyShare === null) return null;
    if (startMin >= current.endMin - DAY_MIN) inside += dailyShare;
    else for (const piece of pieces) leaving.push(piece);
  }
  return inside + dayPeak(leaving, current.pieces, current.startMin);
}

/** The very exposure of an earlier reckoning, where nothing of it has changed. */
function sameExposure(
  known: KnownBefore | null,
  startMin: WallMin,
  endMin: WallMin,
  pieces: Exposure['pieces'],
): Exposure | null {
  const exposure = known?.exposure ?? null;
  return exposure?.startMin === startMin && exposure.endMin === endMin && exposure.pieces === pieces
    ? exposure
    : null;
}

/** Whether all that shares a 24 h window with a dive is what it was: the same objects. */
function isSameDay(known: KnownBefore | null, recent: readonly Exposure[]): known is KnownBefore {
  if (known?.after.exposures.length !== recent.length) return false;
  return recent.every((each, i) => each === known.after.exposures[i]);
}

/** Surface time before a dive, minutes; null before a first one. */
export function surfaceIntervalMin({ exposures }: Carry, startMin: WallMin): number | null {
  const last = exposures[exposures.length - 1];
  return last === undefined ? null : startMin - last.endMin;
}

/**
 * Where a dive begins: the carry brought through the surface interval.
 * @param surface where the diver breathes meanwhile
 * Source: core/tissues/leg-map.ts; core/oxygen/cns.ts.
 */
export function broughtTo(carry: Carry, startMin: WallMin, surface: AtSurface): Brought {
  // A climb to altitude seeds the carry without a dive; at rest there is nothing to carry.
  const sinceMin = startMin - carry.atMin;
  if (sinceMin === Infinity) return { tensions: carry.tensions, cns: carry.cns };
  const givenOffMin = Math.max(0, sinceMin);
  const map = surfaceMap(surface, carry.atMin, carry.atMin + givenOffMin);
  return {
    tensions: applyMap(map, carry.tensions, AIR_N2),
    cns: carry.cns === null ? null : cnsAfterInterval(carry.cns, givenOffMin),
  };
}

/** The table's step, that of an earlier reckoning where it begins or ends as that did: the dive after it asks the same. */
function tableFrom(
  { profile, around }: BeforeCourse,
  from: Carry,
  startMin: WallMin,
  o2: number,
  known: KnownBefore | null,
): TableStep {
  const intervalMin = surfaceIntervalMin(from, startMin);
  const reading = known?.table ?? null;
  const state = known?.after.table ?? null;
  if (reading !== null && state !== null) {
    if (known!.from.table === from.table && known!.intervalMin === intervalMin) return { reading, state };
  }
  const step = tableStep(
    {
      depthFsw: tableDepthFsw(profile.deepestM, o2, around),
      bottomMin: profile.bottomMin,
      intervalMin,
    },
    from.table,
  );
  return state !== null && isSame(step.state, state) ? { reading: step.reading, state } : step;
}

/**
 * As `broughtTo`, asked once of those who come to a profile with the same carry.
 * @param known an earlier reckoning of it on the same mix
 * Source: as there.
 */
export function beforeDive(
  course: BeforeCourse,
  from: Carry,
  startMin: WallMin,
  o2: number,
  surface: AtSurface,
  known: KnownBefore | null,
): BeforeDive {
  let groups = course.onMix.get(o2);
  if (groups === undefined) course.onMix.set(o2, (groups = []));
  for (const group of groups) {
    const isOfThese = group.from === from && group.startMin === startMin;
    if (isOfThese && isSameAir(group.surface, surface)) return group;
  }
  const brought = broughtTo(from, startMin, surface);
  const table = tableFrom(course, from, startMin, o2, known);
  const before: BeforeDive = { from, startMin, surface, brought, table, made: null, nitrogen: null };
  groups.unshift(before);
  if (groups.length > MOST_GROUPS) groups.pop();
  return before;
}

/** As `madeOn` along the profile as planned, asked once as well. Source: as there. */
export function madeAsPlanned(
  before: BeforeDive,
  plan: Course & { readonly doses: KnownDoses },
  o2: number,
  known: KnownBefore | null,
): OnMix {
  return (before.made ??= madeOn(
    before,
    plan,
    o2,
    sharedDoses(plan.doses, plan.legs, o2, before.startMin),
    known,
  ));
}

/**
 * A dive from a carry to a carry.
 * @param course its legs and their map, required stops included @param taken what its oxygen comes to
 * @param known an earlier reckoning of it, whose clock is taken over where it still holds
 * Source: core/tissues and core/oxygen; CONVENTIONS, "The order of reckoning".
 */
export function madeOn(
  { from, startMin, brought, table }: BeforeDive,
  course: Course,
  o2: number,
  taken: OxygenDoses,
  known: KnownBefore | null,
): OnMix {
  const endMin = startMin + course.runtimeMin;
  const exposure = sameExposure(known, startMin, endMin, taken.pieces) ?? {
    startMin,
    endMin,
    pieces: taken.pieces,
    dailyShare: taken.dailyShare,
  };
  const recent = withRecent(from.exposures, exposure);
  const isKnownDay = isSameDay(known, recent);
  const doses = withDose(from.doses, { day: dayNumber(startMin), otu: taken.otu, esot: taken.esot });
  const today = doses[doses.length - 1]!;
  let tripOtu = 0;
  for (const dose of doses) tripOtu += dose.otu;
  const cns = brought.cns === null || taken.cns === null ? null : brought.cns + taken.cns;
  return {
    cns: { before: brought.cns, after: cns, day: isKnownDay ? known!.cns.day : cnsDayPeak(recent, exposure) },
    otu: { dive: taken.otu, day: today.otu, trip: tripOtu },
    esot: { dive: taken.esot, day: today.esot },
    exposure,
    after: {
      atMin: endMin,
      tensions: applyMap(course.whole, brought.tensions, 1 - o2),
      cns,
      doses,
      exposures: isKnownDay ? known!.after.exposures : recent,
      table: table.state,
      scrubberMin: from.scrubberMin,
    },
  };
}
