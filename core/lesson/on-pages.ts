import type { Block } from '../slate/layout';

/** Blocks on pages in order, as many as fit; null where one is higher than a page. */
export function onPages(blocks: readonly Block[], availablePt: number): readonly (readonly Block[])[] | null {
  const pages: Block[][] = [];
  let usedPt = 0;
  for (const block of blocks) {
    if (block.heightPt > availablePt) return null;
    const page = pages[pages.length - 1];
    if (page === undefined || usedPt + block.heightPt > availablePt) {
      pages.push([block]);
      usedPt = block.heightPt;
    } else {
      page.push(block);
      usedPt += block.heightPt;
    }
  }
  return pages;
}
