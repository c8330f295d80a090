/**
 * One dive ahead and all its ways of being made, as numbers.
 *
 * Nitrogen above equilibrium with air at the surface, "excess", falls by e^-kt wherever a diver is, so what a dive adds
 * to it does not depend on what was there. Carried to one moment by e^k(t - moment), excess is a plain sum over the
 * dives: a dive is a translation by its gain, and "may I ascend directly" one upper bound a compartment.
 */
import { effectiveDive } from '../../document/as-dived';
import { diverOn } from '../../document/gas-rate';
import { loopOn } from '../../document/loops';
import type { Dive, Diver, Id, Trip } from '../../document/types';
import { surroundingsAt } from '../../document/waters';
import { longer } from '../../ledger/changed-dive';
import { divePlan, newDivePlan, type DivePlan } from '../../ledger/dive-plan';
import { surfaceLimits } from '../../ledger/nitrogen-outcome';
import { waysUp, waysUpAndAsPlanned } from '../../ledger/limits-kept';
import { mixFor, mixO2 } from '../../ledger/mix-choice';
import { tableDepthFsw } from '../../ledger/table-depth';
import { otu } from '../../oxygen/otu';
import { levelsOf, surroundingsOf, type Surroundings } from '../../profile';
import type { AffineMap, Lanes } from '../../tissues/affine-map';
import { AIR_N2, inspiredBar, RATES_PER_MIN } from '../../tissues/compartments';
import { dayNumber, wallMin, type WallMin } from '../../words/calendar';
import { otherMixes, placesOn, reachOn, shapedDive, type DiveReach } from './carried-out';
import { clocksOf, gainOf, highestOf, type Filled, type Made } from './filled';
import { priceOfPoints, type MoveCosts, type Treatment } from './moves';
import { loopIn, madeOnLoop, type Loop } from './on-loop';
import { keepsGasRoom, keepsOwnLimits } from './own-limits';
import type { Rules } from './holding';
import type { MendRequest } from './request';

/** In place of an oxygen fraction where no mix of the dive is breathed. */
const NO_MIX = -1;

/** A shape and a mix, without start and divers left out. */
export interface Way {
  readonly shallower: number;
  readonly level: number;
  readonly shorter: number;
  readonly mix: Id | null;
  readonly points: number;
  /** The dive as planned and untouched: no room is asked of it, it starts as planned and leaves nobody out. */
  readonly isKept: boolean;
  /** By place in the party; null for who does not make the dive, or for whom it passes a limit of its own. */
  readonly made: readonly (Made | null)[];
  /** Those on the dive for whom it does. */
  readonly barred: readonly number[];
}

/** A shape with the ways up on which its no-stop limit counts, and what is known of it by mix and diver. */
interface Shape {
  readonly dive: Dive;
  readonly plan: DivePlan;
  readonly waysUp: readonly AffineMap[];
  /** Longer by the room asked for; null where none is. */
  readonly longerPlan: DivePlan | null;
  readonly longerWaysUp: readonly AffineMap[];
  readonly filled: Map<number, Filled>;
  readonly highest: Map<string, Lanes>;
  readonly made: Map<string, Made | null>;
}

export class DiveWays {
  readonly startMin: WallMin;
  readonly day: number;
  /** Places in the party of who makes the dive. */
  readonly divers: readonly number[];
  readonly reach: DiveReach;
  /** e^(k t) a compartment, by steps later. */
  readonly shift: readonly Lanes[];
  /** More points than any treatment of the dive costs. */
  readonly mostPoints: number;
  private readonly around: Surroundings;
  /** What tensions rest at where the party stays, bar: excess is above it, whatever water is dived. */
  private readonly airBar: number;
  private readonly mixes: readonly (Id | null)[];
  private readonly analysedO2: readonly (number | null)[];
  /** By place in the party; null on open circuit. */
  readonly loops: readonly (Loop | null)[];
  private readonly shapes = new Map<string, Shape | null>();
  private ways: readonly Way[] = [];
  private waysUpTo = -1;

  constructor(
    private readonly trip: Trip,
    readonly dive: Dive,
    private readonly request: MendRequest,
    private readonly rules: Pick<Rules, 'entersMin' | 'isFlightTooSoonAfter'>,
  ) {
    const { steps, costs } = request;
    this.startMin = wallMin(dive.startsAt);
    this.day = dayNumber(this.startMin);
    this.divers = placesOn(trip, dive);
    this.reach = reachOn(trip, dive, steps, request.reach);
    this.around = surroundingsAt(trip, dive);
    this.airBar = AIR_N2 * inspiredBar(surroundingsOf(trip).column.surfaceBar);
    this.mixes = [null, ...(this.reach.mix ? otherMixes(trip, dive) : [])];
    this.analysedO2 = trip.party.map((diver) => effectiveDive(dive, diver).analysedO2);
    this.loops = trip.party.map((diver) => {
      const onLoop = loopOn(dive, diver);
      return onLoop && loopIn(trip, dive, onLoop);
    });
    this.shift = Array.from({ length: this.reach.later + 1 }, (_, step) =>
      RATES_PER_MIN.map((k) => Math.exp(k * step * steps.laterMin)),
    );
    const { later, shallower, shorter, mix, leaveOut, drop } = this.reach;
    const made =
      later * costs.later +
      shallower * costs.shallower +
      shorter * costs.shorter +
      (mix ? costs.mix : 0) +
      (leaveOut ? this.divers.length * costs.leaveOut : 0);
    this.mostPoints = 1 + Math.max(made, drop ? costs.drop : 0);
  }

  /** Whether the scrubber of a diver's loop is packed afresh before the dive. */
  isPackedFor(place: number): boolean {
    return this.divers.includes(place) && (this.loops[place]?.isFresh ?? false);
  }

  /**
   * More than a diver's loop can take from excess in any way of the dive, as at its planned start, bar: no nitrogen
   * breathed for as long as planned, as late as can be. None on open circuit.
   */
  mostTaken(place: number): Lanes {
    if (this.loops[place] === null || !this.divers.includes(place)) return RATES_PER_MIN.map(() => 0);
    const { runtimeMin } = this.shape(0, 0, 0)!.plan;
    const latest = this.shift[this.reach.later]!;
    return RATES_PER_MIN.map((k, i) => this.airBar * Math.expm1(k * runtimeMin) * latest[i]!);
  }

  startAfter(later: number): WallMin {
    return this.startMin + later * this.request.steps.laterMin;
  }

  /** Every way of at most so many points, cheapest first, the dive as planned before all; made as far as asked for. */
  waysWithin(most: number): readonly Way[] {
    if (most <= this.waysUpTo) return this.ways;
    const { costs } = this.request;
    const levels = levelsOf(this.dive).length;
    const made: (Way | null)[] = [this.way(0, 0, 0, null, 0, true)];
    for (const mix of this.mixes) {
      for (let shallower = 0; shallower <= this.reach.shallower; shallower += 1) {
        for (let shorter = 0; shorter <= this.reach.shorter; shorter += 1) {
          const points =
            shallower * costs.shallower + shorter * costs.shorter + (mix === null ? 0 : costs.mix);
          if (points > most) break;
          for (let level = 0; level < (shorter === 0 ? 1 : levels); level += 1) {
            made.push(this.way(shallower, level, shorter, mix, points, false));
          }
        }
      }
    }
    this.ways = made.filter((way) => way !== null).toSorted((a, b) => a.points - b.points);
    this.waysUpTo = most;
    return this.ways;
  }

  private shape(shallower: number, level: number, shorter: number): Shape | null {
    const key = `${shallower} ${level} ${shorter}`;
    let shape = this.shapes.get(key);
    if (shape !== undefined) return shape;
    const { steps } = this.request;
    const byM = shallower * steps.shallowerM;
    const dive = shapedDive(this.dive, byM, level, shorter * steps.shorterMin, this.around);
    shape = dive && this.newShape(dive);
    this.shapes.set(key, shape);
    return shape;
  }

  private newShape(dive: Dive): Shape {
    const { leastRoomMin } = this.request;
    const plan = divePlan(dive, this.around);
    const longerPlan = leastRoomMin === 0 ? null : newDivePlan(longer(dive, leastRoomMin), this.around);
    return {
      dive,
      plan,
      waysUp: waysUpAndAsPlanned(plan),
      longerPlan,
      longerWaysUp: longerPlan === null ? [] : waysUp(longerPlan),
      filled: new Map(),
      highest: new Map(),
      made: new Map(),
    };
  }

  private way(
    shallower: number,
    level: number,
    shorter: number,
    mix: Id | null,
    points: number,
    isKept: boolean,
  ): Way | null {
    const shape = this.shape(shallower, level, shorter);
    if (shape === null) return null;
    const named = mix === null ? shape.dive : { ...shape.dive, mix };
    const made: (Made | null)[] = this.trip.party.map(() => null);
    const barred: number[] = [];
    for (const place of this.divers) {
      // On a loop the dive's mix is not breathed.
      const o2 = this.loops[place] === null ? this.breathedO2(named, place) : NO_MIX;
      made[place] = o2 === null ? null : this.madeBy(shape, place, o2, isKept);
      if (made[place] === null) barred.push(place);
    }
    return { shallower, level, shorter, mix, points, isKept, made, barred };
  }

  /** What a diver breathes; null where no mix can be used there. */
  private breathedO2(named: Dive, place: number): number | null {
    const analysed = this.analysedO2[place]!;
    if (analysed !== null) return analysed;
    const mix = mixFor(named, this.trip.party[place]!, this.trip, this.around);
    return mix && mixO2(mix);
  }

  /** null where the dive passes a limit of its own for the diver, or leaves less gas than the room asked for takes. */
  private madeBy(shape: Shape, place: number, o2: number, isKept: boolean): Made | null {
    const longerPlan = isKept ? null : shape.longerPlan;
    const key = `${longerPlan !== null} ${o2} ${place}`;
    let made = shape.made.get(key);
    if (made !== undefined) return made;
    const { trip } = this;
    const entersMin = this.rules.entersMin(place, this.startMin);
    // No move takes anybody's entry to another day, and a gas rate holds for days.
    const diver = diverOn(trip.party[place]!, entersMin);
    const loop = this.loops[place]!;
    const isTooLate = this.rules.isFlightTooSoonAfter(place, entersMin + shape.plan.runtimeMin);
    if (isTooLate) made = null;
    else if (loop === null) made = this.madeOnMix(shape, o2, diver, longerPlan);
    else
      made = madeOnLoop(trip, shape.dive, diver, loop, isKept ? 0 : this.request.leastRoomMin, this.airBar);
    shape.made.set(key, made);
    return made;
  }

  private madeOnMix(shape: Shape, o2: number, diver: Diver, longerPlan: DivePlan | null): Made | null {
    const { trip } = this;
    const isWithin =
      keepsOwnLimits(trip, shape.dive, diver, o2, shape.plan) &&
      (longerPlan === null || keepsGasRoom(trip, diver, o2, longerPlan));
    if (!isWithin) return null;
    const highest = this.highest(shape, o2, diver, longerPlan !== null);
    return { filled: this.filled(shape, o2), highest, loop: null };
  }

  private filled({ dive, plan, longerPlan, filled: known }: Shape, o2: number): Filled {
    let filled = known.get(o2);
    if (filled !== undefined) return filled;
    filled = {
      depthM: plan.profile.deepestM,
      depthFsw: tableDepthFsw(plan.profile.deepestM, o2, this.around),
      bottomMin: dive.bottomMin,
      runMin: plan.runtimeMin,
      gain: gainOf(plan, 1 - o2, this.airBar),
      otu: otu(plan.legs, o2),
      ...clocksOf({ legs: plan.legs, o2 }),
      longer: longerPlan && clocksOf({ legs: longerPlan.legs, o2 }),
    };
    known.set(o2, filled);
    return filled;
  }

  private highest(shape: Shape, o2: number, { gradient }: Diver, isLonger: boolean): Lanes {
    const key = `${isLonger} ${o2} ${gradient.high}`;
    let highest = shape.highest.get(key);
    if (highest !== undefined) return highest;
    const ups = isLonger ? [...shape.waysUp, ...shape.longerWaysUp] : shape.waysUp;
    highest = highestOf(ups, 1 - o2, surfaceLimits(this.around.column, gradient.high), this.airBar);
    shape.highest.set(key, highest);
    return highest;
  }

  treatment({ shallower, level, shorter, mix }: Way, later: number, leftOut: readonly number[]): Treatment {
    return { isDropped: false, later, shallower, level, shorter, mix, leftOut };
  }

  /** Points of leaving out who cannot make a way anyhow; Infinity where that may not be. */
  pointsWithBarred({ points, barred, isKept }: Way, { leaveOut }: MoveCosts): number {
    if (barred.length === 0) return points;
    const remain = this.divers.length - barred.length;
    const may = !isKept && this.reach.leaveOut && remain >= this.reach.fewestDivers;
    return may ? points + barred.length * leaveOut : Infinity;
  }

  /** The least price of the dive in any plan, by the limits of its own alone. @param most points that are looked at */
  leastPrice(most: number): number {
    const { costs } = this.request;
    let least = this.reach.drop ? costs.drop : Infinity;
    if (most < this.mostPoints) least = Math.min(least, most + 1);
    for (const way of this.waysWithin(most)) least = Math.min(least, this.pointsWithBarred(way, costs));
    return priceOfPoints(least);
  }
}
