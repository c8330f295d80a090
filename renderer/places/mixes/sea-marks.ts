import type { CompareCell, CompareRow } from '../../../core/mixes/compare';
import type { Trip } from '../../../core/document/types';
import { bare, figure, NOTHING, said, type Said } from '../../../core/words/said';
import { mixSaid, NO_END } from '../../../core/words/terms';
import { LONGEST_MIN, type SeaScale } from './sea-scale';

/** A mix at a site, where it stands in the chart. */
export interface SeaMark {
  readonly siteAt: number;
  readonly mixAt: number;
  /** Null: no end. */
  readonly min: number | null;
  readonly depthM: number;
  /** It is the mix of the site's tightest dive. */
  readonly isUsed: boolean;
}

/** What is planned at a site on the mix it is on, and the limit of that. */
export interface SeaPlan {
  readonly siteAt: number;
  readonly mixAt: number;
  readonly depthM: number;
  readonly min: number;
  readonly noStopMin: number | null;
}

/** In the trip the site's tightest dive on the mix it is on, and what the others would give; else a first dive. */
export function seaMarks(rows: readonly CompareRow[], inTrip: boolean): readonly SeaMark[] {
  return rows.flatMap(({ site, cells, tightest }, siteAt) =>
    cells.flatMap((cell, mixAt): readonly SeaMark[] => {
      const time = inTrip ? cell.inTrip : cell.alone;
      if (time === null) return [];
      const depthM = inTrip ? cell.inTrip!.depthM : site.depthM;
      const isUsed =
        inTrip &&
        tightest?.mix.id === cell.mix.id &&
        tightest.depthM === depthM &&
        tightest.noStopMin === time.min;
      return [{ siteAt, mixAt, min: time.min, depthM, isUsed }];
    }),
  );
}

export function seaPlans(rows: readonly CompareRow[]): readonly SeaPlan[] {
  return rows.flatMap(({ tightest, cells }, siteAt) => {
    if (tightest === null) return [];
    const mixAt = cells.findIndex(({ mix }) => mix.id === tightest.mix.id);
    const { depthM, min, noStopMin } = tightest;
    return [{ siteAt, mixAt, depthM, min, noStopMin }];
  });
}

/** Under so much left a dive stands out. Source: this project's; what a dive may run over by. */
export const SNUG_MIN = 5;

export function isSnug({ min, noStopMin }: SeaPlan): boolean {
  return noStopMin !== null && noStopMin - min < SNUG_MIN;
}

/** What has no place on the scale of minutes has no minutes beside it. */
export function hasLabel({ min }: SeaMark): boolean {
  return min !== null && min <= LONGEST_MIN;
}

/** How far words reach beside a mark, in em: "130 85 left" behind it, "130" above it. */
const REACH_EM = { used: 6, other: 1 };
const HIGH_EM = 0.95;

/** Where minutes stand from the middle of their mark, pixels: behind it, or above it. */
export const LABEL_AT = { used: { x: 10, y: 5 }, other: { x: 0, y: -9 } };

/**
 * The marks whose minutes cover no others: those of the mixes in use first, and of two the shorter, which a plan meets first.
 * @param emPx size of the type, pixels
 */
export function marksWithRoom(
  marks: readonly SeaMark[],
  { xPx, yPx }: Pick<SeaScale, 'xPx' | 'yPx'>,
  emPx: number,
): ReadonlySet<SeaMark> {
  const taken: { readonly from: number; readonly to: number; readonly y: number }[] = [];
  const shown = new Set<SeaMark>();
  const inOrder = marks
    .filter(hasLabel)
    .toSorted((a, b) => Number(b.isUsed) - Number(a.isUsed) || a.min! - b.min!);
  for (const mark of inOrder) {
    const x = xPx(mark.min);
    const [from, to] = mark.isUsed
      ? [x, x + REACH_EM.used * emPx]
      : [x - REACH_EM.other * emPx, x + REACH_EM.other * emPx];
    const y = yPx(mark.depthM) + LABEL_AT[mark.isUsed ? 'used' : 'other'].y;
    const isCovered = taken.some(
      (box) => box.from < to && from < box.to && Math.abs(box.y - y) < HIGH_EM * emPx,
    );
    if (isCovered) continue;
    taken.push({ from, to, y });
    shown.add(mark);
  }
  return shown;
}

function oxygenSaid({ cns, otu }: CompareCell): Said {
  return otu === null ? NOTHING : said`; CNS ${figure('shareMet', cns)}, ${bare('doseMet', otu)} OTU`;
}

/** What a mark says to who points at it. */
export function markSaid(mark: SeaMark, rows: readonly CompareRow[], trip: Trip): Said {
  const row = rows[mark.siteAt]!;
  const cell = row.cells[mark.mixAt]!;
  const time = mark.min === null ? NO_END : said`${figure('minutesLeft', mark.min)}`;
  const head = said`${row.site.name}, ${mixSaid(cell.o2)}: ${time} at ${figure('depthMet', mark.depthM)}`;
  const { tightest } = row;
  if (!mark.isUsed || tightest === null) return said`${head}${oxygenSaid(cell)}.`;
  const number = trip.dives.findIndex(({ id }) => id === tightest.dive.id) + 1;
  const left =
    tightest.noStopMin === null
      ? NOTHING
      : said`, ${figure('minutesLeft', tightest.noStopMin - tightest.min)} left`;
  return said`${head}; dive ${number} of ${tightest.diver.name} is on it, ${figure('minutesSet', tightest.min)} there${left}${oxygenSaid(cell)}.`;
}
