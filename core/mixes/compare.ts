import { sharedDoses } from '../oxygen/doses';
import { surroundingsOfSite } from '../document/waters';
import type { Surroundings } from '../profile';
import { restTensions } from '../tissues/compartments';
import { effectiveDive } from '../document/as-dived';
import { divePlan, newDivePlan, type DivePlan } from '../ledger/dive-plan';
import { surfaceLimits } from '../ledger/nitrogen-outcome';
import { deepestLevel, deepestLimit } from '../ledger/level-limits';
import type { Entry, Ledger } from '../ledger/ledger-types';
import { mayBreathe, mixO2 } from '../ledger/mix-choice';
import type { Dive, Diver, Id, Mix, Site, Trip } from '../document/types';
import { richestMix, usableModM, whyNot, type RichestMix, type WhyNot } from './richest';
import { isSameShare, mixOfShare } from './shares';
import { airOf, isAir } from './stocked-trip';

/** A no-stop time: null in `min` with `unlimited` where there is none. */
export interface NoStopTime {
  readonly min: number | null;
  readonly unlimited: boolean;
}

/** The no-stop time of a dive of the trip, and the depth it is for: its deepest level's. */
export interface NoStopOfDive extends NoStopTime {
  readonly depthM: number;
}

/** What a mix is good for at a site, for the tightest of the divers asked about. */
export interface CompareCell {
  readonly mix: Mix;
  readonly o2: number;
  readonly allowed: boolean;
  /** The first diver it does not suit, and why; null where it suits all. */
  readonly whyNot: WhyNot | null;
  /** The least of the divers'. */
  readonly modM: number;
  /** From rest at the site's depth, straight down; null where the mix may not go there. */
  readonly alone: NoStopTime | null;
  /**
   * On the tightest of the site's dives as the trip stands, at its own depth; where the mix may not go on that one, on
   * the one it leaves least on. Null without one that the mix may go on.
   */
  readonly inTrip: NoStopOfDive | null;
  /** Minutes more than air gives at the site's depth; null where one of the two has no end or no figure. */
  readonly aloneGainMin: number | null;
  /** The same on the dive of `inTrip`. */
  readonly inTripGainMin: number | null;
  /** Of the dive at the site that costs most, as planned; null without one, or above 1.6 bar. */
  readonly cns: number | null;
  readonly otu: number | null;
  readonly cost: number;
  /** Dives at the site on which it would be the richest of the columns that can be used there, for one diver or more. */
  readonly usedOn: readonly Id[];
}

/** The tightest of a site's dives by nitrogen, on the mix it is on, at its deepest level. */
export interface TightestVisit {
  readonly dive: Dive;
  readonly diver: Diver;
  readonly mix: Mix;
  readonly depthM: number;
  /** As planned on that level, or dived. */
  readonly min: number;
  /** Of that level; null where it has no end. */
  readonly noStopMin: number | null;
}

export interface CompareRow {
  readonly site: Site;
  readonly diveIds: readonly Id[];
  /** Null where nobody dives there, or no mix may go. */
  readonly tightest: TightestVisit | null;
  /** The best mix for every diver asked about. */
  readonly richest: RichestMix;
  readonly cells: readonly CompareCell[];
}

/**
 * The columns of the comparison: air, the mixes on board and any share typed in, leanest first, each once.
 * @param percents oxygen typed in, percent; need not be whole
 * Source: this project's.
 */
export function compareMixes(trip: Trip, percents: readonly number[] = []): readonly Mix[] {
  const columns: Mix[] = [...trip.mixes];
  if (!columns.some(isAir)) columns.push(airOf(trip.mixes));
  for (const percent of percents) {
    if (!columns.some((mix) => isSameShare(mix.o2, percent / 100))) {
      columns.push(mixOfShare(percent, columns));
    }
  }
  return columns.toSorted((a, b) => a.o2 - b.o2);
}

function tightest(times: readonly NoStopTime[]): NoStopTime | null {
  if (times.length === 0) return null;
  const limited = times.flatMap((time) => (time.min === null ? [] : [time.min]));
  return limited.length === 0
    ? { min: null, unlimited: true }
    : { min: Math.min(...limited), unlimited: false };
}

function noStopTime(plan: DivePlan, tensions: readonly number[], o2: number, diver: Diver): NoStopOfDive {
  const limits = surfaceLimits(plan.around.column, diver.gradient.high);
  const { depthM, noStopMin, unlimited } = deepestLimit(plan, tensions, 1 - o2, limits);
  return { min: noStopMin, unlimited, depthM };
}

/**
 * No-stop time of a square dive from rest, for one diver.
 * @param o2 oxygen fraction @param depthM metres, above 0
 * Source: core/ascent/no-stop-limit.ts.
 */
export function noStopFromRest(o2: number, depthM: number, diver: Diver, around: Surroundings): NoStopTime {
  const plan = newDivePlan({ depthM, bottomMin: depthM / around.descentMPerMin }, around);
  const { min, unlimited } = noStopTime(plan, restTensions(around.column.surfaceBar), o2, diver);
  return { min, unlimited };
}

/** A dive of a diver at the site. */
interface Visit {
  readonly entry: Entry;
  readonly plan: DivePlan;
}

/**
 * The visits with the least left to the no-stop limit of their deepest level, without an end the deepest: several where
 * divers come to a dive alike. The first of them stands for all.
 */
function tightestOfVisits(visits: readonly Visit[]): readonly Visit[] {
  let found: Visit[] = [];
  let foundLeft = Infinity;
  let foundM = 0;
  for (const visit of visits) {
    if (!visit.entry.isMade || visit.entry.mix === null) continue;
    const { depthM, min, noStopMin } = deepestLevel(visit.entry.levels);
    const left = noStopMin === null ? Infinity : noStopMin - min;
    const isAlike = left === foundLeft && depthM === foundM;
    if (!isAlike && (left > foundLeft || (left === foundLeft && depthM < foundM))) continue;
    if (!isAlike) found = [];
    found.push(visit);
    foundLeft = left;
    foundM = depthM;
  }
  return found;
}

class SiteComparison {
  private readonly trip: Trip;
  private readonly around: Surroundings;
  private readonly divers: readonly Diver[];
  private readonly columns: readonly Mix[];
  private readonly site: Site;
  private readonly visits: readonly Visit[];
  private readonly tightest: readonly Visit[];

  constructor(
    trip: Trip,
    divers: readonly Diver[],
    columns: readonly Mix[],
    site: Site,
    entries: readonly Entry[],
  ) {
    this.trip = trip;
    this.around = surroundingsOfSite(trip, site);
    this.divers = divers;
    this.columns = columns;
    this.site = site;
    this.visits = entries.map((entry) => ({
      entry,
      plan: divePlan(effectiveDive(entry.dive, entry.diver).shape, this.around),
    }));
    this.tightest = tightestOfVisits(this.visits);
  }

  private mayGo(mix: Mix, { entry }: Visit): boolean {
    return mayBreathe(mix, entry.dive.depthM, entry.diver, this.trip, this.around);
  }

  private alone(mix: Mix): NoStopTime | null {
    const { depthM } = this.site;
    return tightest(this.divers.map((diver) => noStopFromRest(mixO2(mix), depthM, diver, this.around)));
  }

  /**
   * On the tightest visit as planned, or where the mix may not go on any that is as tight, on the one of the others on
   * which it would leave least; with what air would give there.
   */
  private inTrip(
    mix: Mix,
    air: Mix,
    visits: readonly Visit[],
  ): { readonly time: NoStopOfDive; readonly ofAir: NoStopTime } | null {
    const on = ({ entry, plan }: Visit, breathed: Mix) =>
      noStopTime(plan, entry.tensionsBefore, mixO2(breathed), entry.diver);
    const planned = visits.find((visit) => this.tightest.includes(visit));
    let found = planned ? { time: on(planned, mix), visit: planned } : null;
    let foundLeft = Infinity;
    for (const visit of planned ? [] : visits) {
      const time = on(visit, mix);
      const left = time.min === null ? Infinity : time.min - deepestLevel(visit.entry.levels).min;
      const isTighter = left === foundLeft ? time.depthM > (found?.time.depthM ?? 0) : left < foundLeft;
      if (!isTighter) continue;
      found = { time, visit };
      foundLeft = left;
    }
    return found && { time: found.time, ofAir: on(found.visit, air) };
  }

  private usedOn(mix: Mix): readonly Id[] {
    const ids = new Set<Id>();
    for (const visit of this.visits) {
      if (!this.mayGo(mix, visit)) continue;
      const isRicher = (other: Mix) => mixO2(other) > mixO2(mix) && this.mayGo(other, visit);
      if (!this.columns.some(isRicher)) ids.add(visit.entry.dive.id);
    }
    return [...ids];
  }

  cell(mix: Mix, air: Mix): CompareCell {
    const { site, trip, around, divers } = this;
    const o2 = mixO2(mix);
    const reasons = divers.map((diver) => whyNot(mix, site.depthM, diver, trip, around));
    const reason = reasons.find((each) => each !== null) ?? null;
    const suited = this.visits.filter((visit) => this.mayGo(mix, visit));
    const alone = reason === null ? this.alone(mix) : null;
    const inTrip = this.inTrip(mix, air, suited);
    const doses = suited.map(({ entry, plan }) => sharedDoses(plan.doses, plan.legs, o2, entry.startMin));
    const cns = doses.map((dose) => dose.cns);
    return {
      mix,
      o2,
      allowed: reason === null,
      whyNot: reason,
      modM: Math.min(...divers.map((diver) => usableModM(mix, diver, trip, around))),
      alone,
      inTrip: inTrip?.time ?? null,
      aloneGainMin: gain(alone, this.alone(air)),
      inTripGainMin: inTrip && gain(inTrip.time, inTrip.ofAir),
      cns: doses.length === 0 || cns.includes(null) ? null : Math.max(...cns.map(Number)),
      otu: doses.length === 0 ? null : Math.max(...doses.map((dose) => dose.otu)),
      cost: mix.costPerFill,
      usedOn: this.usedOn(mix),
    };
  }

  private tightestVisit(): TightestVisit | null {
    const entry = this.tightest[0]?.entry;
    if (!entry) return null;
    const { depthM, min, noStopMin } = deepestLevel(entry.levels);
    return { dive: entry.dive, diver: entry.diver, mix: entry.mix!, depthM, min, noStopMin };
  }

  row(air: Mix): CompareRow {
    const richest = this.divers
      .map((diver) => richestMix(this.site.depthM, diver, this.trip, this.around))
      .reduce((least, each) => (each.o2 < least.o2 ? each : least));
    return {
      site: this.site,
      diveIds: [...new Set(this.visits.map(({ entry }) => entry.dive.id))],
      tightest: this.tightestVisit(),
      richest,
      cells: this.columns.map((mix) => this.cell(mix, air)),
    };
  }
}

function gain(time: NoStopTime | null, air: NoStopTime | null): number | null {
  if (time === null || air === null || time.min === null || air.min === null) return null;
  return time.min - air.min;
}

/**
 * The sites by the mixes: may it go there, for how long alone and in the trip as it stands, what it costs in
 * oxygen and money, and which dives would use it.
 * @param ledger of the trip as it stands @param columns from `compareMixes`
 * @param diverId one diver; null: the tightest of the party
 * @returns a row a site, in the order of the document
 * Source: each figure as in its module.
 */
export function compareSites(
  ledger: Ledger,
  columns: readonly Mix[],
  diverId: Id | null = null,
): readonly CompareRow[] {
  const { trip } = ledger;
  const ledgers = ledger.divers.filter((each) => diverId === null || each.diver.id === diverId);
  const divers = ledgers.map((each) => each.diver);
  const entries = ledgers.flatMap((each) => each.entries);
  const air = columns.find(isAir) ?? airOf(trip.mixes);
  return trip.sites.map((site) => {
    const here = entries.filter((entry) => entry.dive.siteId === site.id);
    return new SiteComparison(trip, divers, columns, site, here).row(air);
  });
}
