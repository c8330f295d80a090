/** Axes and labels of the charts of this place: pure, in the chart's own pixels. */

/** Round figures that cover a range, about so many. Source: steps of 1, 2 and 5, common practice of charts. */
export function niceTicks(least: number, most: number, wanted: number): readonly number[] {
  const span = Math.max(most - least, 1e-9);
  const rough = span / wanted;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((each) => each * power).find((each) => each >= rough - 1e-12)!;
  const from = Math.floor(least / step + 1e-9);
  const to = Math.max(Math.ceil(most / step - 1e-9), from + 1);
  return Array.from({ length: to - from + 1 }, (_, i) => (from + i) * step);
}

/** A mark that wants a label, the most wanted first. */
export interface Wanting {
  readonly key: string;
  readonly xPx: number;
  readonly yPx: number;
  readonly text: string;
}

/** Where a label stands: its anchor and its foot. */
export interface Placed {
  readonly key: string;
  readonly text: string;
  readonly xPx: number;
  readonly yPx: number;
  readonly anchor: 'start' | 'middle' | 'end';
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const LETTER_PX = 6.6;
const HEIGHT_PX = 14;
const MARK_PX = 6;

function overlaps(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

function boxOf({ text, xPx, yPx, anchor }: Omit<Placed, 'key'>): Box {
  const width = text.length * LETTER_PX;
  const left = anchor === 'start' ? xPx : anchor === 'end' ? xPx - width : xPx - width / 2;
  return { left, right: left + width, top: yPx - HEIGHT_PX + 3, bottom: yPx + 3 };
}

/**
 * Labels that cover no mark and no other label: to the right, to the left, above or below; where none of these is
 * free the label yields.
 * @param wanting the most wanted first @param frame that labels must stand in
 */
export function placeLabels(wanting: readonly Wanting[], frame: Box): readonly Placed[] {
  const taken: Box[] = wanting.map(({ xPx, yPx }) => ({
    left: xPx - MARK_PX,
    right: xPx + MARK_PX,
    top: yPx - MARK_PX,
    bottom: yPx + MARK_PX,
  }));
  const placed: Placed[] = [];
  wanting.forEach(({ key, text, xPx, yPx }, own) => {
    const offers = [
      { xPx: xPx + 9, yPx: yPx + 4, anchor: 'start' },
      { xPx: xPx - 9, yPx: yPx + 4, anchor: 'end' },
      { xPx, yPx: yPx - 10, anchor: 'middle' },
      { xPx, yPx: yPx + 19, anchor: 'middle' },
    ] as const;
    for (const offer of offers) {
      const label = { key, text, ...offer };
      const box = boxOf(label);
      const isInside =
        box.left >= frame.left &&
        box.right <= frame.right &&
        box.top >= frame.top &&
        box.bottom <= frame.bottom;
      if (!isInside || taken.some((other, at) => at !== own && overlaps(box, other))) continue;
      placed.push(label);
      taken.push(box);
      return;
    }
  });
  return placed;
}

/** Heights moved apart, in order, so that no two labels lie closer. @param wanted rising */
export function apart(wanted: readonly number[], gapPx: number, bottom: number): readonly number[] {
  const placed: number[] = [];
  for (const y of wanted) placed.push(Math.max(y, (placed.at(-1) ?? -Infinity) + gapPx));
  let limit = bottom;
  for (let i = placed.length - 1; i >= 0; i -= 1) {
    placed[i] = Math.min(placed[i]!, limit);
    limit = placed[i]! - gapPx;
  }
  return placed;
}
