import type { SlateDive } from '../contents';
import type { DeeperLonger } from '../deeper-longer';
import { joined, words, type Figure } from '../figures';
import { beside, rule, stack, type Block, type TextStyle } from '../layout';
import { fittedSizePt, heading, SLATE_MIN_PT } from '../page-frame';
import { pairs, type Sizes } from '../pairs';
import { profileLine } from '../profile-line';

/** A dive with its table, computed once for all the sizes that are tried. */
export interface WetDive {
  readonly dive: SlateDive;
  readonly table: DeeperLonger | null;
}

/** The two halves of a dive: what is to be dived, and what else could be; they part where a page is low. */
export interface DiveParts {
  readonly heading: Block;
  readonly plan: readonly Block[];
  readonly more: readonly Block[];
  /** The same without what a page can spare. */
  readonly leastMore: readonly Block[];
  /** Stands over the second half where that is on a page of its own. */
  readonly again: Block;
  readonly gapPt: number;
}

/** A label, the figure under it, and beneath that the same in a second unit where one is asked for. */
function figureCell(
  size: Sizes,
  label: string,
  figures: readonly Figure[],
  figurePt: number,
  width: number,
): Block {
  const small: TextStyle = { font: 'regular', sizePt: size.basePt };
  return stack([
    size.set.text(label, small, width),
    ...figures.map((figure, i) =>
      size.set.text(words(figure), { font: 'bold', sizePt: i === 0 ? figurePt : size.basePt }, width),
    ),
  ]);
}

/** In the place of a pressure that nobody can tell; the line of the stops says the rest. */
const NO_WAY_UP = 'none: no way up found';

function turnText({ entry, turn }: SlateDive): string {
  if (entry.gas.minimumBar === null) return NO_WAY_UP;
  return entry.gas.turnBar === null ? 'none: fill below minimum' : joined(turn);
}

/** The fuller of two labels where it finds place. */
function fittingLabel(size: Sizes, full: string, short: string, width: number): string {
  return size.set.width(full, { font: 'regular', sizePt: size.basePt }) <= width ? full : short;
}

/** Label of the room: with what it runs into where that is not the no-stop limit and finds place there. */
function roomLabel(size: Sizes, dive: SlateDive, width: number): string {
  return dive.roomLimit === null ? 'Room' : fittingLabel(size, `Room: ${dive.roomLimit}`, 'Room', width);
}

/** Of several levels the time is that of all, the no-stop time that of the deepest. */
function levelLabels(
  size: Sizes,
  dive: SlateDive,
  width: number,
): { readonly time: string; readonly noStop: string } {
  if (dive.levels === null) return { time: 'Time', noStop: 'No-stop' };
  return {
    time: fittingLabel(size, 'Time in all', 'Time', width),
    noStop: fittingLabel(size, `No-stop at ${words(dive.depth[0]!)}`, 'No-stop', width),
  };
}

/** The four figures looked for first are set this much larger than the words, and smaller only down to that. */
const BIG_EM = 1.6;
const LEAST_BIG_EM = 1.25;

/** How the big figures stand: four in a row, or two over two where a row would make them small. */
interface FigureGrid {
  readonly perRow: 4 | 2;
  readonly cellPt: number;
  readonly gapPt: number;
  readonly figurePt: number;
}

function figureGrid(size: Sizes, dive: SlateDive): FigureGrid {
  const gapPt = size.basePt * 0.6;
  const texts = [dive.depth[0]!, dive.time, dive.noStop, dive.room].map(words);
  const grid = (perRow: 4 | 2): FigureGrid => {
    const cellPt = (size.widthPt - (perRow - 1) * gapPt) / perRow;
    // One size for all four, so that none seems to weigh more than another.
    const figurePt = fittedSizePt(size.set, texts, 'bold', size.basePt * BIG_EM, SLATE_MIN_PT, cellPt);
    return { perRow, cellPt, gapPt, figurePt };
  };
  const row = grid(4);
  return row.figurePt >= size.basePt * LEAST_BIG_EM ? row : grid(2);
}

/** Depth, time, no-stop time and room: what is looked for first. */
function bigFigures(size: Sizes, dive: SlateDive): Block {
  const { perRow, cellPt, gapPt, figurePt } = figureGrid(size, dive);
  const labels = levelLabels(size, dive, cellPt);
  const cells = [
    figureCell(size, 'Depth', dive.depth, figurePt, cellPt),
    figureCell(size, labels.time, [dive.time], figurePt, cellPt),
    figureCell(size, labels.noStop, [dive.noStop], figurePt, cellPt),
    figureCell(size, roomLabel(size, dive, cellPt), [dive.room], figurePt, cellPt),
  ].map((block, i) => ({ block, x: (i % perRow) * (cellPt + gapPt) }));
  return perRow === 4 ? beside(cells) : stack([beside(cells.slice(0, 2)), beside(cells.slice(2))]);
}

/** What ends the room, where the label of the room has no place for it. */
function roomNote(size: Sizes, dive: SlateDive): readonly (readonly [string, string])[] {
  const { cellPt } = figureGrid(size, dive);
  if (dive.roomLimit === null || roomLabel(size, dive, cellPt) !== 'Room') return [];
  return [['Room set by', dive.roomLimit]];
}

function intervalLine(dive: SlateDive): readonly (readonly [string, string])[] {
  if (dive.interval === null) return [['', 'First dive']];
  return [
    ['Interval', dive.interval],
    ...(dive.earliest === null ? [] : [['Earliest entry', dive.earliest] as const]),
  ];
}

/** The levels with their no-stop times; nothing for a single one. */
function levelLines(size: Sizes, dive: SlateDive): readonly Block[] {
  return dive.levelLimits === null ? [] : [pairs(size, [['Levels', dive.levelLimits]])];
}

/** Depths in a line of the table are at most this wide, in type sizes. */
const DEPTHS_EM = 6.6;
const STOP_EM = 4.3;

/** "30/18/12 m / 98/59/39 ft" breaks between the units; where even one of them is too wide, between its levels. */
function breakable(depths: string, fits: (text: string) => boolean): string {
  const units = depths.split(' / ');
  return units.every((each, i) => fits(i < units.length - 1 ? `${each} /` : each))
    ? depths
    : depths.replaceAll(/(?<=\d)\/(?=\d)/g, '/ ');
}

function deeperTable(size: Sizes, made: DeeperLonger): Block {
  const { set, basePt, widthPt } = size;
  const plain: TextStyle = { font: 'regular', sizePt: basePt };
  const strong: TextStyle = { font: 'bold', sizePt: basePt };
  const gap = basePt * 0.5;
  const widest = Math.max(...made.rows.map((row) => set.width(row.depth, strong)));
  const depthWidth = Math.min(widest, basePt * DEPTHS_EM);
  const stops = made.rows.map(({ cells }) => (typeof cells === 'string' ? '' : cells[0]!));
  const stopWidth = Math.max(basePt * STOP_EM, ...stops.map((text) => set.width(text, strong)));
  const timeWidth = (widthPt - depthWidth - stopWidth - 3 * gap) / 2;
  const widths = [depthWidth, stopWidth, timeWidth, timeWidth];
  const lefts = widths.map((_, i) => widths.slice(0, i).reduce((sum, width) => sum + width + gap, 0));
  const head = beside(
    made.head.map((text, i) => ({ block: set.text(text, plain, widths[i]!), x: lefts[i]! })),
  );
  const rows = made.rows.map((row) => {
    const depths = breakable(row.depth, (text) => set.width(text, strong) <= depthWidth);
    const depth = { block: set.text(depths, strong, depthWidth), x: 0 };
    if (typeof row.cells === 'string') {
      return beside([depth, { block: set.text(row.cells, plain, widthPt - lefts[1]!), x: lefts[1]! }]);
    }
    return beside([
      depth,
      ...row.cells.map((text, i) => ({
        block: set.text(text, i === 0 ? strong : plain, widths[i + 1]!),
        x: lefts[i + 1]!,
      })),
    ]);
  });
  return stack([rule(widthPt, 0.4, 3), head, ...rows, rule(widthPt, 0.4, 3)]);
}

function warnings(size: Sizes, dive: SlateDive): readonly Block[] {
  const strong: TextStyle = { font: 'bold', sizePt: size.basePt };
  return dive.warnings.map((text) => size.set.text(text, strong, size.widthPt));
}

/** Height of the profile, in type sizes: lower under the line of levels, so that A6 takes the dive on one page. */
const PROFILE_EM = 3;
const LOWER_PROFILE_EM = 2.5;

/** The halves of one dive at one type size. */
export function diveParts(size: Sizes, { dive, table }: WetDive): DiveParts {
  const { set, basePt, widthPt } = size;
  const { entry } = dive;
  const profileEm = dive.levels === null ? PROFILE_EM : LOWER_PROFILE_EM;
  const titlePt = basePt * 1.25;
  const title = `${dive.number} ${dive.site}`;
  const when = entry.isMade ? `${dive.startsAt} to ${dive.surfacesAt}` : dive.startsAt;
  const shared = {
    heading: heading(set, title, when, widthPt, titlePt),
    again: heading(set, title, 'continued', widthPt, titlePt),
    gapPt: basePt * 0.2,
  };
  if (!entry.isMade || table === null) {
    return {
      ...shared,
      plan: [
        pairs(size, [
          ['Depth', joined(dive.depth)],
          ['Time', words(dive.time)],
        ]),
        set.text(
          'No mix on board may be breathed there: not to be dived.',
          { font: 'bold', sizePt: basePt },
          widthPt,
        ),
        ...warnings(size, dive),
      ],
      more: [],
      leastMore: [],
    };
  }
  const depthText = joined(dive.depth.slice(0, 1));
  const picture = profileLine(set, entry.legs, depthText, widthPt, basePt * profileEm, basePt);
  const deeper = deeperTable(size, table);
  const more = [picture, deeper];
  return {
    ...shared,
    plan: [
      bigFigures(size, dive),
      ...levelLines(size, dive),
      pairs(size, [
        ['', dive.mix],
        ['MOD', joined(dive.mod)],
        ['PO2', dive.po2],
      ]),
      pairs(size, [
        ['Turn', turnText(dive)],
        ['Minimum', entry.gas.minimumBar === null ? NO_WAY_UP : joined(dive.minimum)],
        ...roomNote(size, dive),
      ]),
      pairs(size, [
        dive.stops === null ? ['Safety stop', dive.safetyStop] : ['STOPS', dive.stops],
        ...intervalLine(dive),
      ]),
      ...warnings(size, dive),
    ],
    more,
    // The figures tell all that the picture does.
    leastMore: [deeper],
  };
}
