/**
 * The cheapest plan for all dives ahead, or the proof that there is none.
 *
 * 1. Day by day, each from what the plan so far really brings to it: a plan that holds, and what it costs.
 * 2. Day by day, each from less than any plan of that cost can bring to it: a bound, the sum of the days. What the gap
 *    leaves an earlier day to spend bounds what it can take off, which raises the bound again, until it stands.
 * 3. Where the two meet, the plan of step 1 is the first of all: every plan of that price pays each day just its bound.
 *    Else one search through all days with the bounds of step 2.
 * Source: DEVELOPERS, "How mending searches".
 */
import { ledger } from '../../ledger/ledger';
import type { Ledger } from '../../ledger/ledger-types';
import { COMPARTMENT_COUNT, RATES_PER_MIN } from '../../tissues/compartments';
import type { WallMin } from '../../words/calendar';
import type { Plan } from './carried-out';
import { DayBound, leastAdded, leastAddedEver } from './day-bound';
import { FlightNeeds } from './flight-needs';
import { Rules, type State } from './holding';
import { KEPT, wholePoints } from './moves';
import type { Question } from './question';
import type { MendRequest } from './request';
import { Effort, Search, type Accepts, type Bound, type BoundWithin, type Found } from './search';
import { cautionsToMend, isByHours } from './to-mend';
import { DiveWays } from './ways';

/** Why there is no plan. */
export type WhyNone =
  /** The flight leaves too soon after the dives that are done. */
  | { readonly kind: 'flight' }
  /** Nothing mends this day, even if no dive ahead of the days before it were made. @param date "2027-03-06" */
  | { readonly kind: 'day'; readonly date: string }
  /** Each day could be mended by itself, but not all of them. */
  | { readonly kind: 'together' }
  /** The dive could be mended, but not without a caution on another. */
  | { readonly kind: 'later' }
  /** By the table or the model the flight leaves too soon after every plan. */
  | { readonly kind: 'views' }
  /** None was found before the effort was spent. */
  | { readonly kind: 'unknown' };

/** The answer for one set of moves. */
export type Cheapest =
  | {
      readonly kind: 'plan';
      readonly plan: Plan;
      readonly cost: number;
      /** Points that no plan can be below: those of the plan, where it is proved to be the best. */
      readonly atLeast: number;
    }
  | { readonly kind: 'none'; readonly why: WhyNone };

/** Told after each day of each step. */
export type DayProgress = () => void;

/** How often `DayProgress` is called at least, for a trip of so many days ahead. */
export const STEPS_A_DAY = 2;

interface Day {
  readonly dives: readonly DiveWays[];
  /** Planned start of the first dive after it. */
  readonly endMin: WallMin;
}

/** Bounds are made for so many points at first. */
const FIRST_REACH = 16;

const sum = (numbers: readonly number[]): number => numbers.reduce((total, each) => total + each, 0);

class DaysAhead {
  readonly search: Search;
  readonly days: readonly Day[];
  private readonly asPlanned = new Map<Day, State>();
  private readonly bounds = new Map<Day, DayBound>();

  constructor(
    private readonly rules: Rules,
    private readonly request: MendRequest,
    private readonly dives: readonly DiveWays[],
    private readonly start: State,
    readonly effort: Effort,
    private readonly progress: DayProgress,
    isEveryStart: boolean,
  ) {
    this.search = new Search(rules, request.costs, effort, isEveryStart);
    const numbers = [...new Set(dives.map(({ day }) => day))];
    const byDay = numbers.map((number) => dives.filter(({ day }) => day === number));
    const lastMin = dives.at(-1)!.startMin + 1440;
    this.days = byDay.map((list, at) => ({ dives: list, endMin: byDay[at + 1]?.[0]!.startMin ?? lastMin }));
    let state = start;
    for (const day of this.days) {
      this.asPlanned.set(day, state);
      for (const [at, decay] of this.search.decays(day.dives, day.endMin).entries()) {
        const [way] = day.dives[at]!.waysWithin(0);
        state = rules.after(state, day.dives[at]!, way!, 0, way!.barred, decay);
      }
    }
  }

  /** A day's bound, made anew with twice the reach when more is asked of it. */
  private within(day: Day): BoundWithin {
    return (most) => {
      let bound = this.bounds.get(day);
      if (bound === undefined || bound.most < most) {
        const reach = Math.max(FIRST_REACH, most, 2 * (bound?.most ?? 0));
        bound = new DayBound(
          day.dives,
          this.request.costs,
          this.rules.afterMin,
          this.asPlanned.get(day)!,
          reach,
        );
        this.bounds.set(day, bound);
      }
      const made = bound;
      return { after: (state, first) => made.rest(state, first), least: (first) => made.least[first]! };
    };
  }

  /** Scrubbers go on from day to day; null where nobody is on a loop. */
  private scrubbers(most: number): DayBound | null {
    if (!this.dives.some(({ loops }) => loops.some((loop) => loop !== null))) return null;
    const { costs } = this.request;
    const reach = Math.max(FIRST_REACH, most);
    return new DayBound(this.dives, costs, this.rules.afterMin, this.start, reach, 'scrubber');
  }

  private ofDay(day: Day, start: State, floor = 0, ceiling = Infinity) {
    return this.search.first(day.dives, start, day.endMin, this.within(day), floor, ceiling);
  }

  /** Step 1. @param alone what each day costs at least @returns as many days as could be mended */
  dayByDay(alone: readonly number[]): readonly Found[] {
    const plans: Found[] = [];
    let state = this.start;
    for (const [at, day] of this.days.entries()) {
      // With the effort spent, a plan at once, so that there is one: what was proved stands in the bounds.
      const found =
        this.ofDay(day, state, alone[at]!).found ??
        (this.effort.isSpent ? this.search.quick(day.dives, state, day.endMin) : null);
      if (found === null) break;
      plans.push(found);
      state = found.end;
      this.progress();
    }
    return plans;
  }

  /**
   * Prices by day as if no dive ahead of the days before were made, and those on loops took off all that they can;
   * Infinity where nothing mends a day.
   */
  daysAlone(): readonly number[] {
    const alone: number[] = [];
    let state = this.start;
    for (const day of this.days) {
      alone.push(this.ofDay(day, state).atLeast);
      state = this.lighter(state, day, null);
      this.progress();
    }
    return alone;
  }

  /** Step 2. @returns by day a price that no plan of at most `price` is below */
  bound(alone: readonly number[], plans: readonly Found[], price: number): readonly number[] {
    let least = alone;
    while (sum(least) < price && !this.effort.isSpent) {
      const slack = price - sum(least);
      const next: number[] = [];
      let state = this.start;
      for (const [at, day] of this.days.entries()) {
        // What the plan of step 1 brings to the day is more than this state: its price is a ceiling here.
        const ceiling = plans[at]!.price;
        const proved =
          least[at]! >= ceiling ? ceiling : this.ofDay(day, state, least[at]!, ceiling - 1).atLeast;
        next.push(Math.max(least[at]!, Math.min(proved, ceiling)));
        state = this.lighter(state, day, least[at]! + slack);
      }
      if (sum(next) <= sum(least)) return least;
      least = next;
    }
    return least;
  }

  /** Less in every respect than any plan can hold after a day on which it pays at most a price. @param most null: any */
  private lighter(state: State, day: Day, most: number | null): State {
    const divers = state.holdings.length;
    const added =
      most === null
        ? leastAddedEver(day.dives, divers, day.endMin)
        : leastAdded(day.dives, this.request.costs, divers, most, day.endMin);
    const lastsMin = day.endMin - day.dives[0]!.startMin;
    const excess = state.excess.map(
      (held, at) => held * Math.exp(-RATES_PER_MIN[at % COMPARTMENT_COUNT]! * lastsMin) + added[at]!,
    );
    // Clocks and times as if nobody had dived; the day that OTU count from as if everybody had, as early as can be.
    const holdings = state.holdings.map((held) => ({
      ...held,
      surfacedMin: -Infinity,
      cns: 0,
      exposed: null,
      before: null,
      firstDay: held.firstDay ?? this.dives[0]!.day,
      table: null,
      scrubberMin: 0,
    }));
    return { excess, holdings, lastStartMin: -Infinity };
  }

  /** Step 3. */
  throughout(least: readonly number[], ceiling: number, accepts: Accepts | null) {
    const places = this.days.flatMap((day, number) => day.dives.map((_, place) => ({ day, number, place })));
    const after = least.map((_, number) => sum(least.slice(number + 1)));
    const within: BoundWithin = (most) => {
      const scrubbers = this.scrubbers(most);
      const bounds = new Map<Day, Bound>(this.days.map((day) => [day, this.within(day)(most)]));
      const of = (at: number, ask: (bound: Bound, place: number) => number): number => {
        const here = places[at];
        if (here === undefined) return 0;
        const own = ask(bounds.get(here.day)!, here.place);
        return (here.place === 0 ? Math.max(own, least[here.number]!) : own) + after[here.number]!;
      };
      return {
        after: (state, first) =>
          Math.max(
            of(first, (bound, place) => bound.after(state, place)),
            scrubbers?.rest(state, first) ?? 0,
          ),
        least: (first) =>
          Math.max(
            of(first, (bound, place) => bound.least(place)),
            scrubbers?.least[first] ?? 0,
          ),
      };
    };
    const endMin = this.days.at(-1)!.endMin;
    return this.search.first(this.dives, this.start, endMin, within, sum(least), ceiling, accepts);
  }
}

function planOf(found: readonly Found[]): Plan {
  return found.flatMap(({ plan }) => plan);
}

function none(why: WhyNone): Cheapest {
  return { kind: 'none', why };
}

/** How a question is searched. */
interface How {
  readonly accepts: Accepts | null;
  /** Whether table and model are asked about the flight, dive by dive. */
  readonly asksViews: boolean;
  readonly isEveryStart: boolean;
}

function searched(
  { trip, request, mayMiss }: Question,
  done: Ledger,
  { accepts, asksViews, isEveryStart }: How,
  progress: DayProgress,
): Cheapest {
  const { doneCount } = request;
  const views = asksViews ? new FlightNeeds(trip, done, mayMiss) : null;
  const rules = new Rules(trip, done, views);
  const dives = trip.dives.slice(doneCount).map((dive) => new DiveWays(trip, dive, request, rules));
  const kept = trip.dives.slice(0, doneCount).map(() => KEPT);
  const planned = (found: readonly Found[], price: number, atLeast: number): Cheapest => ({
    kind: 'plan',
    plan: [...kept, ...planOf(found)],
    cost: wholePoints(price),
    atLeast: wholePoints(Math.min(atLeast, price)),
  });
  if (dives.length === 0) return planned([], 0, 0);

  const effort = new Effort(request.mostTried);
  const start = rules.start(dives[0]!.startMin);
  const ahead = new DaysAhead(rules, request, dives, start, effort, progress, isEveryStart);
  const alone = ahead.daysAlone();
  const stuck = alone.indexOf(Infinity);
  if (stuck !== -1)
    return none({ kind: 'day', date: ahead.days[stuck]!.dives[0]!.dive.startsAt.slice(0, 10) });
  const plans = ahead.dayByDay(alone);
  const isWhole = plans.length === ahead.days.length;
  const acceptsAhead = accepts && ((plan: Plan): boolean => accepts([...kept, ...plan]));
  const isPlan = isWhole && (acceptsAhead?.(planOf(plans)) ?? true);
  const price = isPlan ? sum(plans.map((plan) => plan.price)) : Infinity;
  const least = isPlan ? ahead.bound(alone, plans, price) : alone;
  if (sum(least) >= price) return planned(plans, price, price);
  const { found, atLeast } = ahead.throughout(least, price, acceptsAhead);
  if (found !== null) return planned([found], found.price, found.price);
  if (!isPlan) return none({ kind: effort.isSpent ? 'unknown' : isWhole ? 'later' : 'together' });
  return planned(plans, price, Math.max(atLeast, sum(least)));
}

/**
 * The cheapest plan after which nothing is left of what has to go, and what came of it may be.
 *
 * The flight by the table and the model is asked second: a plan that is the first of all without it, and keeps it, is
 * the first of all. Where it does not, every start is tried, as the table goes by steps and a later start may serve.
 * @param question about a trip that `checkTrip` has passed
 * @returns the first plan in the order of plans; or that none exists
 * Source: DEVELOPERS, "What mending looks for".
 */
export function cheapestPlan(question: Question, progress: DayProgress = () => {}): Cheapest {
  const { trip, request, accepts, keepsViews, needsEveryStart } = question;
  const done = ledger({ ...trip, dives: trip.dives.slice(0, request.doneCount) });
  // What the dives done leave of the flight no dive ahead can give back.
  if (cautionsToMend(done, new Set()).some(isByHours)) return none({ kind: 'flight' });
  const first = searched(
    question,
    done,
    { accepts, asksViews: false, isEveryStart: needsEveryStart },
    progress,
  );
  if (keepsViews === null || (first.kind === 'none' && first.why.kind !== 'unknown')) return first;
  if (first.kind === 'plan' && keepsViews(first.plan)) return first;
  const both: Accepts = (plan) => (accepts?.(plan) ?? true) && keepsViews(plan);
  const second = searched(question, done, { accepts: both, asksViews: true, isEveryStart: true }, progress);
  if (second.kind === 'none' && second.why.kind === 'later' && accepts === null)
    return none({ kind: 'views' });
  return second;
}
