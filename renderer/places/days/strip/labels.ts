/**
 * Which figures stand where, so that none covers another: first a mix is left out, then an interval, and only
 * then is a sounding moved. A sounding stands nearer to its own weight than to any other, else it is left out:
 * read at another's weight it would tell a wrong depth. Pure geometry over widths estimated from the text.
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
  /** Carries a sign of care, which should be seen: next in line. */
  readonly hasCare: boolean;
}

export interface LabelPlace {
  /** False where no place is left that only this dive can be meant by; its name says the depth still. */
  readonly showsSounding: boolean;
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
  /** What else is written on the water, and must be readable. */
  readonly written?: readonly Box[];
}

/** Pixels from the strip's left edge and from the waterline down. */
export interface Box {
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
const LINE_HALF_PX = 1;

/** Any other weight is so many times as far from a sounding as its own, or nobody sees whose it is. */
const CLEARLY = 1.5;
/** Weights as near as this are one to the eye, and their dives as deep. */
const SAME_PX = 1.5;

/**
 * How far a sounding may be moved, tried in this order: to the other side of its line, by lines, or out beside
 * its weight.
 */
const MOVES = [
  { side: 1, lines: 0, outPx: 0 },
  { side: -1, lines: 0, outPx: 0 },
  { side: 1, lines: 1, outPx: 0 },
  { side: -1, lines: 1, outPx: 0 },
  { side: -1, lines: -1, outPx: 2 * WEIGHT_HALF_PX + 2 },
  { side: 1, lines: 2, outPx: 0 },
  { side: -1, lines: 2, outPx: 0 },
  { side: 1, lines: 3, outPx: 0 },
  { side: 1, lines: -2, outPx: 0 },
  { side: -1, lines: -2, outPx: 0 },
  { side: 1, lines: -1, outPx: 'past the bar' },
  { side: 1, lines: -3, outPx: 0 },
  { side: -1, lines: -3, outPx: 0 },
] as const;

const MOST_LINES = Math.max(...MOVES.map(({ lines }) => lines));

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
  const { written = [] } = page;
  const obstacles = dives.map(obstaclesOf);
  const neighbours = neighboursOf(dives, page.textScale);
  const order = dives.map((_, i) => i).toSorted((a, b) => urgency(dives[b]!) - urgency(dives[a]!) || a - b);

  const soundings: (Box | null)[] = dives.map(() => null);
  for (const i of order) {
    const near = neighbours[i]!;
    const placed = [...near.flatMap((k) => soundings[k] ?? []), ...written];
    // Its own bar counts as the others' do: a depth stands on it only where no other place is left.
    const around = [...obstacles[i]!, ...near.flatMap((k) => obstacles[k]!)];
    const others = near.map((k) => dives[k]!);
    soundings[i] = freeBox(dives[i]!, { others, around, placed }, page);
  }

  const mixes: Box[] = [];
  const mixPlaces: LabelPlace['mix'][] = dives.map(() => null);
  for (const i of order) {
    const sounding = soundings[i];
    if (!sounding) continue;
    for (const { place, mayCross } of MIX_PLACES) {
      const box = mixBox(sounding, dives[i]!, place, page);
      const isFree =
        box.right <= (mayCross ? page.widthPx : Math.min(page.widthPx, dives[i]!.dayEndX)) &&
        box.bottom <= page.heightPx &&
        coveredBy(box, [...written, ...obstacles[i]!]) === 0 &&
        neighbours[i]!.every(
          (k) =>
            (!soundings[k] || common(box, soundings[k]) === 0) &&
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

  return soundings.map((placed, i) => {
    const box = placed ?? soundingBox(dives[i]!, MOVES[0], page.textScale);
    return {
      showsSounding: placed !== null,
      soundingX: box.left,
      soundingY: box.bottom - DESCENDER_PX * page.textScale,
      mix: mixPlaces[i] ?? null,
      showsInterval: withInterval.has(i),
    };
  });
}

function urgency({ isFirstChoice, hasCare }: LabelledDive): number {
  return 2 * Number(isFirstChoice) + Number(hasCare);
}

function soundingBox(dive: LabelledDive, move: (typeof MOVES)[number], textScale: number): Box {
  const width = dive.sounding.length * CHARACTER_PX.sounding * textScale;
  // Over the weight a sounding stands beside the line, elsewhere under the weight.
  const isAbove = move.lines < -1;
  const left =
    move.outPx === 'past the bar'
      ? Math.max(dive.barEndX, dive.lineX + WEIGHT_HALF_PX) + 2
      : move.side === 1
        ? dive.lineX + (isAbove ? LINE_HALF_PX : -LINE_HALF_PX) + move.outPx
        : dive.lineX + (isAbove ? -LINE_HALF_PX : WEIGHT_HALF_PX) - move.outPx - width;
  const top = dive.weightY + SOUNDING_TOP_PX + move.lines * LINE_PX * textScale;
  return { left, right: left + width, top, bottom: top + (ASCENDER_PX + DESCENDER_PX) * textScale };
}

interface Surroundings {
  readonly others: readonly LabelledDive[];
  /** What may be written over at worst. */
  readonly around: readonly Box[];
  /** What may not. */
  readonly placed: readonly Box[];
}

/** The first place that is free; else the one that covers least of lines and bars; null where none is its own. */
function freeBox(dive: LabelledDive, { others, around, placed }: Surroundings, page: Page): Box | null {
  let best: Box | null = null;
  let leastCovered = Number.POSITIVE_INFINITY;
  for (const move of MOVES) {
    const box = soundingBox(dive, move, page.textScale);
    if (box.left < 0 || box.right > page.widthPx || box.bottom > page.heightPx || box.top < 0) continue;
    // A figure under another figure cannot be read at all; across a thin line it still can.
    if (coveredBy(box, placed) > 0 || !isClearlyOf(box, dive, others)) continue;
    const covered = coveredBy(box, around);
    if (covered === 0) return box;
    if (covered < leastCovered) {
      best = box;
      leastCovered = covered;
    }
  }
  return best;
}

/** Whether a box is nearer to the weight of this dive than to that of any other. */
function isClearlyOf(box: Box, dive: LabelledDive, others: readonly LabelledDive[]): boolean {
  const nearest = distance(box, dive) * CLEARLY;
  return others.every(
    (other) =>
      distance(box, other) >= nearest ||
      Math.hypot(other.lineX - dive.lineX, other.weightY - dive.weightY) < SAME_PX,
  );
}

/** From a weight to the nearest point of a box, pixels. */
function distance(box: Box, { lineX, weightY }: LabelledDive): number {
  const x = Math.max(box.left - lineX, 0, lineX - box.right);
  const y = Math.max(box.top - weightY, 0, weightY - box.bottom);
  return Math.hypot(x, y);
}

function coveredBy(box: Box, others: readonly Box[]): number {
  return others.reduce((sum, other) => sum + common(box, other), 0);
}

/**
 * How far the labels of a dive reach from its line to the right, pixels; to the left less. A sounding that is
 * moved down by lines is as far from its weight as that, and weights so near to it count too.
 */
function reachOf({ sounding, mix }: LabelledDive, textScale: number): number {
  const soundingPx = sounding.length * CHARACTER_PX.sounding;
  const besidePx = Math.max(mix.length * CHARACTER_PX.mix, MOST_LINES * LINE_PX);
  return (soundingPx + besidePx) * textScale + SOUNDING_TOP_PX + MIX_GAP_PX + WEIGHT_HALF_PX;
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
function obstaclesOf(dive: LabelledDive): readonly [line: Box, bar: Box] {
  return [
    { left: dive.lineX - LINE_HALF_PX, right: dive.lineX + LINE_HALF_PX, top: 0, bottom: dive.weightY },
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
