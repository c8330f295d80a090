/**
 * Where the words at the weights stand, so that none covers another and none lies across a line, a weight or a bar:
 * nearest to the weight first, with less said before it moves far away; from a little way off a leader says whose they
 * are. Where nothing can be said in the clear, nothing is: the board above has the dive. Pure geometry over widths
 * reckoned from the text.
 */
import { boxesAlong, distance, isHit, type Box, type Place } from './boxes';
import { isName, measured, rowWidth, type Measured, type Row } from './label-rows';

/** A dive as the page has it. */
export interface LabelledDive {
  readonly lineX: number;
  readonly weightY: number;
  /** Along the bottom, from the weight. */
  readonly bar: readonly Place[];
  /** Where a diver was, all the way: filled, and as little written on as a line. */
  readonly filled: Box | null;
  /** The day on the page: a label beyond it could be read as another day's. */
  readonly dayFromX: number;
  readonly dayUntilX: number;
  /** What may be said, the most first: rows one under the other. None where nothing is to be said at the weight. */
  readonly variants: readonly (readonly Row[])[];
  /** Who is served first: the larger before the smaller. */
  readonly rank: number;
  /** A ring stands around the weight. */
  readonly hasRing: boolean;
  /** Where words may begin, from the waterline down: under the weight, or under all of its day. */
  readonly fromY: number;
}

export interface PlacedRow {
  readonly x: number;
  /** Baseline. */
  readonly y: number;
  readonly pieces: Row;
}

export interface PlacedLabel {
  readonly rows: readonly PlacedRow[];
  /** From the weight to the words, where they stand a little way off. */
  readonly leader: readonly [Place, Place] | null;
}

/** The page labels stand on. */
export interface Page {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Text grows, the page does not. */
  readonly textScale: number;
  /** What else is written on the water. */
  readonly written?: readonly Box[];
}

const LINE_HALF_PX = 1.5;
export const WEIGHT_HALF_PX = 5.5;
const BAR_HALF_PX = 3;
/** A row of words, and from its top to its baseline; at 100 % text. */
export const ROW_PX = 14;
const NAME_ROW_PX = 17;
const BASELINE_PX = 11;
const NAME_BASELINE_PX = 13;
/** From the middle of a weight to the top of its words; more around a ring. */
const UNDER_PX = 7;
const UNDER_RING_PX = 13;
/** Further off than this a leader leads from the weight to its words. */
const LEADER_FROM_PX = 19;

/** Where a label may stand beside its weight, in pixels at 100 % text; the cost orders what is tried first. */
interface Spot {
  readonly side: 'right' | 'left' | 'beside' | 'before' | 'above';
  readonly dx: number;
  readonly dy: number;
  readonly cost: number;
}

const SPOTS: readonly Spot[] = [
  ...[0, 6, 12, 18, 24, 30, 36, 42, 48, 56].flatMap((dy) =>
    [0, 5, 10, 15, 20, 26].flatMap((dx): readonly Spot[] => {
      const cost = dy * 0.13 + dx * 0.07;
      return [
        { side: 'right', dx, dy, cost },
        { side: 'left', dx, dy, cost: cost + 0.9 },
      ];
    }),
  ),
  { side: 'beside', dx: 5, dy: 0, cost: 1 },
  { side: 'before', dx: 8, dy: 0, cost: 1.6 },
  { side: 'above', dx: 4, dy: 0, cost: 2 },
];

/** What it costs to say less, or to reach into the next day. */
const VARIANT_COST = 1.5;

interface Trial {
  readonly spot: Spot;
  readonly variant: number;
  readonly cost: number;
}

const MOST_VARIANTS = 8;

/** Every spot with every variant, in the order in which they are tried. */
const TRIALS: readonly Trial[] = Array.from({ length: MOST_VARIANTS }, (_, variant) =>
  SPOTS.map((spot) => ({ spot, variant, cost: spot.cost + variant * VARIANT_COST })),
)
  .flat()
  .toSorted((a, b) => a.cost - b.cost);

/** The labels of a page, and how one more is placed among them. */
export interface Placement {
  /** One a dive, in the order of the dives; null where there is no place for any. */
  readonly labels: readonly (PlacedLabel | null)[];
  /**
   * Labels for dives that have none, one after the other, in what place the others leave: these stay where they are.
   * @returns in the order asked; null where there is no place
   */
  readonly besides: (asked: readonly Asked[]) => readonly (PlacedLabel | null)[];
}

/** A dive by its place among those of the page, and what may be said of it. */
export interface Asked {
  readonly at: number;
  readonly variants: LabelledDive['variants'];
}

/** What was written for each dive so far, and the leaders to it. */
interface Written {
  readonly words: (readonly Box[])[];
  readonly leaders: (readonly Box[])[];
}

/**
 * Places every label.
 * @param dives from left to right
 */
export function placeLabels(dives: readonly LabelledDive[], page: Page): Placement {
  const lines = dives.map(linesOf);
  const { textScale } = page;
  const measuredOf = dives.map(({ variants }) => variants.map((rows) => measured(rows, { textScale })));
  const reaches = dives.map((_, i) => reachOf(lines[i]!, measuredOf[i]!, textScale));
  const order = dives.map((_, i) => i).toSorted((a, b) => dives[b]!.rank - dives[a]!.rank || a - b);
  const all: Written = { words: dives.map(() => []), leaders: dives.map(() => []) };

  const put = (i: number, variants: readonly Measured[], reach: Reach, written: Written) => {
    const { words, leaders } = written;
    const near = reaches.flatMap((other, k) => (k !== i && isMet(reach, other) ? [k] : []));
    const around: Around = {
      words: [...(page.written ?? []), ...near.flatMap((k) => words[k]!)],
      lines: [...lines[i]!, ...near.flatMap((k) => lines[k]!), ...near.flatMap((k) => leaders[k]!)],
      others: near.map((k) => dives[k]!),
      othersLines: near.flatMap((k) => lines[k]!),
    };
    const found = freeLabel(dives[i]!, variants, around, page);
    if (!found) return null;
    words[i] = found.boxes;
    leaders[i] = found.leaderBoxes;
    return found.label;
  };

  const labels: (PlacedLabel | null)[] = dives.map(() => null);
  for (const i of order) {
    if (measuredOf[i]!.length > 0) labels[i] = put(i, measuredOf[i]!, reaches[i]!, all);
  }
  return {
    labels,
    besides: (asked) => {
      const written: Written = { words: [...all.words], leaders: [...all.leaders] };
      return asked.map(({ at, variants }) => {
        const mine = variants.map((rows) => measured(rows, { textScale }));
        return put(at, mine, reachOf(lines[at]!, mine, textScale), written);
      });
    },
  };
}

interface Around {
  readonly words: readonly Box[];
  readonly lines: readonly Box[];
  readonly others: readonly LabelledDive[];
  readonly othersLines: readonly Box[];
}

interface Found {
  readonly label: PlacedLabel;
  readonly boxes: readonly Box[];
  readonly leaderBoxes: readonly Box[];
}

/** Within its own day first, then wherever there is place. */
function freeLabel(
  dive: LabelledDive,
  variants: readonly Measured[],
  around: Around,
  page: Page,
): Found | null {
  for (const staysInDay of [true, false]) {
    const left = staysInDay ? Math.max(0, dive.dayFromX) : 0;
    const right = staysInDay ? Math.min(page.widthPx, dive.dayUntilX) : page.widthPx;
    for (const { spot, variant } of TRIALS) {
      const of = variants[variant];
      if (of === undefined) continue;
      const corner = cornerOf(dive, of, spot, page.textScale);
      if (corner.x < left || corner.x + of.widest > right) continue;
      const boxes = rowBoxes(of, corner, page.textScale);
      if (corner.y < 0 || boxes.at(-1)!.bottom > page.heightPx) continue;
      if (boxes.some((box) => isHit(box, around.words) || isHit(box, around.lines))) continue;
      const leader = leaderOf(dive, of, spot, corner, page.textScale);
      if (leader === null) {
        const figure = { ...boxes[0]!, right: boxes[0]!.left + of.firstPx };
        if (!isClearlyOf(figure, dive, around.others)) continue;
        return { label: labelAt(of, corner, null, page.textScale), boxes, leaderBoxes: [] };
      }
      const leaderBoxes = boxesAlong(leader);
      if (leaderBoxes.some((box) => isHit(box, around.words))) continue;
      // Down to where all words of its day begin, it may pass by another weight.
      const isLong = dive.fromY > dive.weightY;
      if (!isLong && leaderBoxes.some((box) => isHit(box, around.othersLines))) continue;
      return { label: labelAt(of, corner, leader, page.textScale), boxes, leaderBoxes };
    }
  }
  return null;
}

/** Left end and top of a label at a spot. */
function cornerOf(dive: LabelledDive, { rows, widest }: Measured, spot: Spot, k: number): Place {
  const under = dive.fromY + (dive.hasRing ? UNDER_RING_PX : UNDER_PX) * k + spot.dy * k;
  const first = isName(rows[0]!) ? NAME_ROW_PX : ROW_PX;
  const last = dive.bar.at(-1) ?? { x: dive.lineX, y: dive.weightY };
  switch (spot.side) {
    case 'right':
      return { x: dive.lineX - 3 + spot.dx * k, y: under };
    case 'left':
      return { x: dive.lineX + WEIGHT_HALF_PX - widest - spot.dx * k, y: under };
    case 'beside':
      return { x: Math.max(last.x, dive.lineX + WEIGHT_HALF_PX) + spot.dx * k, y: last.y - (first / 2) * k };
    case 'before':
      return { x: dive.lineX - widest - spot.dx * k, y: dive.weightY - (first / 2) * k };
    case 'above':
      return { x: dive.lineX + spot.dx * k, y: dive.weightY - WEIGHT_HALF_PX - heightOf(rows, k) - 2 };
  }
}

function heightOf(rows: readonly Row[], k: number): number {
  return rows.reduce((sum, row) => sum + (isName(row) ? NAME_ROW_PX : ROW_PX) * k, 0);
}

/** A box a row: a short row may stand where a long one would not. */
function rowBoxes({ rows, widths }: Measured, corner: Place, k: number): readonly Box[] {
  let top = corner.y;
  return rows.map((row, i) => {
    const bottom = top + (isName(row) ? NAME_ROW_PX : ROW_PX) * k;
    const box = { left: corner.x, right: corner.x + widths[i]!, top, bottom };
    top = bottom;
    return box;
  });
}

/** The boxes of what was placed, for whoever draws or tests it. */
export function labelBoxes({ rows }: PlacedLabel, k: number): readonly Box[] {
  return rows.map(({ x, y, pieces }) => {
    const top = y - (isName(pieces) ? NAME_BASELINE_PX : BASELINE_PX) * k;
    const bottom = top + (isName(pieces) ? NAME_ROW_PX : ROW_PX) * k;
    return { left: x, right: x + rowWidth(pieces, k), top, bottom };
  });
}

function labelAt({ rows }: Measured, corner: Place, leader: PlacedLabel['leader'], k: number): PlacedLabel {
  let top = corner.y;
  const placed = rows.map((pieces) => {
    const name = isName(pieces);
    const y = top + (name ? NAME_BASELINE_PX : BASELINE_PX) * k;
    top += (name ? NAME_ROW_PX : ROW_PX) * k;
    return { x: corner.x, y, pieces };
  });
  return { rows: placed, leader };
}

/** Null where the words are near enough to be its own without one. */
function leaderOf(
  dive: LabelledDive,
  { widths }: Measured,
  spot: Spot,
  corner: Place,
  k: number,
): readonly [Place, Place] | null {
  if (spot.side !== 'right' && spot.side !== 'left') return null;
  if (corner.y - dive.weightY <= LEADER_FROM_PX * k) return null;
  const x = Math.min(Math.max(dive.lineX, corner.x + 4), corner.x + Math.max(widths[0]! - 4, 4));
  return [
    { x: dive.lineX, y: dive.weightY + WEIGHT_HALF_PX },
    { x, y: corner.y + 1 },
  ];
}

/** Any other weight is so many times as far from words without a leader as their own. */
const CLEARLY = 1.5;
/** Weights as near as this are one to the eye, and their dives as deep. */
const SAME_PX = 1.5;

const weightOf = ({ lineX, weightY }: LabelledDive): Place => ({ x: lineX, y: weightY });

function isClearlyOf(box: Box, dive: LabelledDive, others: readonly LabelledDive[]): boolean {
  const nearest = distance(box, weightOf(dive)) * CLEARLY;
  return others.every(
    (other) =>
      distance(box, weightOf(other)) >= nearest ||
      Math.hypot(other.lineX - dive.lineX, other.weightY - dive.weightY) < SAME_PX,
  );
}

/** What of a dive nothing may be written across: its line, its weight and its bar; what was dived, wholly. */
export function linesOf(dive: LabelledDive): readonly Box[] {
  const { lineX, weightY, bar, filled } = dive;
  const line = { left: lineX - LINE_HALF_PX, right: lineX + LINE_HALF_PX, top: 0, bottom: weightY };
  const weight = {
    left: lineX - WEIGHT_HALF_PX,
    right: lineX + WEIGHT_HALF_PX,
    top: weightY - WEIGHT_HALF_PX,
    bottom: weightY + WEIGHT_HALF_PX,
  };
  const pieces = bar.slice(1).map((to, i) => {
    const from = bar[i]!;
    return {
      left: Math.min(from.x, to.x) - BAR_HALF_PX,
      right: Math.max(from.x, to.x) + BAR_HALF_PX,
      top: Math.min(from.y, to.y) - BAR_HALF_PX,
      bottom: Math.max(from.y, to.y) + BAR_HALF_PX,
    };
  });
  return filled === null ? [line, weight, ...pieces] : [line, weight, ...pieces, filled];
}

/** How far from left to right the lines and the label of a dive may lie. */
interface Reach {
  readonly left: number;
  readonly right: number;
}

function reachOf(lines: readonly Box[], variants: readonly Measured[], k: number): Reach {
  const spread = 40 * k + Math.max(0, ...variants.map(({ widest }) => widest));
  return { left: lines[0]!.left - spread, right: Math.max(...lines.map(({ right }) => right)) + spread };
}

function isMet(a: Reach, b: Reach): boolean {
  return a.right >= b.left && b.right >= a.left;
}
