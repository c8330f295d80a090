import type { Trouble } from '../result';
import type { Id, Site } from '../document/types';

/** What a list may tell of a site besides name, depth, notes and position. */
export type SiteExtras = Partial<Pick<Site, 'levels' | 'planB' | 'briefing' | 'notFor' | 'water'>>;

/** A site as another file gives it, before it has its place in a trip. */
export interface SiteDraft extends SiteExtras {
  readonly name: string;
  /** null where the file does not say: the diver has to. */
  readonly depthM: number | null;
  /** What the file lets guess of it, for the diver to confirm or mend; never taken by itself. */
  readonly suggestion?: DepthSuggestion;
  readonly notes: string;
  readonly position: { readonly lat: number; readonly lon: number } | null;
}

/** A depth that may be one: the height of a receiver below the sea, or the deepest of several that disagree. */
export interface DepthSuggestion {
  readonly from: 'elevation' | 'several';
  readonly depthM: number;
}

export type SiteTroubleKind = 'too-large' | 'too-many' | 'not-readable' | 'no-sites' | 'row';

/** What was understood, and every row or waypoint that was not: it is for the reader to take the rest or not. */
export interface SiteReading {
  readonly sites: readonly SiteDraft[];
  readonly troubles: readonly Trouble<SiteTroubleKind>[];
}

/** Longer than any list of sites by far; beyond it a text is something else. */
export const MAX_TEXT_LENGTH = 2_000_000;

/**
 * Refuses what no list of sites can be, before it is read.
 * @returns null where the text may be read
 */
export function textTooLarge(text: string): SiteReading | null {
  if (text.length <= MAX_TEXT_LENGTH) return null;
  const what = `The text has ${text.length} characters; a list of sites has fewer than ${MAX_TEXT_LENGTH}.`;
  return {
    sites: [],
    troubles: [{ kind: 'too-large', what, where: '', mend: 'Choose the file that holds the sites alone.' }],
  };
}

/** Sites of a trip, made from drafts that have their depth. */
export type DraftWithDepth = SiteDraft & { readonly depthM: number };

/**
 * Gives drafts the ids of a trip: "s1", "s2" and on, without those taken.
 * @param drafts with depth @param taken ids that stand in the trip
 * @returns sites in the same order
 */
export function sitesOfDrafts(drafts: readonly DraftWithDepth[], taken: Iterable<Id>): readonly Site[] {
  const known = new Set(taken);
  let count = 0;
  return drafts.map((draft) => {
    const { name, depthM, notes, position } = draft;
    let id: Id;
    do {
      count += 1;
      id = `s${count}`;
    } while (known.has(id));
    return { id, name, depthM, ...extrasOf(draft), notes, position };
  });
}

/** What of it is told, and nothing of what is not. */
function extrasOf({ levels, planB, briefing, notFor, water }: SiteDraft): SiteExtras {
  return {
    ...(levels && { levels }),
    ...(planB !== undefined && { planB }),
    ...(briefing !== undefined && { briefing }),
    ...(notFor && { notFor }),
    ...(water && { water }),
  };
}
