/** A list of sites as somebody typed, pasted or imported it, on its way into a trip. */
import { readSites } from '../../../core/formats/all';
import type { DraftWithDepth, SiteDraft } from '../../../core/formats/site-draft';
import type { Trouble } from '../../../core/result';
import { wordsIn, type Viewer } from '../../figures/reader';
import { memo } from '../../store/memo';

/** What a person said about the list: the text, depths it left out, rows not wanted. */
export interface SiteList {
  readonly text: string;
  /** By the row's place in the list; where the text gives none. */
  readonly depthsM: Readonly<Record<number, number>>;
  /** Rows whose tick was changed by hand. */
  readonly wanted: Readonly<Record<number, boolean>>;
}

export const EMPTY_SITE_LIST: SiteList = { text: '', depthsM: {}, wanted: {} };

/** Another text is another list: what was said about the rows of the one before is gone with it. */
export function listOf(text: string): SiteList {
  return { ...EMPTY_SITE_LIST, text };
}

export interface ListedSite {
  readonly index: number;
  readonly draft: SiteDraft;
  /** As the text has it, else as typed beside it; null: asked for. */
  readonly depthM: number | null;
  readonly isAsked: boolean;
  readonly isWanted: boolean;
  /** A site of this name stands in the trip, or earlier in the list. */
  readonly isKnown: boolean;
}

export interface ReadSiteList {
  readonly sites: readonly ListedSite[];
  readonly troubles: readonly Trouble[];
  /** What would be taken; null where a wanted row has no depth yet. */
  readonly drafts: readonly DraftWithDepth[] | null;
}

function sameName(name: string): string {
  return name.trim().toLowerCase();
}

/** What a text says is asked at every stroke of a key by whoever shows it, and read once. */
const textRead = memo((text: string, reader: Viewer) =>
  readSites(text, reader.units === 'imperial' ? 'ft' : 'm', wordsIn(reader)),
);

/**
 * What the list comes to. Rows whose name is known already are left unless wanted by hand, so that pasting the
 * same list twice doubles nothing.
 * @param reader whose units a bare depth is counted in @param known names of the sites there are
 */
export function readSiteList(list: SiteList, reader: Viewer, known: readonly string[]): ReadSiteList {
  if (list.text.trim() === '') return { sites: [], troubles: [], drafts: [] };
  const { sites, troubles } = textRead(list.text, reader);
  const names = new Set(known.map(sameName));
  const listed = sites.map((draft, index): ListedSite => {
    const isKnown = names.has(sameName(draft.name));
    names.add(sameName(draft.name));
    return {
      index,
      draft,
      depthM: draft.depthM ?? list.depthsM[index] ?? null,
      isAsked: draft.depthM === null,
      isWanted: list.wanted[index] ?? !isKnown,
      isKnown,
    };
  });
  const wanted = listed.filter(({ isWanted }) => isWanted);
  const drafts = wanted.flatMap(({ draft, depthM }) => (depthM === null ? [] : [{ ...draft, depthM }]));
  return { sites: listed, troubles, drafts: drafts.length === wanted.length ? drafts : null };
}
