/**
 * What the rest of a day costs at least. Of all limits one is kept: that of one later dive, one diver and one
 * compartment, the interval before it or the scrubber of a loop, which goes on over days. As excess adds up over dives, what is left is a knapsack with a single row;
 * its cost is tabled for every need once, and a look-up then bounds the rest of any plan.
 * Source: relaxation by rows, A. M. Geoffrion, Math Programming Study 1974;2:82-114.
 */
import type { Lanes } from '../../tissues/affine-map';
import { COMPARTMENT_COUNT, RATES_PER_MIN } from '../../tissues/compartments';
import { both, cheapest, Offers, type Frontier } from './frontier';
import { SHORTEST_INTERVAL_MIN, type State } from './holding';
import { priceOfPoints, wholePoints, type MoveCosts } from './moves';
import type { DiveWays, Way } from './ways';

/** Intervals are bounded with this much room for rounding, minutes. */
const SAME_MIN = 1e-6;

const LANES = COMPARTMENT_COUNT;

/** In place of a compartment: the interval before the dive. */
const INTERVAL = -1;

/** In place of a compartment: how long the scrubber of the diver’s loop lasts. */
const SCRUBBER = -2;

/** Which limits are rows: all of a day, or over several days the scrubber alone. */
type Rows = 'all' | 'scrubber';

/** A limit: of which dive of those looked at, for whom. */
interface Row {
  readonly at: number;
  readonly diver: number;
  /** From 0, or `INTERVAL` or `SCRUBBER`. */
  readonly compartment: number;
  /** The diver's dive before it, of the scrubber the one that it was packed afresh for; -1: none. */
  readonly follows: number;
}

interface Table {
  readonly row: Row;
  /** By the first dive that is still open. */
  readonly from: readonly Frontier[];
}

/** A way that may be made, with the points of leaving out whom it bars. */
interface UsableWay {
  readonly way: Way;
  readonly points: number;
}

function usableWays(dive: DiveWays, costs: MoveCosts, most: number): readonly UsableWay[] {
  return dive
    .waysWithin(most)
    .map((way) => ({ way, points: dive.pointsWithBarred(way, costs) }))
    .filter(({ points }) => points <= most);
}

export class DayBound {
  /** By dive: what it and those after it cost at least, whatever lies before it. */
  readonly least: readonly number[];
  private readonly tables: Table[] = [];
  private readonly usable: readonly (readonly UsableWay[])[];
  private readonly gathered: Offers;
  /** Told where nothing that was looked at will do. */
  private readonly beyond: number;

  /**
   * @param dives of one day @param afterMin that each diver enters after a start @param asPlanned what they begin with when nothing is mended: rows are the limits that are
   *   passed then @param most points that are looked at; past them the bound says no more
   * @param rows over several days 'scrubber' alone
   */
  constructor(
    private readonly dives: readonly DiveWays[],
    private readonly costs: MoveCosts,
    private readonly afterMin: readonly number[],
    asPlanned: State,
    readonly most: number,
    rows: Rows = 'all',
  ) {
    const dearest = dives.reduce((sum, dive) => sum + dive.mostPoints, 0);
    this.beyond = most < dearest ? priceOfPoints(most + 1) : Infinity;
    this.usable = dives.map((dive) => usableWays(dive, costs, most));
    this.gathered = new Offers(most, 1);
    const least: number[] = [0];
    for (const dive of dives.toReversed()) least.unshift(least[0]! + dive.leastPrice(most));
    dives.forEach((dive, at) => {
      for (const diver of dive.divers) {
        if (rows === 'all') this.addRows(at, diver, asPlanned);
        if (dive.loops[diver] === null) continue;
        const follows = dives.findLastIndex((before, i) => i <= at && before.isPackedFor(diver));
        this.addTable({ at, diver, compartment: SCRUBBER, follows }, asPlanned);
      }
    });
    this.least = least
      .map((_, first) => first)
      .reduceRight<readonly number[]>((from, first) => from.with(first, this.leastFrom(first, from)), least);
  }

  /** With the scrubbers that are packed from a dive on. @param least of the dives behind it already so */
  private leastFrom(first: number, least: readonly number[]): number {
    let most = least[first]!;
    for (const { row, from } of this.tables) {
      if (row.compartment !== SCRUBBER || row.follows < first) continue;
      most = Math.max(most, cheapest(from[row.follows]!, 0, this.beyond) + least[row.at + 1]!);
    }
    return most;
  }

  private addRows(at: number, diver: number, asPlanned: State): void {
    const follows = this.dives.findLastIndex((before, i) => i < at && before.divers.includes(diver));
    for (let compartment = INTERVAL; compartment < LANES; compartment += 1) {
      if (compartment === INTERVAL && follows === -1) continue;
      this.addTable({ at, diver, compartment, follows }, asPlanned);
    }
  }

  private addTable(row: Row, asPlanned: State): void {
    const upTo = this.dives.slice(0, row.at + 1);
    const spare = upTo.reduce((sum, _, i) => sum + this.plannedValue(i, row), 0);
    if (spare >= this.need(row, asPlanned, 0)) return;
    const from: Frontier[] = [];
    for (let i = row.at; i >= 0; i -= 1) {
      if (!this.isOf(i, row)) {
        from[i] = from[i + 1]!;
        continue;
      }
      const offers = this.offers(i, row);
      from[i] = i === row.at ? offers : both(offers, from[i + 1]!, this.most, row.at + 1 - i);
    }
    this.tables.push({ row, from });
  }

  /** Whether a dive has a part in a row: in that of a scrubber only dives on the loop since it was packed. */
  private isOf(i: number, { compartment, diver, follows }: Row): boolean {
    if (compartment !== SCRUBBER) return true;
    return i >= follows && this.dives[i]!.divers.includes(diver) && this.dives[i]!.loops[diver] !== null;
  }

  private decay(from: number, to: number, compartment: number): number {
    if (compartment < 0) return 1;
    return Math.exp(-RATES_PER_MIN[compartment]! * (this.dives[to]!.startMin - this.dives[from]!.startMin));
  }

  /** What the dives from `first` on have to come to together, after a state. */
  private need({ at, diver, compartment, follows }: Row, state: State, first: number): number {
    // Packed for a dive to come, of what was used before nothing counts; that dive may be dropped, and then more does.
    if (compartment === SCRUBBER) return first > follows ? state.holdings[diver]!.scrubberMin : 0;
    if (compartment !== INTERVAL) {
      return state.excess[diver * LANES + compartment]! * this.decay(first, at, compartment);
    }
    const between = SHORTEST_INTERVAL_MIN - SAME_MIN - this.dives[at]!.startMin;
    // A diver enters so many minutes after either start; what was surfaced from holds them already.
    return first > follows
      ? state.holdings[diver]!.surfacedMin - this.afterMin[diver]! + between
      : this.dives[follows]!.startMin + between;
  }

  /** What a dive brings to that; the dive of the limit itself what it allows. */
  private value(i: number, row: Row, way: Way, later: number, decay: number): number {
    const { at, diver, compartment, follows } = row;
    const dive = this.dives[i]!;
    const made = way.made[diver];
    if (compartment === INTERVAL) {
      const laterMin = dive.startAfter(later) - dive.startMin;
      if (i === at) return laterMin;
      return i === follows ? -(laterMin + made!.filled.runMin) : 0;
    }
    if (!made) return 0;
    if (compartment === SCRUBBER) {
      const lastsMin = i === at ? dive.loops[diver]!.gear.scrubberMin + SAME_MIN : 0;
      return lastsMin - made.filled.runMin;
    }
    const shift = dive.shift[later]![compartment]!;
    return i === at ? made.highest[compartment]! * shift : -made.filled.gain[compartment]! * shift * decay;
  }

  private plannedValue(i: number, row: Row): number {
    if (!this.isOf(i, row)) return 0;
    const [asPlanned] = this.dives[i]!.waysWithin(0);
    if (asPlanned!.barred.length > 0) return -Infinity;
    return this.value(i, row, asPlanned!, 0, this.decay(i, row.at, row.compartment));
  }

  /** All that can be had of a dive for a row. */
  private offers(i: number, row: Row): Frontier {
    const { costs, most } = this;
    const { diver } = row;
    const dive = this.dives[i]!;
    const offers = this.gathered.clear();
    const isOfRow = i === row.at || (row.compartment === INTERVAL && i === row.follows);
    const withoutIt = isOfRow ? Infinity : 0;
    const decay = this.decay(i, row.at, row.compartment);
    const { reach } = dive;
    const mayLeaveOut = reach.leaveOut && dive.divers.includes(diver);
    if (reach.drop) offers.addPoints(costs.drop, withoutIt);
    for (const { way, points } of this.usable[i]!) {
      if (way.barred.length > 0 && way.barred.includes(diver)) {
        offers.addPoints(points, withoutIt);
        continue;
      }
      if (mayLeaveOut && !way.isKept) offers.addPoints(points + costs.leaveOut, withoutIt);
      // Later helps the dive itself, and those after it only where it gives off more than the surface does, as a loop may.
      const helpsLater =
        i === row.at || (row.compartment >= 0 && (way.made[diver]?.filled.gain[row.compartment] ?? 0) < 0);
      const last = helpsLater && !way.isKept ? reach.later : 0;
      for (let later = 0; later <= last; later += 1) {
        const paid = points + later * costs.later;
        if (paid > most) break;
        offers.addPoints(paid, this.value(i, row, way, later, decay));
      }
    }
    return offers.frontier();
  }

  /** A price that the dives from `first` on are not below, after a state. */
  rest(state: State, first: number): number {
    let most = this.least[first]!;
    for (const { row, from } of this.tables) {
      if (row.at < first) continue;
      const price = cheapest(from[first]!, this.need(row, state, first), this.beyond);
      if (price > 0) most = Math.max(most, price + this.least[row.at + 1]!);
    }
    return most;
  }
}

/** No more than a day adds to the excess at its end at any price: what loops alone can take, or nothing. */
export function leastAddedEver(dives: readonly DiveWays[], divers: number, endMin: number): Lanes {
  const added = Array.from({ length: divers * LANES }, () => 0);
  for (const dive of dives) {
    for (let diver = 0; diver < divers; diver += 1) {
      for (const [compartment, taken] of dive.mostTaken(diver).entries()) {
        const decay = Math.exp(-RATES_PER_MIN[compartment]! * (endMin - dive.startMin));
        added[diver * LANES + compartment]! -= taken * decay;
      }
    }
  }
  return added;
}

/**
 * The least that a day can add to the excess at its end for at most a price, by place in the party and compartment.
 * @param endMin the moment it is carried to
 */
export function leastAdded(
  dives: readonly DiveWays[],
  costs: MoveCosts,
  divers: number,
  mostPrice: number,
  endMin: number,
): Lanes {
  const added: number[] = [];
  const most = wholePoints(mostPrice);
  const usable = dives.map((dive) => usableWays(dive, costs, most));
  const offers = new Offers(most, 1);
  for (let at = 0; at < divers * LANES; at += 1) {
    const diver = Math.floor(at / LANES);
    const compartment = at % LANES;
    let sum: Frontier = { price: [0], value: [0] };
    for (const [i, dive] of dives.entries()) {
      if (!dive.divers.includes(diver)) continue;
      const decay = Math.exp(-RATES_PER_MIN[compartment]! * (endMin - dive.startMin));
      offers.clear();
      if (dive.reach.drop) offers.addPoints(costs.drop, 0);
      for (const { way, points } of usable[i]!) {
        const made = way.made[diver];
        const gain = made ? made.filled.gain[compartment]! : 0;
        // What gives off more than the surface does had best be late.
        const last = gain < 0 && !way.isKept ? dive.reach.later : 0;
        for (let later = 0; later <= last; later += 1) {
          const shift = dive.shift[later]![compartment]!;
          offers.addPoints(points + later * costs.later, -gain * shift * decay);
        }
        if (made && dive.reach.leaveOut && !way.isKept) offers.addPoints(points + costs.leaveOut, 0);
      }
      // A dive that nothing within the price makes possible is counted as adding nothing.
      const next = both(sum, offers.frontier(), most, dives.length);
      if (next.price.length > 0) sum = next;
    }
    added.push(-(sum.value.at(-1) ?? 0));
  }
  return added;
}
