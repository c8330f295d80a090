import type { Trip } from '../document/types';
import { figure, listed, NOTHING, said, type Said } from '../words/said';
import { countSaid, mixSaid } from '../words/terms';
import type { CompareRow } from './compare';

/** How far the richest mix reaches, and what is taken where it does not: "EAN32 may go to five of the six sites". */
export function reachSaid(rows: readonly CompareRow[]): Said {
  const richest = rows[0]?.cells.at(-1);
  if (richest === undefined) return NOTHING;
  const name = mixSaid(richest.o2);
  const below = rows.filter((row) => !row.cells.at(-1)!.allowed);
  if (below.length === 0) {
    return rows.length === 1
      ? said`${name} can be used at the site.`
      : said`${name} can be used at all ${countSaid(rows.length)} sites.`;
  }
  const instead = below.map((row) => {
    const taken = row.cells.findLast((cell) => cell.allowed);
    return taken === undefined
      ? said`${row.site.name} takes none`
      : said`${row.site.name} takes ${mixSaid(taken.o2)}`;
  });
  const suited = rows.length - below.length;
  return said`${name} can be used at ${countSaid(suited)} of ${countSaid(rows.length)} sites; ${listed(instead)}.`;
}

/** The site where a dive comes nearest to its no-stop limit, or is past it; nothing where none meets one. */
export function nearestSaid(rows: readonly CompareRow[], trip: Trip): Said {
  let found: { readonly row: CompareRow; readonly leftMin: number } | null = null;
  for (const row of rows) {
    const { tightest } = row;
    if (tightest === null || tightest.noStopMin === null) continue;
    const leftMin = tightest.noStopMin - tightest.min;
    if (found === null || leftMin < found.leftMin) found = { row, leftMin };
  }
  if (found === null) return NOTHING;
  const { site, tightest } = found.row;
  const number = trip.dives.findIndex(({ id }) => id === tightest!.dive.id) + 1;
  const left = figure('minutesLeft', found.leftMin);
  return found.leftMin < 0
    ? said`Past its no-stop limit: dive ${number} at ${site.name}, ${left} left.`
    : said`Nearest its no-stop limit: dive ${number} at ${site.name}, ${left} left.`;
}
