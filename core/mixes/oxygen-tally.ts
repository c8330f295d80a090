import { esotAdvised, otuAllowedToday } from '../oxygen/budgets';
import type { ClockPiece } from '../oxygen/clock-pieces';
import { cnsAfterInterval } from '../oxygen/cns';
import { DAY_MIN, dayPeak } from '../oxygen/cns-day';
import type { OxygenDoses } from '../oxygen/doses';
import type { EffectiveDive } from '../document/as-dived';
import { dayNumber } from '../words/calendar';
import type { Carry } from '../ledger/ledger-types';
import type { Start } from '../ledger/start';
import { CANDIDATE_COUNT } from './fold-tables';
import { otuShare } from './outcome';

/** A dive as the rolling clock sees it; the objects are used again from fold to fold. */
interface Exposed {
  startMin: number;
  endMin: number;
  pieces: readonly ClockPiece[];
  share: number;
  /** The dive it is of, where it is open and made as planned, with its candidate mix; else null. */
  planned: EffectiveDive | null;
  mix: number;
}

/** Peaks of one planned dive beside one planned dive of the day before, by their mixes. */
interface PeakTable {
  readonly straddler: EffectiveDive;
  readonly peaks: Float64Array;
}

/** Peak tables by the later dive; divers on the same dives share them. */
export type PeakTables = Map<EffectiveDive, PeakTable>;

/** The oxygen clocks of one diver while a list is folded: figures as the ledger's, without its objects. */
export class OxygenTally {
  /** Single-exposure clock; null where unknowable, which the fold leaves to the ledger. */
  cns = 0;
  /** Highest share on any clock so far. */
  peak = 0;
  /** What the 24 h windows of the dive asked about last may hold of the dives before, all of it at once. */
  othersInDay = 0;
  private readonly start: Carry;
  /** Days of the dives brought along. */
  private readonly broughtDays: ReadonlySet<number>;
  /** Day that allowances count from: the first on which a dive is made; Infinity until there is one. */
  private firstDay = Infinity;
  private readonly exposed: Exposed[] = [];
  private readonly startCount: number;
  private readonly startOtu: number;
  private count = 0;
  private readonly tables: PeakTables;
  private otuTotal = 0;
  private day = -1;
  private otuBefore = 0;
  private esotToday = 0;
  private esotMost = 0;
  private divingDays = 0;
  private isDivingDay = false;

  /** @param start whose clocks are all known */
  constructor({ earlier, carry }: Start, tables: PeakTables) {
    this.start = carry;
    this.tables = tables;
    this.broughtDays = new Set(earlier.map(({ startMin }) => dayNumber(startMin)));
    for (const { startMin, endMin, pieces, dailyShare } of carry.exposures) {
      const share = dailyShare ?? Infinity;
      this.exposed.push({ startMin, endMin, pieces: pieces ?? [], share, planned: null, mix: -1 });
    }
    this.startCount = this.exposed.length;
    this.startOtu = carry.doses.reduce((sum, dose) => sum + dose.otu, 0);
  }

  /** Back to what the diver brings along. */
  reset(): void {
    this.cns = this.start.cns ?? 0;
    this.peak = 0;
    this.count = this.startCount;
    this.otuTotal = this.startOtu;
    this.day = -1;
    this.esotMost = 0;
    this.firstDay = this.start.doses[0]?.day ?? Infinity;
    this.divingDays = this.broughtDays.size;
  }

  /** Begins the day of a dive, whether or not it is made. */
  enterDay(day: number): void {
    if (day === this.day) return;
    this.closeDay();
    this.day = day;
    // A dose carried in from a dive before the trip counts with those of its day.
    const last = this.start.doses[this.start.doses.length - 1];
    const carriedIn = last?.day === day ? last : undefined;
    this.otuBefore = this.otuTotal - (carriedIn?.otu ?? 0);
    this.esotToday = carriedIn?.esot ?? 0;
    this.isDivingDay = false;
  }

  private closeDay(): void {
    if (this.day === -1) return;
    const allowed = otuAllowedToday(Math.max(1, this.day - this.firstDay + 1), this.otuBefore);
    this.peak = Math.max(this.peak, otuShare(this.otuTotal - this.otuBefore, allowed));
    this.esotMost = Math.max(this.esotMost, this.esotToday);
    if (this.isDivingDay && !this.broughtDays.has(this.day)) this.divingDays += 1;
  }

  rest(min: number): void {
    this.cns = cnsAfterInterval(this.cns, min);
  }

  /**
   * Adds a dive to the clocks.
   * @param doses all known @param planned the dive, where it is open and no stops changed it
   * @param mix candidate it is made on
   */
  add(
    doses: OxygenDoses,
    share: number,
    startMin: number,
    endMin: number,
    planned: EffectiveDive | null,
    mix: number,
  ): void {
    this.isDivingDay = true;
    this.firstDay = Math.min(this.firstDay, this.day);
    this.cns += doses.cns!;
    this.otuTotal += doses.otu;
    this.esotToday += doses.esot;
    this.peak = Math.max(this.peak, this.cns);
    const pieces = doses.pieces!;
    const known = this.exposed[this.count];
    if (known) {
      known.startMin = startMin;
      known.endMin = endMin;
      known.pieces = pieces;
      known.share = share;
      known.planned = planned;
      known.mix = mix;
    } else this.exposed.push({ startMin, endMin, pieces, share, planned, mix });
    this.count += 1;
  }

  /**
   * The rolling clock's peak during the dive added last.
   * @param roomMin minutes of room by everything else @param limitMin whole daily limit at the last level
   * @returns fraction: the peak, or where that can change neither the room nor the peak so far, a bound on it
   */
  dayPeak(roomMin: number, limitMin: number): number {
    const { exposed } = this;
    const last = this.count - 1;
    const current = exposed[last]!;
    let inside = 0;
    let straddling = 0;
    let firstStraddler = last;
    let at = last - 1;
    for (; at >= 0; at -= 1) {
      const earlier = exposed[at]!;
      if (earlier.endMin <= current.startMin - DAY_MIN) break;
      if (earlier.startMin >= current.endMin - DAY_MIN) inside += earlier.share;
      else {
        straddling += earlier.share;
        firstStraddler = at;
      }
    }
    this.othersInDay = inside + straddling;
    if (firstStraddler === last) return this.kept(inside + current.share);
    // All of it at once is more than any window holds.
    const bound = inside + straddling + current.share;
    if (bound <= this.peak && (1 - bound) * limitMin >= roomMin) return bound;
    const table = firstStraddler === at + 1 ? this.tableOf(current, exposed[firstStraddler]!) : null;
    const cell = table && current.mix * CANDIDATE_COUNT + exposed[firstStraddler]!.mix;
    const known = cell === null ? undefined : table!.peaks[cell];
    if (known !== undefined && !Number.isNaN(known)) return this.kept(inside + known);
    const pieces: ClockPiece[] = [];
    for (let each = at + 1; each < last; each += 1) {
      if (exposed[each]!.startMin < current.endMin - DAY_MIN) pieces.push(...exposed[each]!.pieces);
    }
    const peak = dayPeak(pieces, current.pieces, current.startMin);
    if (cell !== null) table!.peaks[cell] = peak;
    return this.kept(inside + peak);
  }

  private kept(share: number): number {
    this.peak = Math.max(this.peak, share);
    return share;
  }

  /** The table of two planned dives; null where one is not as planned or another pair stands in the table. */
  private tableOf(current: Exposed, straddler: Exposed): PeakTable | null {
    if (current.planned === null || straddler.planned === null) return null;
    let table = this.tables.get(current.planned);
    if (!table) {
      const peaks = new Float64Array(CANDIDATE_COUNT * CANDIDATE_COUNT).fill(Number.NaN);
      table = { straddler: straddler.planned, peaks };
      this.tables.set(current.planned, table);
    }
    return table.straddler === straddler.planned ? table : null;
  }

  /** Ends the last day. @returns the highest share on any clock */
  finished(): number {
    this.closeDay();
    return Math.max(this.peak, this.esotMost / esotAdvised(Math.max(1, this.divingDays)));
  }
}
