import { ledger as ledgerOf } from '../ledger/ledger';
import type { Ledger } from '../ledger/ledger-types';
import type { Diver, Id, Mix, Site, Trip } from '../document/types';
import { isSameShare, type StockRequest } from './shares';
import { isAir, openTrip, stockedTrip } from './stocked-trip';

/** A mix on some dives of a site. */
export interface SiteUse {
  readonly site: Site;
  readonly mix: Mix;
  /** Open dives at the site on which somebody breathes it. */
  readonly dives: number;
}

/** What one diver takes on the open dives. */
export interface DiverFills {
  readonly diver: Diver;
  /** By the mixes of the plan. */
  readonly fills: readonly number[];
  readonly cost: number;
}

/** What a list comes to once it is on board: who breathes what where, and what that costs. */
export interface StockPlan {
  readonly ledger: Ledger;
  readonly openIds: ReadonlySet<Id>;
  /** Besides air, leanest first; with whether its price was typed, or reckoned from those on board. */
  readonly mixes: readonly { readonly mix: Mix; readonly isPriced: boolean }[];
  /** Deepest site first, the richest mix of each first. */
  readonly sites: readonly SiteUse[];
  readonly divers: readonly DiverFills[];
  readonly total: Omit<DiverFills, 'diver'>;
}

/**
 * A list of mixes worked out for whoever stocks it: the open dives by site and by diver.
 * @param trip as it stands @param percents whole percents of the list, rising
 * @returns fills and money of the open dives alone; air counts where it has a price, but is no column
 * Source: the ledger of the trip with the list on board.
 */
export function stockPlan(
  trip: Trip,
  request: Pick<StockRequest, 'fromDate'>,
  percents: readonly number[],
): StockPlan {
  const open = openTrip(trip, request);
  const whole = ledgerOf(stockedTrip(open, percents));
  const mixes = percents.map((percent) => {
    const mix = whole.trip.mixes.find((each) => isSameShare(each.o2, percent / 100))!;
    return { mix, isPriced: trip.mixes.some((each) => isSameShare(each.o2, mix.o2)) };
  });
  const uses = new Map<string, { site: Site; mix: Mix; diveIds: Set<Id> }>();
  const divers = whole.divers.map(({ diver, entries }): DiverFills => {
    const fills = mixes.map(() => 0);
    let cost = 0;
    for (const { dive, mix } of entries) {
      if (mix === null || !open.openIds.has(dive.id)) continue;
      cost += mix.costPerFill;
      const at = mixes.findIndex((each) => each.mix.id === mix.id);
      if (at !== -1) fills[at]! += 1;
      const site = trip.sites.find(({ id }) => id === dive.siteId);
      if (site === undefined) continue;
      const key = `${site.id} ${mix.id}`;
      let use = uses.get(key);
      if (!use) uses.set(key, (use = { site, mix, diveIds: new Set() }));
      use.diveIds.add(dive.id);
    }
    return { diver, fills, cost };
  });
  return {
    ledger: whole,
    openIds: open.openIds,
    mixes,
    sites: [...uses.values()]
      .toSorted((a, b) => b.site.depthM - a.site.depthM || b.mix.o2 - a.mix.o2)
      .map(({ site, mix, diveIds }) => ({ site, mix, dives: diveIds.size })),
    divers,
    total: {
      fills: mixes.map((_, at) => divers.reduce((sum, { fills }) => sum + fills[at]!, 0)),
      cost: divers.reduce((sum, { cost }) => sum + cost, 0),
    },
  };
}

/** Whether anything of a plan has a price. */
export function hasPrices(mixes: readonly Mix[]): boolean {
  return mixes.some((mix) => !isAir(mix) && mix.costPerFill > 0);
}
