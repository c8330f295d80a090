/** How the table of sites is looked at: kept while the window is open, never part of the trip. */
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import { EMPTY_SITE_LIST, type SiteList } from './site-list';
import type { SiteSort } from './site-rows';

export interface SitesView {
  /** null: the order of the trip. */
  readonly sort: SiteSort | null;
  readonly isDescending: boolean;
  readonly typed: string;
  /** Typed or pasted, and not yet taken. */
  readonly list: SiteList;
}

export const sitesView = createStore<SitesView>()(() => ({
  sort: null,
  isDescending: false,
  typed: '',
  list: EMPTY_SITE_LIST,
}));

export function useSitesView<T>(selector: (view: SitesView) => T): T {
  return useStore(sitesView, selector);
}

export function chooseSitesView(patch: Partial<SitesView>): void {
  sitesView.setState(patch);
}

/** Once for up, again for down, a third time for the order of the trip. */
export function sortSitesBy(sort: SiteSort): void {
  const { sort: held, isDescending } = sitesView.getState();
  if (held !== sort) chooseSitesView({ sort, isDescending: false });
  else if (!isDescending) chooseSitesView({ isDescending: true });
  else chooseSitesView({ sort: null, isDescending: false });
}
