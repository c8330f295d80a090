/** What the table of sites shows, derived from the trip alone. */
import { grouped } from '../../../core/grouped';
import { richestMix, type RichestMix } from '../../../core/mixes/richest';
import { mayBreathe, mixO2 } from '../../../core/ledger/mix-choice';
import type { Dive, Diver, Mix, Site, Trip } from '../../../core/document/types';
import { surroundingsOfSite } from '../../../core/document/waters';

/** A site with its dives and the mix that suits whoever is tightest. */
export interface SiteRow {
  readonly site: Site;
  readonly dives: readonly Dive[];
  /** The richest mix on board that everybody may take to the site's depth; null where there is none. */
  readonly mixForAll: Mix | null;
  /** Who may take none of the mixes on board there. */
  readonly withoutMix: readonly Diver[];
  /** Who may not go so deep. */
  readonly tooDeepFor: readonly Diver[];
  /** The best mix for everybody, whatever is on board, and the diver whose limit it is. */
  readonly richest: RichestMix & { readonly diver: Diver };
}

function rowOf(site: Site, trip: Trip, dives: readonly Dive[]): SiteRow {
  const around = surroundingsOfSite(trip, site);
  const may = (mix: Mix, diver: Diver): boolean => mayBreathe(mix, site.depthM, diver, trip, around);
  let mixForAll: Mix | null = null;
  for (const mix of trip.mixes) {
    const isRicher = mixForAll === null || mixO2(mix) > mixO2(mixForAll);
    if (isRicher && trip.party.every((diver) => may(mix, diver))) mixForAll = mix;
  }
  const richest = trip.party
    .map((diver) => ({ ...richestMix(site.depthM, diver, trip, around), diver }))
    .reduce((least, each) => (each.o2 < least.o2 ? each : least));
  return {
    site,
    dives,
    mixForAll,
    withoutMix: trip.party.filter((diver) => !trip.mixes.some((mix) => may(mix, diver))),
    tooDeepFor: trip.party.filter((diver) => diver.maxDepthM < site.depthM),
    richest,
  };
}

/** A row for each site, in the order of the trip. */
export function siteRows(trip: Trip): readonly SiteRow[] {
  const bySite = grouped(trip.dives, ({ siteId }) => siteId);
  return trip.sites.map((site) => rowOf(site, trip, bySite.get(site.id) ?? []));
}

export type SiteSort = 'name' | 'depth' | 'mix' | 'dives' | 'when' | 'position' | 'notes';

/** What a column sorts by; what is not known comes last whichever way it is sorted. */
function keyOf({ site, dives, richest }: SiteRow, sort: SiteSort): number | string | null {
  switch (sort) {
    case 'name':
      return site.name;
    case 'depth':
      return site.depthM;
    case 'mix':
      return richest.o2;
    case 'dives':
      return dives.length;
    case 'when':
      return dives[0]?.startsAt ?? null;
    case 'position':
      return site.position ? site.position.lat : null;
    case 'notes':
      return site.notes === '' ? null : site.notes;
  }
}

/** Rows in the order of a column; rows alike keep the order of the trip. */
export function sortedSites(
  rows: readonly SiteRow[],
  sort: SiteSort | null,
  isDescending: boolean,
): readonly SiteRow[] {
  if (sort === null) return rows;
  const sign = isDescending ? -1 : 1;
  return rows.toSorted((one, other) => {
    const [a, b] = [keyOf(one, sort), keyOf(other, sort)];
    if (a === null || b === null) return a === b ? 0 : a === null ? 1 : -1;
    if (typeof a === 'string') return sign * a.localeCompare(String(b), undefined, { numeric: true });
    return a === b ? 0 : sign * (a < Number(b) ? -1 : 1);
  });
}

/** Sites whose name or notes hold every word that was typed, wherever it stands. */
export function foundSites(rows: readonly SiteRow[], typed: string): readonly SiteRow[] {
  const words = plain(typed).split(/\s+/).filter(Boolean);
  return words.length === 0
    ? rows
    : rows.filter(({ site }) => {
        const text = plain(`${site.name} ${site.notes}`);
        return words.every((word) => text.includes(word));
      });
}

/** Without case and accents: who looks for "cafe" means "Café" too. */
function plain(text: string): string {
  return text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
}
