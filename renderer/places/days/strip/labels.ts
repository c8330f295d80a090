/**
 * Which figures stand where, so that none covers another: first a mix is left out, then an interval, and only
 * then is a sounding moved. Soundings are never left out. Pure geometry over widths estimated from the text.
 */

/** A dive as the page has it, pixels from the strip's left edge and from the waterline down. */
export interface LabelledDive {
  readonly lineX: number;
  readonly barEndX: number;
  readonly weightY: number;
  readonly sounding: string;
  readonly mix: string;
  /** Surface interval before it; empty for none. */
  readonly interval: string;
  /** Where the dive before it surfaced; where the interval begins. */
  readonly intervalFromX: number;
  /** Where the next day begins: a label that crosses it could be read as that day's. */
  readonly dayEndX: number;
  /** Shown before its neighbours where only one of them can be. */
  readonly isFirstChoice: boolean;
}

export interface LabelPlace {
  /** Left end and baseline of the sounding. */
  readonly soundingX: number;
  readonly soundingY: number;
  /** Beside the sounding, on the line under it where only that is free, or left out. */
  readonly mix: 'beside' | 'below' | null;
  readonly showsInterval: boolean;
}

/** The page labels stand on. */
export interface Page {
  readonly widthPx: number;
  readonly heightPx: number;
  /** 1 to 2: text grows, the page does not. */
  readonly textScale: number;
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Widths of a character at 100 % text, a little generous: IBM Plex Sans italic 13 px and Condensed 10.6 px. */
export const CHARACTER_PX = { sounding: 8, mix: 6, interval: 5 } as const;
/** Height of figures above their baseline, and what hangs below it, at 100 % text. */
export const ASCENDER_PX = 10;
export const DESCENDER_PX = 3;
const LINE_PX = 14;
/** From the middle of a weight to the top of its sounding. */
const SOUNDING_TOP_PX = 8;
const MIX_GAP_PX = 3;
/** From the baseline of a sounding to that of a mix under it. */
export const MIX_LINE_PX = 12;
const WEIGHT_HALF_PX = 5;

/** How far a sounding may be moved: to the other side of its line, or by lines; tried in this order. */
const MOVES = [
  { side: 1, lines: 0 },
  { side: -1, lines: 0 },
  { side: 1, lines: 1 },
  { side: -1, lines: 1 },
  { side: 1, lines: 2 },
  { side: -1, lines: 2 },
  { side: 1, lines: 3 },
  { side: 1, lines: -2 },
  { side: -1, lines: -2 },
] as const;

/** Where a mix may stand, tried in this order: within its day first. */
const MIX_PLACES = [
  { place: 'beside', mayCross: false },
  { place: 'below', mayCross: false },
  { place: 'beside', mayCross: true },
  { place: 'below', mayCross: true },
] as const;

/**
 * Places every label.
 * @param dives from left to right
 * @returns one place a dive, in the same order
 */
export function placeLabels(dives: readonly LabelledDive[], page: Page): readonly LabelPlace[] {
  const obstacles = dives.map(obstaclesOf);
  const neighbours = neighboursOf(dives, page.textScale);
  const order = dives
    .map((_, i) => i)
    .toSorted((a, b) => Number(dives[b]!.isFirstChoice) - Number(dives[a]!.isFirstChoice) || a - b);

  const soundings: Box[] = [];
  for (const i of order) {
    const near = neighbours[i]!;
    const placed = near.flatMap((k) => soundings[k] ?? []);
    const around = near.flatMap((k) => obstacles[k]!);
    soundings[i] = freeBox(dives[i]!, around, placed, page);
  }

  const mixes: Box[] = [];
  const mixPlaces: LabelPlace['mix'][] = dives.map(() => null);
  for (const i of order) {
    for (const { place, mayCross } of MIX_PLACES) {
      const box = mixBox(soundings[i]!, dives[i]!, place, page);
      const isFree =
        box.right <= (mayCross ? page.widthPx : Math.min(page.widthPx, dives[i]!.dayEndX)) &&
        box.bottom <= page.heightPx &&
        neighbours[i]!.every(
          (k) =>
            common(box, soundings[k]!) === 0 &&
            (mixes[k] === undefined || common(box, mixes[k]) === 0) &&
            obstacles[k]!.every((other) => common(box, other) === 0),
        );
      if (!isFree) continue;
      mixes[i] = box;
      mixPlaces[i] = place;
      break;
    }
  }

  const intervals: Box[] = [];
  const withInterval = new Set<number>();
  for (const i of order) {
    const box = intervalBox(dives[i]!, page);
    if (box === null || box.left < 0 || box.right > page.widthPx) continue;
    if (intervals.some((other) => common(box, other) > 0)) continue;
    intervals.push(box);
    withInterval.add(i);
  }

  return soundings.map((box, i) => ({
    soundingX: box.left,
    soundingY: box.bottom - DESCENDER_PX * page.textScale,
    mix: mixPlaces[i] ?? null,
    showsInterval: withInterval.has(i),
  }));
}

function soundingBox(dive: LabelledDive, side: 1 | -1, lines: number, textScale: number): Box {
  const width = dive.sounding.length * CHARACTER_PX.sounding * textScale;
  const left = side === 1 ? dive.lineX - 1 : dive.lineX + WEIGHT_HALF_PX - width;
  const top = dive.weightY + SOUNDING_TOP_PX + lines * LINE_PX * textScale;
  return { left, right: left + width, top, bottom: top + (ASCENDER_PX + DESCENDER_PX) * textScale };
}

/** The first place that is free; where none is, the one that covers least. */
function freeBox(
  dive: LabelledDive,
  around: readonly Box[],
  placed: readonly Box[],
  { widthPx, heightPx, textScale }: Page,
): Box {
  let best: Box | null = null;
  let leastCovered = Number.POSITIVE_INFINITY;
  for (const { side, lines } of MOVES) {
    const box = soundingBox(dive, side, lines, textScale);
    if (box.left < 0 || box.right > widthPx || box.bottom > heightPx || box.top < 0) continue;
    // A figure under another figure cannot be read at all; across a thin line it still can.
    const covered = 10 * coveredBy(box, placed) + coveredBy(box, around);
    if (covered === 0) return box;
    if (covered < leastCovered) {
      best = box;
      leastCovered = covered;
    }
  }
  return best ?? soundingBox(dive, 1, 0, textScale);
}

function coveredBy(box: Box, others: readonly Box[]): number {
  return others.reduce((sum, other) => sum + common(box, other), 0);
}

/** How far the labels of a dive reach from its line to the right, pixels; to the left less. */
function reachOf({ sounding, mix }: LabelledDive, textScale: number): number {
  const words = sounding.length * CHARACTER_PX.sounding + mix.length * CHARACTER_PX.mix;
  return words * textScale + MIX_GAP_PX + WEIGHT_HALF_PX;
}

/** For each dive the others whose line, bar or labels its own labels could meet. */
function neighboursOf(dives: readonly LabelledDive[], textScale: number): readonly (readonly number[])[] {
  const reaches = dives.map((dive) => reachOf(dive, textScale));
  const near: number[][] = dives.map(() => []);
  dives.forEach((dive, i) => {
    for (let k = i + 1; k < dives.length; k += 1) {
      const other = dives[k]!;
      const apart = reaches[i]! + reaches[k]!;
      if (Math.max(dive.barEndX, dive.lineX) + apart < other.lineX) continue;
      if (Math.max(other.barEndX, other.lineX) + apart < dive.lineX) continue;
      near[i]!.push(k);
      near[k]!.push(i);
    }
  });
  return near;
}

/** What of a dive must not be written over: its line, its weight and its bar. The dotted way up may be. */
function obstaclesOf(dive: LabelledDive): readonly Box[] {
  return [
    { left: dive.lineX - 1, right: dive.lineX + 1, top: 0, bottom: dive.weightY },
    {
      left: dive.lineX - WEIGHT_HALF_PX,
      right: Math.max(dive.barEndX, dive.lineX + WEIGHT_HALF_PX),
      top: dive.weightY - WEIGHT_HALF_PX,
      bottom: dive.weightY + WEIGHT_HALF_PX,
    },
  ];
}

function mixBox(sounding: Box, dive: LabelledDive, place: 'beside' | 'below', { textScale }: Page): Box {
  const left = place === 'beside' ? sounding.right + MIX_GAP_PX : sounding.left;
  const down = place === 'beside' ? 0 : MIX_LINE_PX * textScale;
  return {
    left,
    right: left + dive.mix.length * CHARACTER_PX.mix * textScale,
    top: sounding.top + down,
    bottom: sounding.bottom + down,
  };
}

/** Centred over the gap; it may reach over its ends, as nothing else is written on that row. */
function intervalBox(dive: LabelledDive, { textScale }: Page): Box | null {
  if (dive.interval === '') return null;
  const middle = (dive.intervalFromX + dive.lineX) / 2;
  const half = (dive.interval.length * CHARACTER_PX.interval * textScale) / 2 + 2;
  return { left: middle - half, right: middle + half, top: 0, bottom: 10 };
}

function common(a: Box, b: Box): number {
  const width = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const height = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return width > 0 && height > 0 ? width * height : 0;
}
