/**
 * What was said of single dives of the draft, by the names of sites: ids are made anew with every list of sites, and a
 * name that is gone says nothing.
 */
import type { CellAsk } from '../../../core/proposal/starting-cells';
import type { DraftCell, StartingTrip } from '../../../core/proposal/starting-sheet';
import { siteName } from '../../../core/document/site-of';
import type { Dive, Site, Trip } from '../../../core/document/types';
import type { ProfileShape } from '../../../core/profile';

export type CellChoice =
  | { readonly kind: 'drop' }
  | { readonly kind: 'site'; readonly site: string }
  | {
      readonly kind: 'lock';
      readonly site: string;
      readonly shape: Pick<ProfileShape, 'depthM' | 'bottomMin' | 'legs'>;
    };

export type AskedCell = CellChoice & { readonly startsAt: string };

/** The list with a choice in the place of what was said of that time before; null takes it back. */
export function askedOf(
  cells: readonly AskedCell[],
  startsAt: string,
  choice: CellChoice | null,
): readonly AskedCell[] {
  const others = cells.filter((each) => each.startsAt !== startsAt);
  return choice === null ? others : [...others, { ...choice, startsAt }];
}

export function siteAsk(site: string): CellChoice | null {
  return site === '' ? null : { kind: 'site', site };
}

/** The dive as it stands, to stay so. */
export function lockOf(trip: Trip, { siteId, depthM, bottomMin, legs }: Dive): CellChoice {
  return {
    kind: 'lock',
    site: siteName(trip, { siteId }),
    shape: { depthM, bottomMin, ...(legs === undefined ? {} : { legs }) },
  };
}

/** The two dives at each other's sites; a place without a dive gets one there, and leaves its other empty. */
export function swapped(
  cells: readonly AskedCell[],
  { trip }: StartingTrip,
  one: DraftCell,
  other: DraftCell,
): readonly AskedCell[] {
  const choiceOf = ({ diveId }: DraftCell): CellChoice => {
    const dive = trip.dives.find(({ id }) => id === diveId);
    return dive ? { kind: 'site', site: siteName(trip, dive) } : { kind: 'drop' };
  };
  return askedOf(askedOf(cells, one.startsAt, choiceOf(other)), other.startsAt, choiceOf(one));
}

/** What the drafts are asked, with the sites as they stand now. */
export function cellAsks(cells: readonly AskedCell[], sites: readonly Site[]): readonly CellAsk[] {
  return cells.flatMap((cell): readonly CellAsk[] => {
    const { startsAt } = cell;
    if (cell.kind === 'drop') return [{ kind: 'drop', startsAt }];
    const siteId = sites.find(({ name }) => name === cell.site)?.id;
    if (siteId === undefined) return [];
    return cell.kind === 'site'
      ? [{ kind: 'site', startsAt, siteId }]
      : [{ kind: 'lock', startsAt, siteId, shape: cell.shape }];
  });
}
