import { listed, NOTHING, said, type Said } from '../words/said';
import { mixSaid } from '../words/terms';
import { ledger as ledgerOf } from '../ledger/ledger';
import type { Ledger } from '../ledger/ledger-types';
import { mixO2 } from '../ledger/mix-choice';
import { siteOf } from '../document/site-of';
import type { Diver, Id, Mix, Site, Trip } from '../document/types';
import { OXYGEN_WITHOUT_PRICE } from './blending-words';
import { isLoopOxygen, missingPercents, type LoopUse } from './loop-cylinders';
import { filledWith } from './outcome';
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

/** A price that was typed, was reckoned from those on board, or is none: oxygen where the trip has no mix of 100 %. */
export type PriceKind = 'typed' | 'reckoned' | 'none';

function priceOf(mix: Mix, trip: Trip): PriceKind {
  if (trip.mixes.some((each) => isSameShare(each.o2, mix.o2))) return 'typed';
  return isLoopOxygen(mix) ? 'none' : 'reckoned';
}

/** A diver who makes open dives on a loop. */
export interface OnLoop {
  readonly diver: Diver;
  readonly diluents: readonly Mix[];
  readonly bailOut: readonly Mix[];
  /** What of these is not on the list, whole percents. */
  readonly missing: readonly number[];
}

/** What a list comes to once it is on board: who breathes what where, and what that costs. */
export interface StockPlan {
  readonly ledger: Ledger;
  readonly openIds: ReadonlySet<Id>;
  /** Besides air: those of the list, leanest first, then what loops take besides. */
  readonly mixes: readonly { readonly mix: Mix; readonly price: PriceKind }[];
  /** Deepest site first, the richest mix of each first. */
  readonly sites: readonly SiteUse[];
  readonly divers: readonly DiverFills[];
  readonly onLoops: readonly OnLoop[];
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
  const filled = whole.divers.map((each) => filledWith(whole.trip, each, open.openIds));
  const onList = percents.map((percent) =>
    whole.trip.mixes.find((each) => isSameShare(each.o2, percent / 100))!,
  );
  const besides = new Map(
    filled.flat().flatMap(({ mix, use }) => (use === null || isAir(mix) ? [] : [[mix.id, mix] as const])),
  );
  for (const { id } of onList) besides.delete(id);
  const mixes = [...onList, ...[...besides.values()].toSorted((a, b) => a.o2 - b.o2)].map((mix) => ({
    mix,
    price: priceOf(mix, trip),
  }));
  const uses = new Map<string, { site: Site; mix: Mix; diveIds: Set<Id> }>();
  const divers = whole.divers.map(({ diver }, place): DiverFills => {
    const fills = mixes.map(() => 0);
    let cost = 0;
    for (const { entry, mix, use } of filled[place]!) {
      cost += mix.costPerFill;
      const at = mixes.findIndex((each) => each.mix.id === mix.id);
      if (at !== -1) fills[at]! += 1;
      const site = siteOf(trip, entry.dive);
      if (site === undefined || use !== null) continue;
      const key = `${site.id} ${mix.id}`;
      let known = uses.get(key);
      if (!known) uses.set(key, (known = { site, mix, diveIds: new Set() }));
      known.diveIds.add(entry.dive.id);
    }
    return { diver, fills, cost };
  });
  const onLoops = whole.divers.flatMap(({ diver, entries }, place): readonly OnLoop[] => {
    const made = entries.filter(({ dive, loop }) => loop !== null && open.openIds.has(dive.id));
    if (made.length === 0) return [];
    const missing = new Set(made.flatMap((entry) => missingPercents(whole.trip, entry)));
    const mixesFor = (wanted: LoopUse) => [
      ...new Set(filled[place]!.flatMap(({ mix, use }) => (use === wanted ? mix : []))),
    ];
    return [
      {
        diver,
        diluents: mixesFor('diluent'),
        bailOut: mixesFor('bail-out'),
        missing: [...missing].toSorted((a, b) => a - b),
      },
    ];
  });
  return {
    ledger: whole,
    openIds: open.openIds,
    mixes,
    sites: [...uses.values()]
      .toSorted((a, b) => b.site.depthM - a.site.depthM || b.mix.o2 - a.mix.o2)
      .map(({ site, mix, diveIds }) => ({ site, mix, dives: diveIds.size })),
    divers,
    onLoops,
    total: {
      fills: mixes.map((_, at) => divers.reduce((sum, { fills }) => sum + fills[at]!, 0)),
      cost: divers.reduce((sum, { cost }) => sum + cost, 0),
    },
  };
}

function mixesSaid(mixes: readonly Mix[]): Said {
  return said`${listed(mixes.map((mix) => mixSaid(mixO2(mix))))}`;
}

/**
 * How loops are counted in a plan, and whose lack of a list something; nothing where nobody is on one.
 * @returns what is counted, and what is to mend
 */
export function onLoopsSaid({ onLoops, mixes }: StockPlan): {
  readonly counted: Said;
  readonly lacks: readonly Said[];
} {
  if (onLoops.length === 0) return { counted: NOTHING, lacks: [] };
  const names = listed(
    onLoops.map(
      ({ diver, diluents, bailOut }) =>
        said`${diver.name} (${mixesSaid(diluents)} as diluent, ${mixesSaid(bailOut)} as bail-out)`,
    ),
  );
  const free = mixes.some(({ price }) => price === 'none') ? said` ${OXYGEN_WITHOUT_PRICE}` : NOTHING;
  return {
    counted: said`On a loop: ${names}. Oxygen and diluent are counted for each dive and bail-out once, alike with every list.${free}`,
    lacks: onLoops.flatMap(({ diver, missing }) =>
      missing.length === 0
        ? []
        : [
            said`The loop of ${diver.name} needs ${listed(missing.map((percent) => mixSaid(percent / 100)))}, which is not on this list: its dives count as outside the limits.`,
          ],
    ),
  };
}

/** Whether anything of a plan has a price. */
export function hasPrices(mixes: readonly Mix[]): boolean {
  return mixes.some((mix) => !isAir(mix) && mix.costPerFill > 0);
}
