/**
 * Which figures stand where, so that none covers another: first a mix is left out, then an interval, and only
 * then is a sounding moved. Soundings are never left out. Pure geometry over widths estimated from the text.
 */

/** A dive as the page has it, pixels from the strip's left edge and from the waterline down. */
export interface LabelledDive {
  readonly lineX: number;
  readonly barEndX: number;
  readonly surfacesX: number;
  readonly weightY: number;
  readonly sounding: string;
  readonly mix: string;
  /** Surface interval before it; empty for none. */
  readonly interval: string;
  /** Where the dive before it surfaced; where the interval begins. */
  readonly intervalFromX: number;
  /** Shown before its neighbours where only one of them can be. */
  readonly isFirstChoice: boolean;
}

export interface LabelPlace {
  /** Left end and baseline of the sounding. */
  readonly soundingX: number;
  readonly soundingY: number;
  readonly showsMix: boolean;
  readonly showsInterval: boolean;
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Widths of a character in the strip's sizes, a little generous: IBM Plex Sans italic 13 px and Condensed 10 px. */
export const CHARACTER_PX = { sounding: 8, mix: 5.2, interval: 4.9 } as const;
export const LINE_PX = 14;
/** Baseline of a sounding below the middle of its weight. */
const BASELINE_PX = 18;
const MIX_GAP_PX = 3;
const WEIGHT_HALF_PX = 5;

/** How far a sounding may be moved: to the other side of its line, or down by lines; tried in this order. */
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

/**
 * Places every label.
 * @param dives from left to right
 * @param widthPx width of the water @param heightPx its height: labels stay inside
 * @returns one place a dive, in the same order
 */
export function placeLabels(
  dives: readonly LabelledDive[],
  widthPx: number,
  heightPx: number,
): readonly LabelPlace[] {
  const obstacles = dives.map((dive) => obstaclesOf(dive));
  const order = dives
    .map((_, i) => i)
    .toSorted((a, b) => Number(dives[b]!.isFirstChoice) - Number(dives[a]!.isFirstChoice) || a - b);

  const soundings: Box[] = [];
  const soundingOf: Box[] = [];
  for (const i of order) {
    const box = freeBox(dives[i]!, i, obstacles, soundings, widthPx, heightPx);
    soundings.push(box);
    soundingOf[i] = box;
  }

  const mixes: Box[] = [];
  const mixShown = new Set<number>();
  for (const i of order) {
    const box = mixBox(soundingOf[i]!, dives[i]!);
    const isFree =
      box.right <= widthPx &&
      soundingOf.every((other, k) => k === i || !overlap(box, other)) &&
      mixes.every((other) => !overlap(box, other)) &&
      obstacles.every((boxes, k) => k === i || boxes.every((other) => !overlap(box, other)));
    if (!isFree) continue;
    mixes.push(box);
    mixShown.add(i);
  }

  const intervals: Box[] = [];
  const intervalShown = new Set<number>();
  for (const i of order) {
    const box = intervalBox(dives[i]!);
    if (box === null || box.left < 0 || box.right > widthPx) continue;
    if (intervals.some((other) => overlap(box, other))) continue;
    intervals.push(box);
    intervalShown.add(i);
  }

  return dives.map((_, i) => ({
    soundingX: soundingOf[i]!.left,
    soundingY: soundingOf[i]!.bottom - DESCENDER_PX,
    showsMix: mixShown.has(i),
    showsInterval: intervalShown.has(i),
  }));
}

const DESCENDER_PX = 3;

function soundingBox(dive: LabelledDive, side: 1 | -1, lines: number): Box {
  const width = dive.sounding.length * CHARACTER_PX.sounding;
  const left = side === 1 ? dive.lineX - 1 : dive.lineX + WEIGHT_HALF_PX - width;
  const baseline = dive.weightY + BASELINE_PX + lines * LINE_PX;
  return { left, right: left + width, top: baseline - 10, bottom: baseline + DESCENDER_PX };
}

/** The first place that is free; where none is, the one that covers least. */
function freeBox(
  dive: LabelledDive,
  index: number,
  obstacles: readonly (readonly Box[])[],
  placed: readonly Box[],
  widthPx: number,
  heightPx: number,
): Box {
  let best: Box | null = null;
  let leastCovered = Number.POSITIVE_INFINITY;
  for (const { side, lines } of MOVES) {
    const box = soundingBox(dive, side, lines);
    if (box.left < 0 || box.right > widthPx || box.bottom > heightPx || box.top < 0) continue;
    // A figure under another figure cannot be read at all; across a thin line it still can.
    const covered =
      10 * placed.reduce((sum, other) => sum + common(box, other), 0) +
      obstacles.reduce(
        (sum, boxes, k) =>
          sum + (k === index ? 0 : boxes.reduce((part, other) => part + common(box, other), 0)),
        0,
      );
    if (covered === 0) return box;
    if (covered < leastCovered) {
      best = box;
      leastCovered = covered;
    }
  }
  return best ?? soundingBox(dive, 1, 0);
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

function mixBox(sounding: Box, dive: LabelledDive): Box {
  const left = sounding.right + MIX_GAP_PX;
  return { ...sounding, left, right: left + dive.mix.length * CHARACTER_PX.mix };
}

/** Centred over the gap; it may reach over its ends, as nothing else is written on that row. */
function intervalBox(dive: LabelledDive): Box | null {
  if (dive.interval === '') return null;
  const middle = (dive.intervalFromX + dive.lineX) / 2;
  const half = (dive.interval.length * CHARACTER_PX.interval) / 2 + 2;
  return { left: middle - half, right: middle + half, top: 0, bottom: 10 };
}

function common(a: Box, b: Box): number {
  const width = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const height = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return width > 0 && height > 0 ? width * height : 0;
}

function overlap(a: Box, b: Box): boolean {
  return common(a, b) > 0;
}
