/** Edits of the sites of a trip. */
import { sitesOfDrafts, type DraftWithDepth } from '../../core/formats/site-draft';
import type { Level } from '../../core/profile';
import { failure } from '../../core/result';
import { siteName } from '../../core/document/site-of';
import type { Id, Site, Trip } from '../../core/document/types';
import type { Water } from '../../core/water';
import { countText } from '../figures/format';
import { firstTwin } from '../figures/names';
import { desk } from '../store/store';
import { edit, type EditResult } from './edit';
import { twinFailure, twinTrouble } from './site-names';

function nameOf(id: Id): string {
  return siteName(desk.getState().trip, { siteId: id });
}

function editSite(id: Id, what: string, code: string, change: (site: Site) => Site): EditResult {
  return edit({ label: `${what} of ${nameOf(id)}`, code }, (trip) => {
    const sites = trip.sites.map((site) => (site.id === id ? change(site) : site));
    return { ...trip, sites };
  });
}

export function setSiteName(id: Id, name: string): EditResult {
  const twin = nameOf(id) === name ? null : twinTrouble(name, id);
  return twin ?? editSite(id, 'Name', 'site.name', (site) => ({ ...site, name }));
}

/** The depth that is dived there; dives already planned keep theirs. */
export function setSiteDepth(id: Id, depthM: number): EditResult {
  return editSite(id, 'Depth', 'site.depth', (site) => ({ ...site, depthM }));
}

export function setSiteNotes(id: Id, notes: string): EditResult {
  return editSite(id, 'Notes', 'site.notes', (site) => ({ ...site, notes }));
}

/** null: not known. */
export function setSitePosition(id: Id, position: { lat: number; lon: number } | null): EditResult {
  return editSite(id, 'Position', 'site.position', (site) => {
    // Not known may be said in a file, or not said.
    const isUnknown = position === null && !site.position;
    return isUnknown ? site : { ...site, position };
  });
}

/** Puts sites behind those there are, in their order: one step. */
export function addSites(drafts: readonly DraftWithDepth[]): EditResult {
  const names = drafts.map(({ name }) => name);
  for (const name of names) {
    const twin = twinTrouble(name, null);
    if (twin) return twin;
  }
  const twice = firstTwin(names);
  if (twice !== null) return twinFailure(twice, '');
  const [only] = drafts;
  const label =
    drafts.length === 1 && only ? `New site ${only.name}` : `${countText(drafts.length)} new sites`;
  return edit({ label, code: 'site.add' }, (trip) => {
    const added = sitesOfDrafts(
      drafts,
      trip.sites.map((site) => site.id),
    );
    return { ...trip, sites: [...trip.sites, ...added] };
  });
}

/** Where a site is named: dives of the trip by their number, and divers who came from there. */
function usesOf(trip: Trip, id: Id): string {
  const numbers = trip.dives.flatMap((dive, at) => (dive.siteId === id ? [at + 1] : []));
  const guests = trip.party.filter((diver) => diver.before?.some((dive) => dive.siteId === id));
  const parts = [
    ...(numbers.length === 1 ? [`dive ${numbers[0]}`] : []),
    ...(numbers.length > 1 ? [`dives ${listed(numbers.map(String))}`] : []),
    ...(guests.length > 0 ? [`earlier dives of ${listed(guests.map(({ name }) => name))}`] : []),
  ];
  return listed(parts);
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** Refused while a dive is planned there: it would lose its place in silence. */
export function removeSite(id: Id): EditResult {
  const { trip } = desk.getState();
  const uses = usesOf(trip, id);
  const at = trip.sites.findIndex((site) => site.id === id);
  if (uses !== '') {
    return failure({
      kind: 'in-use',
      what: `${nameOf(id)} is the site of ${uses}.`,
      where: `sites[${at}] (site "${id}")`,
      mend: 'Give those another site or remove them first, under Days.',
    });
  }
  return edit({ label: `Removal of ${nameOf(id)}`, code: 'site.remove' }, (before) => ({
    ...before,
    sites: before.sites.filter((site) => site.id !== id),
  }));
}

/** How it is usually dived; none: at its depth. */
export function setSiteLevels(id: Id, levels: readonly Level[]): EditResult {
  return editSite(id, 'Levels', 'site.levels', (site) => {
    const { levels: _, ...rest } = site;
    return levels.length === 0 ? rest : { ...rest, levels };
  });
}

/** An empty text is taken out. */
export function setSiteText(id: Id, key: 'planB' | 'briefing', text: string): EditResult {
  const what = key === 'planB' ? 'Plan B' : 'Briefing';
  return editSite(id, what, `site.${key}`, (site) => {
    const { [key]: _, ...rest } = site;
    return text === '' ? rest : { ...rest, [key]: text };
  });
}

/** Who may not dive it: what is undefined or empty is taken out. */
export function setSiteNotFor(
  id: Id,
  patch: { readonly depthLimitUnderM?: number | null; readonly certifications?: readonly string[] },
): EditResult {
  return editSite(id, 'Who may dive', 'site.notFor', (site) => {
    const { notFor, ...rest } = site;
    const { depthLimitUnderM, certifications, ...others } = { ...notFor, ...patch };
    const next = {
      ...others,
      ...(depthLimitUnderM === undefined || depthLimitUnderM === null ? {} : { depthLimitUnderM }),
      ...(certifications === undefined || certifications.length === 0 ? {} : { certifications }),
    };
    return Object.keys(next).length === 0 ? rest : { ...rest, notFor: next };
  });
}

/** What of its water is not as the trip's; null takes it back to the trip's own. */
export function setSiteWater(
  id: Id,
  patch: { readonly density?: Water['density'] | null; readonly altitudeM?: number | null },
): EditResult {
  return editSite(id, 'Water', 'site.water', (site) => {
    const { water, ...rest } = site;
    const { density, altitudeM, ...others } = { ...water, ...patch };
    const next = {
      ...others,
      ...(density === undefined || density === null ? {} : { density }),
      ...(altitudeM === undefined || altitudeM === null ? {} : { altitudeM }),
    };
    return Object.keys(next).length === 0 ? rest : { ...rest, water: next };
  });
}
