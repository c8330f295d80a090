import { isAbovePo2, po2Bar } from '../gas';
import { sharedDoses, type OxygenDoses } from '../oxygen/doses';
import { limitMin } from '../oxygen/limits';
import { fill, type FilledMap, type Lanes } from '../tissues/affine-map';
import { COMPARTMENT_COUNT, inspiredBar } from '../tissues/compartments';
import { effectiveDive, makesDive, type EffectiveDive } from '../document/as-dived';
import { loopOn } from '../document/loops';
import { diverOn } from '../document/gas-rate';
import { surroundingsAt } from '../document/waters';
import { dayNumber } from '../words/calendar';
import { divePlan, type DivePlan } from '../ledger/dive-plan';
import { surfaceLimits } from '../ledger/nitrogen-outcome';
import { spareAsPlannedL } from '../ledger/limits-kept';
import { mayBreathe, mixFor, mixO2 } from '../ledger/mix-choice';
import { startOf, type Start } from '../ledger/start';
import type { Dive, Diver, Mix, Trip } from '../document/types';
import { ambientBar } from '../water';
import { loopCylinders, neededPercents, type LoopCylinder } from './loop-cylinders';
import { mixOfShare, RICHEST_PERCENT } from './shares';
import { airOf, type OpenTrip } from './stocked-trip';
import { surroundingsOf } from '../profile';

/** Oxygen of air by its label, percent. Source: dry air, as AIR_O2. */
const AIR_PERCENT = 21;

/** Air, then each whole percent above it: the place in this list is how the search names a mix. */
export const CANDIDATE_COUNT = RICHEST_PERCENT - AIR_PERCENT + 1;

/** The candidate that a share is. @param percent whole, 21 to 40 */
export function candidateOf(percent: number): number {
  return percent - AIR_PERCENT;
}

/** A mix that no dive of a class may take. */
export const NO_MIX = -1;

/** One mix on one profile: what is the same for every diver, whatever they carry. */
interface FilledDive {
  readonly n2: number;
  readonly toArrival: FilledMap;
  readonly whole: FilledMap;
  /** From the surface through an earlier level and straight up. */
  readonly fromEarlierLevels: readonly FilledMap[];
  readonly inspiredN2Bar: number;
  /** Minutes to the whole of each limit at the last level; Infinity where nothing counts. */
  readonly singleLimitMin: number;
  readonly dailyLimitMin: number;
}

/** One mix for one diver on one dive: all but the carry. */
export interface Choice {
  readonly mix: Mix;
  readonly o2: number;
  readonly filled: FilledDive;
  /** Tension on leaving the last level from which a direct ascent just meets the limit, bar. */
  readonly levelLimits: Lanes;
  /** Room by gas on the planned legs, minutes. */
  readonly gasRoomMin: number;
  /** Working PO2, oxygen ceiling and depth limit are kept. */
  readonly keepsFixedLimits: boolean;
  /** What the planned legs add to the clocks. */
  readonly doses: OxygenDoses;
  /** Share of the daily limit the whole dive takes. */
  readonly dailyShare: number;
  /** The dive with required stops, by those; filled in as lists meet them, since stops are few and whole minutes. */
  readonly withStops: Map<string, DiveWithStops>;
}

/** A dive made with required stops: what then takes the place of the planned figures. */
export interface DiveWithStops {
  readonly whole: FilledMap;
  readonly runtimeMin: number;
  readonly doses: OxygenDoses;
  readonly dailyShare: number;
}

/** One dive of one diver. */
export interface DiverDive {
  readonly dive: Dive;
  /** Its place among the trip's dives. */
  readonly index: number;
  readonly effective: EffectiveDive;
  readonly plan: DivePlan;
  readonly startMin: number;
  readonly endMin: number;
  readonly day: number;
  readonly surfaceLimits: Lanes;
  readonly isOpen: boolean;
  /** Dives of one class may take the same mixes, so that a list gives them the same. */
  readonly classIndex: number;
  /** By candidate; null where the diver may not take it there. A kept dive has its own mix alone, at 0. */
  readonly choices: readonly (Choice | null)[];
}

/** What a list may do to a class of dives. */
export interface DiveClass {
  readonly isOpen: boolean;
  /** By candidate. */
  readonly allowed: readonly boolean[];
  readonly openDives: number;
}

/** One diver, ready to be folded with any list. */
export interface DiverTables {
  readonly diver: Diver;
  readonly start: Start;
  readonly dives: readonly DiverDive[];
  readonly classes: readonly DiveClass[];
  /** Whether any dive is made on a loop: then the ledger decides. */
  readonly hasLoops: boolean;
  /** What is filled for the open dives on a loop, the same on every list. */
  readonly loopFills: readonly Mix[];
  /** What they need of a list, whole percents. */
  readonly needsPercents: readonly number[];
}

/** A whole party, ready to be folded with any list. */
export interface FoldTables {
  readonly open: OpenTrip;
  /** Air first, then the shares from 22 % up. */
  readonly candidates: readonly Mix[];
  readonly divers: readonly DiverTables[];
}

class TableMaker {
  private readonly trip: Trip;
  private readonly open: OpenTrip;
  private readonly candidates: readonly Mix[];
  private readonly filledKnown = new Map<DivePlan, Map<number, FilledDive>>();
  private readonly limitsKnown = new Map<FilledDive, Map<Lanes, Lanes>>();

  constructor(open: OpenTrip, candidates: readonly Mix[]) {
    this.trip = open.trip;
    this.open = open;
    this.candidates = candidates;
  }

  private filled(plan: DivePlan, o2: number): FilledDive {
    let byO2 = this.filledKnown.get(plan);
    if (!byO2) this.filledKnown.set(plan, (byO2 = new Map()));
    let known = byO2.get(o2);
    if (!known) byO2.set(o2, (known = newFilledDive(plan, o2)));
    return known;
  }

  private levelLimits(plan: DivePlan, filled: FilledDive, limits: Lanes): Lanes {
    let byLimits = this.limitsKnown.get(filled);
    if (!byLimits) this.limitsKnown.set(filled, (byLimits = new Map()));
    let known = byLimits.get(limits);
    if (!known) {
      const { decay, uptake } = plan.directAscent;
      known = limits.map((limit, i) => (limit - filled.n2 * uptake[i]!) / decay[i]!);
      byLimits.set(limits, known);
    }
    return known;
  }

  private choice(effective: EffectiveDive, plan: DivePlan, diver: Diver, mix: Mix): Choice {
    const o2 = effective.analysedO2 ?? mixO2(mix);
    const filled = this.filled(plan, o2);
    const limits = surfaceLimits(plan.around.column, diver.gradient.high);
    const deepestPo2 = po2Bar(o2, ambientBar(plan.profile.deepestM, plan.around.column));
    const doses = sharedDoses(plan.doses, plan.legs, o2, effective.startMin);
    return {
      mix,
      o2,
      filled,
      levelLimits: this.levelLimits(plan, filled, limits),
      gasRoomMin:
        spareAsPlannedL(this.trip, { diver }, o2, plan) /
        (diver.surfaceRateLpm * plan.profile.lastLevel.toBar),
      keepsFixedLimits:
        !isAbovePo2(deepestPo2, diver.po2.working) &&
        plan.profile.deepestM <= diver.maxDepthM + 1e-9 &&
        o2 <= diver.maxO2 + 1e-9,
      doses,
      dailyShare: doses.dailyShare ?? Infinity,
      withStops: new Map(),
    };
  }

  diver(diver: Diver): DiverTables {
    const classes: { isOpen: boolean; allowed: readonly boolean[]; openDives: number }[] = [];
    const classKnown = new Map<string, number>();
    const dives: DiverDive[] = [];
    let hasLoops = false;
    const filled: LoopCylinder[] = [];
    this.trip.dives.forEach((dive, index) => {
      if (!makesDive(dive, diver.id)) return;
      const onLoop = loopOn(dive, diver);
      const isOnLoop = onLoop !== null;
      hasLoops ||= isOnLoop;
      if (isOnLoop && this.open.openIds.has(dive.id)) {
        filled.push(...loopCylinders(this.trip, onLoop, filled.length === 0));
      }
      // On a loop nothing is chosen.
      const isOpen = this.open.openIds.has(dive.id) && !isOnLoop;
      const effective = effectiveDive(dive, diver);
      const around = surroundingsAt(this.trip, dive);
      const plan = divePlan(effective.shape, around);
      const allowed = isOpen
        ? this.candidates.map((mix) => mayBreathe(mix, dive.depthM, diver, this.trip, around))
        : [];
      const key = isOpen ? allowed.map(Number).join('') : 'kept';
      let classIndex = classKnown.get(key);
      if (classIndex === undefined) {
        classKnown.set(key, (classIndex = classes.length));
        classes.push({ isOpen, allowed, openDives: 0 });
      }
      if (isOpen) classes[classIndex]!.openDives += 1;
      const mixes = isOpen
        ? this.candidates.map((mix, at) => (allowed[at] ? mix : null))
        : [isOnLoop ? null : (mixFor(dive, diver, this.trip, around) ?? effective.analysedMix)];
      dives.push({
        dive,
        index,
        effective,
        plan,
        startMin: effective.startMin,
        endMin: effective.startMin + plan.runtimeMin,
        day: dayNumber(effective.startMin),
        surfaceLimits: surfaceLimits(around.column, diver.gradient.high),
        isOpen,
        classIndex,
        choices: mixes.map(
          (mix) => mix && this.choice(effective, plan, diverOn(diver, effective.startMin), mix),
        ),
      });
    });
    const start = startOf(this.trip, diver, surroundingsOf(this.trip));
    return {
      diver,
      start,
      dives,
      classes,
      hasLoops,
      loopFills: filled.map(({ mix }) => mix),
      needsPercents: neededPercents(filled),
    };
  }
}

function newFilledDive(plan: DivePlan, o2: number): FilledDive {
  const n2 = 1 - o2;
  const lastBar = plan.profile.lastLevel.toBar;
  const lastPo2 = po2Bar(o2, lastBar);
  return {
    n2,
    toArrival: fill(plan.toArrival, n2),
    whole: fill(plan.whole, n2),
    fromEarlierLevels: [...plan.earlierLevels, ...plan.momentsUp].map(({ toSurface }) => fill(toSurface, n2)),
    inspiredN2Bar: n2 * inspiredBar(lastBar),
    singleLimitMin: limitMin(lastPo2, 'single') ?? Infinity,
    dailyLimitMin: limitMin(lastPo2, 'daily') ?? Infinity,
  };
}

/**
 * All that the search needs of a trip and does not depend on the list: maps and doses of each dive on each
 * candidate, computed once and shared by the divers.
 * @param open a trip opened by `openTrip`
 * @returns a table for each diver, in the order of the party
 * Source: the affine maps (tissues/affine-map.ts); each figure as in its module.
 */
export function foldTables(open: OpenTrip): FoldTables {
  const candidates = [airOf(open.trip.mixes)];
  for (let percent = AIR_PERCENT + 1; percent <= RICHEST_PERCENT; percent += 1) {
    candidates.push(mixOfShare(percent, open.trip.mixes));
  }
  const maker = new TableMaker(open, candidates);
  return { open, candidates, divers: open.trip.party.map((diver) => maker.diver(diver)) };
}

/**
 * The candidate that a list gives a class of dives: of air and the list the richest allowed, of two alike the
 * leaner label.
 * @param list candidates of the list, rising
 * @returns a candidate, or `NO_MIX`
 * Source: CONVENTIONS, "Which mix"; equals `mixFor` on the stocked trip.
 */
export function assigned(tables: FoldTables, diveClass: DiveClass, list: readonly number[]): number {
  let best = NO_MIX;
  let bestO2 = -1;
  for (let place = -1; place < list.length; place += 1) {
    const candidate = place === -1 ? 0 : list[place]!;
    if (!diveClass.allowed[candidate]) continue;
    const o2 = mixO2(tables.candidates[candidate]!);
    if (o2 > bestO2) {
      best = candidate;
      bestO2 = o2;
    }
  }
  return best;
}

/** Number of compartments, for loops over lanes. */
export const LANES = COMPARTMENT_COUNT;
