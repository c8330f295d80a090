/**
 * The first plan, in order of price and then of "the earliest", through dives in order of time. Depth first, under a
 * ceiling on the price that rises to the least that the last round saw above it. It is exact:
 * - what lies before a dive alone decides whether it may be made, so a beginning that is forbidden has no plan;
 * - a plan without stops is a sum of translations, and less before a dive never forbids what more allows;
 * - the bound never claims more than the rest costs;
 * - ways are tried in the order of plans, so the first that is found under the least price is the first of all.
 * Source: iterative deepening, R. E. Korf, Artif Intell 1985;27:97-109.
 */
import type { Id } from '../../document/types';
import type { Lanes } from '../../tissues/affine-map';
import { RATES_PER_MIN } from '../../tissues/compartments';
import type { WallMin } from '../../words/calendar';
import type { Rules, State } from './holding';
import {
  compareTreatments,
  DROPPED,
  KEPT,
  pointsOf,
  priceOf,
  priceOfPoints,
  wholePoints,
  type MoveCosts,
  type Treatment,
} from './moves';
import type { DiveWays, Way } from './ways';

/** A plan for some dives, and what is held after it. */
export interface Found {
  readonly plan: readonly Treatment[];
  readonly price: number;
  readonly end: State;
}

export interface Searched {
  /** null: nothing under the ceiling, or the effort was spent. */
  readonly found: Found | null;
  /** Proved: no plan is cheaper. Infinity: there is none. */
  readonly atLeast: number;
}

/** Ways that were tried, and may be. */
export class Effort {
  tried = 0;

  constructor(private readonly most: number) {}

  get isSpent(): boolean {
    return this.tried > this.most;
  }
}

/** What the dives from one on cost at least. */
export interface Bound {
  readonly after: (state: State, first: number) => number;
  readonly least: (first: number) => number;
}

/** Whether a whole plan, which keeps every limit of the dives searched, may be. */
export type Accepts = (plan: readonly Treatment[]) => boolean;

/** A judgement of a whole plan takes about as long as trying so many ways. Source: measured, of a large trip. */
const WAYS_A_JUDGEMENT = 2000;

/** A way on a loop, whose bail-out is asked with its stops, takes about as long as so many others. Source: as above. */
const WAYS_ON_A_LOOP = 5;

/** A bound that need only be good up to so many points. */
export type BoundWithin = (most: number) => Bound;

interface Child {
  readonly treatment: Treatment;
  readonly way: Way | null;
}

/** A list of divers and every larger one, to a size; each once. */
function supersets(
  least: readonly number[],
  all: readonly number[],
  size: number,
): readonly (readonly number[])[] {
  let found: readonly (readonly number[])[] = [least];
  for (const place of all) {
    if (least.includes(place)) continue;
    const larger = found.filter((list) => list.length < size);
    found = [...found, ...larger.map((list) => [...list, place].toSorted((a, b) => a - b))];
  }
  return found;
}

export class Search {
  private readonly mixIds: readonly Id[];

  constructor(
    private readonly rules: Rules,
    private readonly costs: MoveCosts,
    readonly effort: Effort,
    /** Whether starts are tried that are later than a dive itself needs. */
    private readonly isEveryStart = false,
  ) {
    this.mixIds = rules.trip.mixes.map(({ id }) => id);
  }

  /** e^(-k t) from the planned start of each dive to that of the next, or to a moment after the last. */
  decays(dives: readonly DiveWays[], endMin: WallMin): readonly Lanes[] {
    return dives.map(({ startMin }, at) => {
      const lastsMin = (dives[at + 1]?.startMin ?? endMin) - startMin;
      return RATES_PER_MIN.map((k) => Math.exp(-k * lastsMin));
    });
  }

  /**
   * @param endMin the moment that the excess of the end is carried to @param floor a price no plan is below
   * @param ceiling above which none is wanted
   */
  first(
    dives: readonly DiveWays[],
    start: State,
    endMin: WallMin,
    within: BoundWithin,
    floor = 0,
    ceiling = Infinity,
    accepts: Accepts | null = null,
  ): Searched {
    const judge = accepts && this.judgedOnce(accepts);
    const decays = this.decays(dives, endMin);
    let limit = Math.max(floor, within(0).after(start, 0));
    while (limit <= ceiling && limit < Infinity && !this.effort.isSpent) {
      const round = new Round(this, dives, decays, within(wholePoints(limit)), limit, judge);
      const found = round.visit(start, 0, 0);
      if (found !== null) return { found, atLeast: found.price };
      if (round.isCut) break;
      limit = round.next;
    }
    return { found: null, atLeast: limit };
  }

  /** The next round meets the plans again that this one refused. */
  private judgedOnce(accepts: Accepts): Accepts {
    const refused = new Set<string>();
    return (plan) => {
      const key = JSON.stringify(plan);
      if (refused.has(key)) return false;
      this.effort.tried += WAYS_A_JUDGEMENT;
      const isAccepted = accepts(plan);
      if (!isAccepted) refused.add(key);
      return isAccepted;
    };
  }

  /** A plan at once, though not the best: each dive as cheaply as what lies before it allows. */
  quick(dives: readonly DiveWays[], start: State, endMin: WallMin): Found | null {
    const decays = this.decays(dives, endMin);
    const plan: Treatment[] = [];
    let end = start;
    let price = 0;
    for (const [at, dive] of dives.entries()) {
      let children: readonly Child[] = [];
      for (let most = 1; children.length === 0 && most < 2 * dive.mostPoints; most *= 2) {
        children = this.children(dive, end, priceOfPoints(most));
      }
      if (children.length === 0) return null;
      const child = children.reduce((best, each) => (this.priceOf(each) < this.priceOf(best) ? each : best));
      plan.push(child.treatment);
      price += this.priceOf(child);
      end = this.after(end, dive, child, decays[at]!);
    }
    return { plan, price, end };
  }

  /** Ways to treat a dive after a state, of at most a price, in the order of plans. */
  children(dive: DiveWays, state: State, budget: number): readonly Child[] {
    const { costs } = this;
    const children: Child[] = [];
    for (const way of dive.waysWithin(wholePoints(budget))) {
      if (priceOfPoints(way.points) > budget) break;
      if (way.isKept) this.keep(children, dive, state, way);
      else this.change(children, dive, state, way, budget);
    }
    if (dive.reach.drop && priceOf(DROPPED, costs) <= budget)
      children.push({ treatment: DROPPED, way: null });
    return children.toSorted((a, b) => compareTreatments(a.treatment, b.treatment, costs, this.mixIds));
  }

  private forbidden(dive: DiveWays, state: State, way: Way, later: number): readonly number[] {
    this.effort.tried += dive.loops.some((loop) => loop !== null) ? WAYS_ON_A_LOOP : 1;
    return dive.divers.filter((place) => {
      const made = way.made[place]!;
      return made === null || this.rules.forbids(state, place, dive, made, later, way.isKept);
    });
  }

  private keep(children: Child[], dive: DiveWays, state: State, way: Way): void {
    if (dive.startMin < state.lastStartMin || way.barred.length > 0) return;
    if (this.forbidden(dive, state, way, 0).length === 0) children.push({ treatment: KEPT, way });
  }

  private change(children: Child[], dive: DiveWays, state: State, way: Way, budget: number): void {
    const { costs } = this;
    const { reach, divers } = dive;
    const most = wholePoints(budget);
    let before: readonly number[] | null = null;
    for (let later = 0; later <= reach.later; later += 1) {
      const spent = way.points + later * costs.later;
      if (priceOfPoints(spent) > budget) break;
      if (dive.startAfter(later) < state.lastStartMin) continue;
      const out = this.forbidden(dive, state, way, later);
      // Later than it need be is dearer and better for nothing.
      if (!this.isEveryStart && before !== null && before.join() === out.join()) continue;
      before = out;
      const size = reach.leaveOut
        ? Math.min(divers.length - reach.fewestDivers, Math.floor((most - spent) / costs.leaveOut))
        : 0;
      for (const leftOut of out.length > size ? [] : supersets(out, divers, size)) {
        const treatment = dive.treatment(way, later, leftOut);
        const points = pointsOf(treatment, costs);
        if (points > 0 && priceOfPoints(points) <= budget) children.push({ treatment, way });
      }
      if (!this.isEveryStart && out.length === way.barred.length) break;
    }
  }

  after(state: State, dive: DiveWays, { way, treatment }: Child, decay: Lanes): State {
    return this.rules.after(state, dive, way, treatment.later, treatment.leftOut, decay);
  }

  priceOf({ treatment }: Child): number {
    return priceOf(treatment, this.costs);
  }
}

/** One round, under one ceiling. */
class Round {
  /** The least price seen above the ceiling. */
  next = Infinity;
  isCut = false;
  private readonly path: Treatment[] = [];

  constructor(
    private readonly search: Search,
    private readonly dives: readonly DiveWays[],
    private readonly decays: readonly Lanes[],
    private readonly bound: Bound,
    private readonly limit: number,
    private readonly accepts: Accepts | null,
  ) {}

  visit(state: State, at: number, spent: number): Found | null {
    if (at === this.dives.length) {
      const plan = [...this.path];
      return this.accepts === null || this.accepts(plan) ? { plan, price: spent, end: state } : null;
    }
    if (this.search.effort.isSpent) this.isCut = true;
    if (this.isCut) return null;
    const dive = this.dives[at]!;
    const least = this.bound.least(at + 1);
    if (least === Infinity) return null;
    const budget = this.limit - spent - least;
    this.seen(dive, budget, spent + least);
    for (const child of this.search.children(dive, state, budget)) {
      const paid = spent + this.search.priceOf(child);
      const after = this.search.after(state, dive, child, this.decays[at]!);
      const total = paid + this.bound.after(after, at + 1);
      if (total > this.limit) {
        this.next = Math.min(this.next, total);
        continue;
      }
      this.path.push(child.treatment);
      const found = this.visit(after, at + 1, paid);
      if (found !== null) return found;
      this.path.pop();
    }
    return null;
  }

  /**
   * What is not even made counts as seen, at the least it can cost: nothing where the budget is below that, else the
   * next whole points, with the dive touched.
   */
  private seen(dive: DiveWays, budget: number, others: number): void {
    if (budget < 0) {
      this.next = Math.min(this.next, others);
      return;
    }
    const points = Math.max(1, wholePoints(budget - 1) + 1);
    if (points <= dive.mostPoints) this.next = Math.min(this.next, others + priceOfPoints(points));
  }
}
