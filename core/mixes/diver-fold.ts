import type { ClockPiece } from '../oxygen/clock-pieces';
import { esotAdvised, otuAllowedToday } from '../oxygen/budgets';
import { cnsAfterInterval } from '../oxygen/cns';
import { DAY_MIN, dayPeak } from '../oxygen/cns-day';
import { oxygenDoses } from '../oxygen/doses';
import type { FilledMap } from '../tissues/affine-map';
import { fill } from '../tissues/affine-map';
import { AIR_N2, RATES_PER_MIN } from '../tissues/compartments';
import { intervalMap } from '../tissues/leg-map';
import { nitrogenOutcome } from '../trip/entry';
import type { Trip } from '../trip/types';
import {
  CANDIDATE_COUNT,
  dailyShareOf,
  gasRoom,
  LANES,
  NO_MIX,
  type Choice,
  type DiverDive,
  type DiverTables,
} from './fold-tables';
import { otuShare } from './outcome';

/** Bottom time and limit, and room and 0, may differ by this much before one counts as past the other. */
const SAME_MIN = 1e-9;

/** What folding one diver with one list comes to. */
export interface FoldOutcome {
  /** Places of the dives on which a limit is passed, among the trip's. */
  readonly outside: readonly number[];
  /** Infinity where nothing limits a dive. */
  readonly smallestRoomMin: number;
  readonly oxygenPeak: number;
}

/** A dive as the rolling clock sees it. */
interface Exposed {
  startMin: number;
  endMin: number;
  pieces: readonly ClockPiece[];
  share: number;
  /** Names the dive and its mix where it is made as planned; -1 where stops changed it. */
  code: number;
}

/**
 * Folds one diver over the trip with the mixes a list gives: the ledger's figures without the ledger, a few
 * multiply-adds a compartment and dive. Equal to `diverOutcome` of the ledger within rounding (held by a
 * property test); where it meets a case it has no quick answer for, it says so and the ledger decides.
 */
export class DiverFold {
  private readonly trip: Trip;
  private readonly tables: DiverTables;
  private readonly intervals: Map<number, FilledMap>;
  private readonly tensions = new Float64Array(LANES);
  private readonly exposed: Exposed[] = [];
  private readonly peaksKnown = new Map<number, number>();
  private readonly firstDay: number;

  /** @param intervals maps of surface intervals on air by their minutes, shared by a party */
  constructor(trip: Trip, tables: DiverTables, intervals: Map<number, FilledMap>) {
    this.trip = trip;
    this.tables = tables;
    this.intervals = intervals;
    this.firstDay = tables.start.doses[0]?.day ?? tables.dives[0]?.day ?? 0;
  }

  private rest(sinceMin: number, surfaceBar: number): void {
    if (sinceMin === Infinity) return;
    const min = Math.max(0, sinceMin);
    let map = this.intervals.get(min);
    if (!map) this.intervals.set(min, (map = fill(intervalMap(surfaceBar, min), AIR_N2)));
    const { tensions } = this;
    const { decay, gain } = map;
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
    return choice.filled.fromEarlierLevels.some(({ decay, gain }) => {
      for (let i = 0; i < LANES; i += 1) {
        if (decay[i]! * this.tensions[i]! + gain[i]! > dive.surfaceLimits[i]!) return true;
      }
      return false;
    });
  }

  /** The rolling clock's peak during the dive last exposed; null where the quick sum does not hold. */
  private dayPeak(): number {
    const { exposed } = this;
    const current = exposed[exposed.length - 1]!;
    if (current.pieces.length === 0) return 0;
    let inside = 0;
    let straddlers = 0;
    let key = current.code;
    for (let at = exposed.length - 2; at >= 0; at -= 1) {
      const earlier = exposed[at]!;
      if (earlier.endMin <= current.startMin - DAY_MIN) break;
      if (earlier.startMin >= current.endMin - DAY_MIN) inside += earlier.share;
      else {
        straddlers += 1;
        key = key < 0 || earlier.code < 0 ? -1 : key * this.codes() + earlier.code;
      }
    }
    if (straddlers === 0) return inside + current.share;
    const isKept = key >= 0 && straddlers <= 2;
    const known = isKept ? this.peaksKnown.get(key) : undefined;
    if (known !== undefined) return inside + known;
    const pieces = exposed
      .slice(0, -1)
      .filter(
        ({ startMin, endMin }) =>
          endMin > current.startMin - DAY_MIN && startMin < current.endMin - DAY_MIN,
      )
      .flatMap((each) => each.pieces);
    const peak = dayPeak(pieces, current.pieces);
    if (isKept) this.peaksKnown.set(key, peak);
    return inside + peak;
  }

  /** One more than any code of a planned exposure. */
  private codes(): number {
    return (this.tables.dives.length + 1) * CANDIDATE_COUNT;
  }

  /**
   * @param mixOfClass a candidate for each class of dives, or `NO_MIX`
   * @returns null where the ledger has to decide: an oxygen pressure above 1.6 bar, or a rolling clock that
   *   might limit the smallest room
   */
  fold(mixOfClass: readonly number[]): FoldOutcome | null {
    const { tables, trip, tensions, exposed } = this;
    const { start } = tables;
    if (start.cns === null || start.exposures.some((exposure) => exposure.pieces === null)) return null;
    tensions.set(start.tensions);
    let atMin = start.atMin;
    let cns = start.cns;
    exposed.length = 0;
    for (const { startMin, endMin, pieces } of start.exposures) {
      exposed.push({ startMin, endMin, pieces: pieces!, share: dailyShareOf({ pieces }), code: -1 });
    }
    const outside: number[] = [];
    let smallestRoomMin = Infinity;
    let soonestDayMin = Infinity;
    let oxygenPeak = 0;
    let otuTotal = start.doses.reduce((sum, dose) => sum + dose.otu, 0);
    let day = -1;
    let otuBefore = 0;
    let esotToday = 0;
    let esotMost = 0;
    let divingDays = 0;
    let isDivingDay = false;
    const lastStartDose = start.doses[start.doses.length - 1];
    // A day whose dose is carried in from dives before the trip counts that dose with its own.
    const carriedIn = (on: number) => (lastStartDose?.day === on ? lastStartDose : undefined);
    const closeDay = (): void => {
      if (day === -1) return;
      const allowed = otuAllowedToday(day - this.firstDay + 1, otuBefore);
      oxygenPeak = Math.max(oxygenPeak, otuShare(otuTotal - otuBefore, allowed));
      esotMost = Math.max(esotMost, esotToday);
      if (isDivingDay) divingDays += 1;
    };

    for (let at = 0; at < tables.dives.length; at += 1) {
      const dive = tables.dives[at]!;
      if (dive.day !== day) {
        closeDay();
        day = dive.day;
        otuBefore = otuTotal - (carriedIn(day)?.otu ?? 0);
        esotToday = carriedIn(day)?.esot ?? 0;
        isDivingDay = false;
      }
      const candidate = dive.isOpen ? mixOfClass[dive.classIndex]! : 0;
      const choice = candidate === NO_MIX ? null : dive.choices[candidate]!;
      if (choice === null) {
        outside.push(dive.index);
        continue;
      }
      const { filled } = choice;
      isDivingDay = true;
      const { plan } = dive;
      const sinceMin = dive.startMin - atMin;
      this.rest(sinceMin, plan.around.column.surfaceBar);
      if (sinceMin !== Infinity) cns = cnsAfterInterval(cns, Math.max(0, sinceMin));

      const noStopMin = this.noStopMin(dive, choice);
      let isWithin = choice.keepsFixedLimits && !this.isPastEarlierLevel(dive, choice);
      let roomMin = noStopMin - plan.profile.bottomMin;
      let gasRoomMin = choice.gasRoomMin;
      let { doses } = choice;
      let share = choice.dailyShare;
      let code = at * CANDIDATE_COUNT + candidate + 1;
      if (plan.profile.bottomMin > noStopMin + SAME_MIN) {
        isWithin = false;
        const made = nitrogenOutcome(plan, [...tensions], filled.n2, tables.diver);
        doses = oxygenDoses(made.legs, choice.o2, dive.startMin);
        share = dailyShareOf(doses);
        code = -1;
        atMin = dive.startMin + made.runtimeMin;
        gasRoomMin = gasRoom(trip, tables.diver, dive, choice.o2, made);
        const { decay, uptake } = made.whole;
        for (let i = 0; i < LANES; i += 1) tensions[i] = decay[i]! * tensions[i]! + filled.n2 * uptake[i]!;
      } else {
        atMin = dive.endMin;
        const { decay, gain } = filled.whole;
        for (let i = 0; i < LANES; i += 1) tensions[i] = decay[i]! * tensions[i]! + gain[i]!;
      }
      if (doses.cns === null || doses.pieces === null) return null;
      otuTotal += doses.otu;
      esotToday += doses.esot;
      exposed.push({ startMin: dive.startMin, endMin: atMin, pieces: doses.pieces, share, code });
      cns += doses.cns;
      const cnsDay = this.dayPeak();
      oxygenPeak = Math.max(oxygenPeak, cns, cnsDay);
      if (filled.singleLimitMin !== Infinity) roomMin = Math.min(roomMin, (1 - cns) * filled.singleLimitMin);
      roomMin = Math.min(roomMin, gasRoomMin);
      if (filled.dailyLimitMin !== Infinity) {
        const dayMin = (1 - cnsDay) * filled.dailyLimitMin;
        if (dayMin < 0) roomMin = Math.min(roomMin, dayMin);
        else if (dayMin < roomMin) soonestDayMin = Math.min(soonestDayMin, dayMin);
      }
      if (!isWithin || roomMin < -SAME_MIN) outside.push(dive.index);
      smallestRoomMin = Math.min(smallestRoomMin, roomMin);
    }
    closeDay();
    // The rolling clock limits the room of some dive; whether it limits the smallest takes a root to know.
    if (soonestDayMin < smallestRoomMin) return null;
    oxygenPeak = Math.max(oxygenPeak, esotMost / esotAdvised(Math.max(1, divingDays)));
    return { outside, smallestRoomMin, oxygenPeak };
  }
}
