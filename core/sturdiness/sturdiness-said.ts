/** What the runs come to, in words that window and command share. */
import type { Scatter } from '../document/types';
import { bare, figure, inRow, said, typed, type Said } from '../words/said';
import { NONE, PAST, SHORT_LIMITS } from '../words/terms';
import type { PassedLimit } from './by-ledger';
import type { ScatterName } from './scatter';
import { LIMITS_PASSED, mostBy, type Sturdiness, type SturdyCell } from './sturdiness';

/** Stands wherever a share of runs does. Source: CONVENTIONS, "How sturdy a plan is". */
export const SPEAKS_OF = said`Shares of runs speak of the plan’s limits, never of the chance of injury.`;

/** What scatters, by its name. */
export const SCATTER_NAMES: Readonly<Record<ScatterName, Said>> = {
  depthM: said`depth`,
  bottomMin: said`bottom time`,
  startMin: said`start`,
  rateShare: said`gas rate`,
  o2: said`analysis`,
};

/** By how much: "depth 1 m, bottom time 2 min, …". */
export function scatterSaid({ depthM, bottomMin, startMin, rateShare, o2 }: Scatter): Said {
  return said`${inRow([
    said`${SCATTER_NAMES.depthM} ${typed('depth', depthM)}`,
    said`${SCATTER_NAMES.bottomMin} ${typed('minutes', bottomMin)}`,
    said`${SCATTER_NAMES.startMin} ${typed('minutes', startMin)}`,
    said`${SCATTER_NAMES.rateShare} ${figure('shareTyped', rateShare)}`,
    said`${SCATTER_NAMES.o2} ${figure('shareTyped', o2)} oxygen`,
  ])}`;
}

/** What was drawn, and how: "Each dive drawn 10000 times, seed 1, …". */
export function drawnSaid({ runs, seed, scatter }: Sturdiness): Said {
  return said`The dives ahead drawn ${runs} times, seed ${seed}; standard deviations: ${scatterSaid(scatter)}.`;
}

/** How many runs keep every limit, and which dive to ease first. @param place of that dive, as the face names dives */
export function headSaid({ keepsAll, dives, easeFirst }: Sturdiness, place: Said | null): Said {
  if (dives.length === 0) return said`No dive is ahead.`;
  const kept = said`${figure('shareLeft', keepsAll)} of the runs keep every limit on every dive.`;
  if (easeFirst === null || place === null) return kept;
  const { passes } = dives.find(({ diveId }) => diveId === easeFirst)!;
  return said`${kept} Ease first: ${place}; in ${figure('shareMet', passes)} of the runs somebody passes a limit there.`;
}

/** The limits that runs of a diver pass on a dive, those most passed first: "gas 21 %", "MOD 1 %". */
export function passedSaid({ passesEach }: Pick<SturdyCell, 'passesEach'>): readonly Said[] {
  const passed: readonly PassedLimit[] = LIMITS_PASSED.filter((limit) => passesEach[limit] > 0);
  const sorted = passed.toSorted((a, b) => passesEach[b] - passesEach[a]);
  return sorted.map((limit) => said`${SHORT_LIMITS[limit]} ${figure('shareMet', passesEach[limit])}`);
}

/** Minutes of a percentile, or that a limit is passed there that no shorter stay keeps. */
export function roomAtSaid(min: number | null): Said {
  return min === null ? PAST : said`${bare('minutesLeft', min)}`;
}

/** What does most, to the tenth that is known: "gas rate 90 %"; nothing where nothing varies. */
export function mostBySaid(cell: Pick<SturdyCell, 'shares'>): Said {
  const most = mostBy(cell);
  return most === null
    ? said`${NONE}`
    : said`${SCATTER_NAMES[most.name]} ${figure('shareRough', most.share)}`;
}

/** What the columns of rooms and of what does most are. */
export const COLUMNS_MEAN = said`Room, in minutes to the first limit that time decides: 5 and 50 in 100 runs have no more. Does most: the share of the room’s variance that would go if it were known.`;
