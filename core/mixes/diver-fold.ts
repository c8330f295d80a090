import { stagedAscent } from '../ascent/staged-ascent';
import { oxygenDoses } from '../oxygen/doses';
import { applyMap, fill, type FilledMap } from '../tissues/affine-map';
import { AIR_N2, RATES_PER_MIN } from '../tissues/compartments';
import { intervalMap } from '../tissues/leg-map';
import { surfaceMap, type AtSurface } from '../ledger/at-surface';
import { nitrogenOutcome } from '../ledger/nitrogen-outcome';
import {
  LANES,
  NO_MIX,
  type Choice,
  type DiveWithStops,
  type DiverDive,
  type DiverTables,
} from './fold-tables';
import { NO_LIMIT_MET, smallerRoom, type SmallestRoom } from './outcome';
import { OxygenTally, type PeakTables } from './oxygen-tally';
import type { RoomLimit } from '../ledger/ledger-types';

/** Bottom time and limit, and room and 0, may differ by this much before one counts as past the other. */
const SAME_MIN = 1e-9;

/** What folding one diver with one list comes to. */
export interface FoldOutcome {
  /** Places of the dives on which a limit is passed, among the trip's. */
  readonly outside: readonly number[];
  readonly smallest: SmallestRoom;
  /** As in `DiverOutcome`. */
  readonly nitrogenRooms: Float64Array;
  readonly oxygenPeak: number;
}

/**
 * Folds one diver over the trip with the mixes a list gives: the ledger's figures without the ledger, a few
 * multiply-adds a compartment and dive. Equal to `diverOutcome` of the ledger within rounding (held by a
 * property test); where it meets a case it has no quick answer for, it says so and the ledger decides.
 */
export class DiverFold {
  private readonly tables: DiverTables;
  private readonly intervals: Map<number, FilledMap>;
  private readonly tensions = new Float64Array(LANES);
  private readonly oxygen: OxygenTally;
  private readonly isStartKnown: boolean;
  /** When the diver surfaced last. */
  private atMin = 0;

  /**
   * @param surface where the party breathes between dives @param intervals maps of surface intervals on air by their minutes @param peaks of the rolling clock; both
   *   are kept here and shared by a party
   */
  constructor(
    tables: DiverTables,
    private readonly surface: AtSurface,
    intervals: Map<number, FilledMap>,
    peaks: PeakTables,
  ) {
    const { start } = tables;
    const { cns, exposures } = start.carry;
    this.tables = tables;
    this.intervals = intervals;
    this.oxygen = new OxygenTally(start, peaks);
    this.isStartKnown = cns !== null && exposures.every((exposure) => exposure.pieces !== null);
  }

  private rest(dive: DiverDive): void {
    const sinceMin = dive.startMin - this.atMin;
    if (sinceMin === Infinity) return;
    const min = Math.max(0, sinceMin);
    this.through(this.interval(min));
    this.oxygen.rest(min);
  }

  /** The map of an interval from the last surfacing on; at one height those of the same minutes are the same. */
  private interval(min: number): FilledMap {
    const { surface, atMin } = this;
    if (surface.stays.length > 0) return fill(surfaceMap(surface, atMin, atMin + min), AIR_N2);
    let map = this.intervals.get(min);
    if (!map) this.intervals.set(min, (map = fill(intervalMap(surface.homeBar, min), AIR_N2)));
    return map;
  }

  private through({ decay, gain }: FilledMap): void {
    const { tensions } = this;
    for (let i = 0; i < LANES; i += 1) tensions[i] = decay[i]! * tensions[i]! + gain[i]!;
  }

  /** The no-stop limit as `noStopLimitMin`, from the tables. */
  private noStopMin(dive: DiverDive, choice: Choice): number {
    const { tensions } = this;
    const { decay, gain } = choice.filled.toArrival;
    const { inspiredN2Bar } = choice.filled;
    const { levelLimits } = choice;
    let shortest = Infinity;
    for (let i = 0; i < LANES; i += 1) {
      const limit = levelLimits[i]!;
      const tension = decay[i]! * tensions[i]! + gain[i]!;
      if (tension > limit) return 0;
      if (inspiredN2Bar > limit) {
        const min = Math.log1p((limit - tension) / (inspiredN2Bar - limit)) / RATES_PER_MIN[i]!;
        if (min < shortest) shortest = min;
      }
    }
    return dive.plan.arrivalMin + shortest;
  }

  private isPastEarlierLevel(dive: DiverDive, choice: Choice): boolean {
    for (const { decay, gain } of choice.filled.fromEarlierLevels) {
      for (let i = 0; i < LANES; i += 1) {
        if (decay[i]! * this.tensions[i]! + gain[i]! > dive.surfaceLimits[i]!) return true;
      }
    }
    return false;
  }

  /** The dive with the stops its passed limit costs from the tensions as they are. */
  private withStops(dive: DiverDive, { filled, o2, withStops }: Choice): DiveWithStops {
    const { plan } = dive;
    const { diver } = this.tables;
    const before = [...this.tensions];
    const leaving = applyMap(plan.toLeaving, before, filled.n2);
    const stops = stagedAscent(leaving, plan.profile.lastLevel.toM, filled.n2, diver.gradient, plan.around);
    const key = stops === null ? 'none' : stops.map(({ depthM, min }) => `${depthM} ${min}`).join();
    let known = withStops.get(key);
    if (!known) {
      const made = nitrogenOutcome(plan, before, filled.n2, diver);
      const doses = oxygenDoses(made.legs, o2, dive.startMin);
      known = {
        whole: fill(made.whole, filled.n2),
        runtimeMin: made.runtimeMin,
        doses,
        dailyShare: doses.dailyShare ?? Infinity,
      };
      withStops.set(key, known);
    }
    return known;
  }

  /** Makes a dive as planned, or with the stops a passed limit costs; false where the ledger has to decide. */
  private make(dive: DiverDive, candidate: number, choice: Choice, isOver: boolean): boolean {
    const made = isOver ? this.withStops(dive, choice) : null;
    const { doses, dailyShare } = made ?? choice;
    this.atMin = made === null ? dive.endMin : dive.startMin + made.runtimeMin;
    this.through(made === null ? choice.filled.whole : made.whole);
    if (doses.cns === null || doses.pieces === null) return false;
    const planned = isOver || !dive.isOpen ? null : dive.effective;
    this.oxygen.add(doses, dailyShare, dive.startMin, this.atMin, planned, candidate);
    return true;
  }

  /**
   * @param mixOfClass a candidate for each class of dives, or `NO_MIX` @param dives there are in the trip
   * @returns null where the ledger has to decide: a dive on a loop, an oxygen pressure above 1.6 bar, or a rolling clock that
   *   might limit the smallest room
   */
  fold(mixOfClass: readonly number[], dives: number): FoldOutcome | null {
    if (!this.isStartKnown || this.tables.hasLoops) return null;
    const { tables, oxygen } = this;
    this.tensions.set(tables.start.carry.tensions);
    this.atMin = tables.start.carry.atMin;
    oxygen.reset();
    const outside: number[] = [];
    const nitrogenRooms = new Float64Array(dives).fill(Infinity);
    let smallest = NO_LIMIT_MET;
    let soonestDayMin = Infinity;
    for (const dive of tables.dives) {
      oxygen.enterDay(dive.day);
      const candidate = dive.isOpen ? mixOfClass[dive.classIndex]! : 0;
      const choice = candidate === NO_MIX ? null : dive.choices[candidate]!;
      if (choice === null) {
        outside.push(dive.index);
        if (dive.isOpen) nitrogenRooms[dive.index] = -Infinity;
        continue;
      }
      this.rest(dive);
      const noStopMin = this.noStopMin(dive, choice);
      const { bottomMin } = dive.plan.profile;
      const isOver = bottomMin > noStopMin + SAME_MIN;
      const isPastLevel = this.isPastEarlierLevel(dive, choice);
      const isWithin = !isOver && choice.keepsFixedLimits && !isPastLevel;
      // Room is that of the dive as planned: one that is short enough makes no stops, and takes no oxygen at them.
      const cnsAfter = oxygen.cns + (choice.doses.cns ?? 0);
      if (!this.make(dive, candidate, choice, isOver)) return null;

      const { singleLimitMin, dailyLimitMin } = choice.filled;
      const shortestMin = -dive.plan.profile.lastLevel.min;
      const nitrogenMin = noStopMin - bottomMin;
      if (dive.isOpen) {
        nitrogenRooms[dive.index] = isPastLevel || nitrogenMin < shortestMin ? -Infinity : nitrogenMin;
      }
      const cnsMin =
        singleLimitMin !== Infinity ? (1 - cnsAfter) * singleLimitMin : cnsAfter > 1 ? -Infinity : Infinity;
      let roomMin = nitrogenMin;
      let limit: RoomLimit = 'no-stop';
      if (!isPastLevel && cnsMin < roomMin) [roomMin, limit] = [cnsMin, 'cns'];
      if (!isPastLevel && choice.gasRoomMin < roomMin) [roomMin, limit] = [choice.gasRoomMin, 'gas'];
      if (isPastLevel || roomMin < shortestMin) roomMin = -Infinity;
      const cnsDay = oxygen.dayPeak(roomMin, dailyLimitMin);
      const dayLeftMin = (1 - cnsDay) * dailyLimitMin;
      if (!isWithin || dayLeftMin < -SAME_MIN || roomMin < -SAME_MIN) outside.push(dive.index);
      smallest = smallerRoom(smallest, { min: roomMin, diveIndex: dive.index, limit });
      // The least that the rolling clock can leave: by its peak while that is inside the limit; else by all that the
      // dive as planned may share a window with at once, which falls by 1/limit for each minute taken off.
      const leastMin =
        !isOver && dayLeftMin >= 0
          ? dayLeftMin
          : (1 - oxygen.othersInDay - choice.dailyShare) * dailyLimitMin;
      if (leastMin < roomMin) {
        const isGone = leastMin < shortestMin;
        soonestDayMin = Math.min(soonestDayMin, isGone ? -Infinity : leastMin);
      }
    }
    // The rolling clock may limit the room of some dive; whether it limits the smallest takes a root to know.
    if (soonestDayMin < smallest.min) return null;
    return { outside, smallest, nitrogenRooms, oxygenPeak: oxygen.finished() };
  }
}
