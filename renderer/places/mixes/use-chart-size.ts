import type { RefObject } from 'react';
import { usePrinting } from '../../parts/use-printing';
import { useSize, type Size } from '../../parts/use-size';

/** As wide as the strip is on paper, for which a browser sets a page a little smaller; so too in the charts' style sheets. */
const PAPER: Size = { widthPx: 850, heightPx: 400 };

/** Of the pictures of the class, which are three. */
export const CLASS_PAPER: Size = { ...PAPER, heightPx: 760 };

/** The size of a chart: that of its box, and of the paper while it is printed, where the rest of it would be cut off. */
export function useChartSize(box: RefObject<HTMLElement | null>, paper = PAPER): Size | null {
  const size = useSize(box);
  return usePrinting() ? paper : size;
}
