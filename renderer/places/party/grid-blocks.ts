import type { Dive } from '../../../core/document/types';

/** Dives that follow each other in one table. */
export interface GridBlock {
  /** The place of its first dive among all of them. */
  readonly from: number;
  readonly dives: readonly Dive[];
}

/** Cuts dives into tables that fit on paper, between days where a day itself fits. */
export function gridBlocks(dives: readonly Dive[], most: number): readonly GridBlock[] {
  const blocks: { from: number; dives: Dive[] }[] = [];
  let from = 0;
  while (from < dives.length) {
    const date = dives[from]!.startsAt.slice(0, 10);
    const ofDay = dives.slice(from).findIndex(({ startsAt }) => !startsAt.startsWith(date));
    const count = Math.min(ofDay === -1 ? dives.length - from : ofDay, most);
    const day = dives.slice(from, from + count);
    const last = blocks.at(-1);
    if (last && last.dives.length + count <= most) last.dives.push(...day);
    else blocks.push({ from, dives: day });
    from += count;
  }
  return blocks;
}
