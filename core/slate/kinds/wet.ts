import { momentText, slateDays, type SlateDay, type SlateDive } from '../contents';
import { deeperLonger, type DeeperLonger } from '../deeper-longer';
import { joined, words, type Figure } from '../figures';
import { beside, rule, space, stack, writingLines, type Block, type Setter, type TextStyle } from '../layout';
import { fitted, heading, SLATE_MIN_PT, type Draft } from '../page-frame';
import { profileLine } from '../profile-line';
import type { SlateRequest } from '../request';

/** Type sizes tried, largest first: the largest that needs no page more than the smallest is taken. */
const SIZES_PT = [17, 15.5, 14, 12.5, SLATE_MIN_PT];

/** Distance of lines to write on with a pencil in a glove. Source: common practice. */
const WRITING_PT = 20;

/** More lines than these are no help: the rest of a large page stays white. */
const WRITING_MAX = 8;

/** A dive with its table, computed once for all the sizes that are tried. */
interface WetDive {
  readonly dive: SlateDive;
  readonly table: DeeperLonger | null;
}

/** The two halves of a dive: what is to be dived, and what else could be; they part where a page is low. */
interface DiveParts {
  readonly heading: Block;
  readonly plan: readonly Block[];
  readonly more: readonly Block[];
  /** Stands over the second half where that is on a page of its own. */
  readonly again: Block;
  readonly gapPt: number;
}

interface Sizes {
  readonly set: Setter;
  readonly widthPt: number;
  readonly basePt: number;
}

function figureCell(size: Sizes, label: string, figures: readonly Figure[], width: number): Block {
  const { set, basePt } = size;
  const small: TextStyle = { font: 'regular', sizePt: basePt };
  return stack([
    set.text(label, small, width),
    ...figures.map((figure, i) =>
      fitted(set, words(figure), 'bold', i === 0 ? basePt * 1.6 : basePt * 1.2, SLATE_MIN_PT, width),
    ),
  ]);
}

/** Label of the room: with what it runs into where that is not the no-stop limit and finds place there. */
function roomLabel(size: Sizes, dive: SlateDive, width: number): string {
  const label = `Room: ${dive.roomLimit}`;
  const fits = size.set.width(label, { font: 'regular', sizePt: size.basePt }) <= width;
  return dive.roomLimit !== null && fits ? label : 'Room';
}

function cellWidth(size: Sizes): { readonly width: number; readonly gap: number } {
  const gap = size.basePt * 0.6;
  return { gap, width: (size.widthPt - 3 * gap) / 4 };
}

/** Depth, time, no-stop time and room: what is looked for first. */
function bigFigures(size: Sizes, dive: SlateDive): Block {
  const { width, gap } = cellWidth(size);
  const cells = [
    figureCell(size, 'Depth', dive.depth, width),
    figureCell(size, 'Time', [dive.time], width),
    figureCell(size, 'No-stop', [dive.noStop], width),
    figureCell(size, roomLabel(size, dive, width), [dive.room], width),
  ];
  return beside(cells.map((block, i) => ({ block, x: i * (width + gap) })));
}

/** What ends the room, where the label of the room has no place for it. */
function roomNote(size: Sizes, dive: SlateDive): readonly (readonly [string, string])[] {
  if (dive.roomLimit === null || roomLabel(size, dive, cellWidth(size).width) !== 'Room') return [];
  return [['Room set by', dive.roomLimit]];
}

/** "Label value" pairs that flow over as many lines as they need; a pair is never torn apart. */
function pairs(size: Sizes, items: readonly (readonly [label: string, value: string])[]): Block {
  const { set, basePt, widthPt } = size;
  const plain: TextStyle = { font: 'regular', sizePt: basePt };
  const strong: TextStyle = { font: 'bold', sizePt: basePt };
  const gap = basePt * 1.1;
  const lines: Block[] = [];
  let cells: { block: Block; x: number }[] = [];
  let x = 0;
  for (const [label, value] of items) {
    const labelWidth = label === '' ? 0 : set.width(`${label} `, plain);
    const valueWidth = set.width(value, strong);
    if (x > 0 && x + labelWidth + valueWidth > widthPt) {
      lines.push(beside(cells));
      cells = [];
      x = 0;
    }
    if (label !== '') cells.push({ block: set.text(label, plain, labelWidth), x });
    const left = widthPt - x - labelWidth;
    cells.push({ block: set.text(value, strong, Math.max(left, basePt * 3)), x: x + labelWidth });
    x += labelWidth + valueWidth + gap;
  }
  if (cells.length > 0) lines.push(beside(cells));
  return stack(lines);
}

function intervalLine(dive: SlateDive): readonly (readonly [string, string])[] {
  if (dive.interval === null) return [['', 'First dive']];
  return [
    ['Interval', dive.interval],
    ...(dive.earliest === null ? [] : [['Earliest', dive.earliest] as const]),
  ];
}

function deeperTable(size: Sizes, made: DeeperLonger): Block {
  const { set, basePt, widthPt } = size;
  const plain: TextStyle = { font: 'regular', sizePt: basePt };
  const strong: TextStyle = { font: 'bold', sizePt: basePt };
  const gap = basePt * 0.5;
  const depthWidth = Math.max(...made.rows.map((row) => Math.min(set.width(row.depth, strong), basePt * 4)));
  const stopWidth = basePt * 4.3;
  const timeWidth = (widthPt - depthWidth - stopWidth - 3 * gap) / 2;
  const widths = [depthWidth, stopWidth, timeWidth, timeWidth];
  const lefts = widths.map((_, i) => widths.slice(0, i).reduce((sum, width) => sum + width + gap, 0));
  const head = beside(
    made.head.map((text, i) => ({ block: set.text(text, plain, widths[i]!), x: lefts[i]! })),
  );
  const rows = made.rows.map((row) => {
    const depth = { block: set.text(row.depth, strong, depthWidth), x: 0 };
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
  const texts = dive.cautions
    .filter((caution) => caution.severity === 'stop')
    .map((caution) => `Stop: ${caution.message}`);
  return texts.map((text) => size.set.text(text, strong, size.widthPt));
}

function diveParts(size: Sizes, { dive, table }: WetDive): DiveParts {
  const { set, basePt, widthPt } = size;
  const { entry } = dive;
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
    };
  }
  return {
    ...shared,
    plan: [
      bigFigures(size, dive),
      pairs(size, [
        ['', dive.mix],
        ['MOD', joined(dive.mod)],
        ['PO2', dive.po2],
      ]),
      pairs(size, [['Turn', joined(dive.turn)], ['Minimum', joined(dive.minimum)], ...roomNote(size, dive)]),
      pairs(size, [
        dive.stops === null ? ['Safety stop', dive.safetyStop] : ['STOPS', dive.stops],
        ...intervalLine(dive),
      ]),
      ...warnings(size, dive),
    ],
    more: [
      profileLine(set, entry.legs, joined(dive.depth.slice(0, 1)), widthPt, basePt * 3, basePt),
      deeperTable(size, table),
    ],
  };
}

/** Something on a page; `writes` where a line to write on ends it, which may grow into more. */
interface Piece {
  readonly block: Block;
  readonly writes: boolean;
  /** Begins on a page of its own. */
  readonly begins: boolean;
}

interface FullPage {
  readonly pieces: { readonly piece: Piece; readonly gapPt: number }[];
  /** Indices of the dives on it. */
  readonly dives: number[];
  usedPt: number;
}

/**
 * A dive in one piece; in halves where a page is too low for it whole, each on a page of its own, so that
 * they lie back to back on paper printed on both sides; line by line where even a half is too high.
 */
function piecesOf(dive: DiveParts, availablePt: number): readonly Piece[] {
  const writing = space(WRITING_PT);
  const whole = stack([dive.heading, ...dive.plan, ...dive.more, writing], dive.gapPt);
  if (whole.heightPt <= availablePt) return [{ block: whole, writes: true, begins: false }];
  const halves: readonly Piece[] = [
    { block: stack([dive.heading, ...dive.plan], dive.gapPt), writes: false, begins: true },
    { block: stack([dive.again, ...dive.more, writing], dive.gapPt), writes: true, begins: true },
  ];
  if (halves.every((half) => half.block.heightPt <= availablePt)) return halves;
  const [first, ...others] = [...dive.plan, ...dive.more];
  return [
    { block: stack([dive.heading, first!], dive.gapPt), writes: false, begins: true },
    ...others.map((block) => ({ block, writes: false, begins: false })),
    { block: writing, writes: true, begins: false },
  ];
}

/** Lays dives on pages in order, as many as fit; null where a part is higher than a page. */
function paginate(
  dives: readonly DiveParts[],
  availablePt: number,
  betweenPt: number,
  onePerPage: boolean,
): readonly FullPage[] | null {
  const pages: FullPage[] = [];
  for (const [i, dive] of dives.entries()) {
    for (const [p, piece] of piecesOf(dive, availablePt).entries()) {
      if (piece.block.heightPt > availablePt) return null;
      let page = pages[pages.length - 1];
      const gapPt = p === 0 ? betweenPt : dive.gapPt;
      const isFull = page !== undefined && page.usedPt + gapPt + piece.block.heightPt > availablePt;
      if (page === undefined || isFull || piece.begins || (onePerPage && p === 0)) {
        pages.push((page = { pieces: [], dives: [], usedPt: 0 }));
      }
      const above = page.pieces.length > 0 ? gapPt : 0;
      page.usedPt += above + piece.block.heightPt;
      page.pieces.push({ piece, gapPt: above });
      if (!page.dives.includes(i)) page.dives.push(i);
    }
  }
  return pages;
}

/** A piece with as many more lines to write on as the page has left for it. */
function withWriting(piece: Piece, widthPt: number, moreLines: number): Block {
  const { block, writes } = piece;
  if (!writes) return block;
  return {
    heightPt: block.heightPt + moreLines * WRITING_PT,
    at: (x, y) => [
      ...block.at(x, y),
      ...writingLines(widthPt, (moreLines + 1) * WRITING_PT, WRITING_PT).at(
        x,
        y + block.heightPt - WRITING_PT,
      ),
    ],
  };
}

interface DayPage {
  readonly body: Block;
  readonly numbers: readonly number[];
}

/** The pages of one day at one type size; null where a part is higher than a page. */
function dayPages(
  size: Sizes,
  request: SlateRequest,
  name: string,
  day: SlateDay,
  dives: readonly WetDive[],
  heightPt: number,
  flyAfter: string | null,
): readonly DayPage[] | null {
  const { set, basePt, widthPt } = size;
  const head = stack([
    heading(set, name, day.dateText, widthPt, basePt * 1.1),
    pairs(size, [
      ['Oxygen', day.oxygen],
      ...(flyAfter === null ? [] : [['No flying before', flyAfter] as const]),
    ]),
    rule(widthPt, 0.8, 5),
  ]);
  const between = basePt * 0.9;
  const available = heightPt - head.heightPt;
  const parts = dives.map((dive) => diveParts(size, dive));
  const pages = paginate(parts, available, between, request.onePerPage);
  return (
    pages?.map((page) => {
      const writing = page.pieces.filter(({ piece }) => piece.writes).length;
      const spare = Math.max(0, available - page.usedPt);
      const more = writing === 0 ? 0 : Math.min(WRITING_MAX, Math.floor(spare / writing / WRITING_PT));
      return {
        body: stack([
          head,
          ...page.pieces.flatMap(({ piece, gapPt }) => [space(gapPt), withWriting(piece, widthPt, more)]),
        ]),
        numbers: page.dives.map((i) => day.dives[i]!.number),
      };
    }) ?? null
  );
}

/**
 * Wet-notes slates: one diver and one day after the other, as many dives a page as fit.
 * @param heightPt free for the body, above the foot
 * @returns drafts in order, or null where the paper is too small for 11 point
 */
export function wetDrafts(
  request: SlateRequest,
  set: Setter,
  widthPt: number,
  heightPt: number,
): readonly Draft[] | null {
  const { ledger, cautions } = request;
  const drafts: Draft[] = [];
  for (const mine of ledger.divers) {
    if (request.diverIds !== null && !request.diverIds.includes(mine.diver.id)) continue;
    const days = slateDays(ledger.trip, mine, request.dates, cautions, request.units);
    const lastDate = mine.days[mine.days.length - 1]?.date;
    for (const day of days) {
      const flyAfter =
        day.date === lastDate && mine.flyAfterMin !== null ? momentText(mine.flyAfterMin) : null;
      const dives = day.dives.map((dive): WetDive => ({
        dive,
        table: dive.entry.isMade ? deeperLonger(ledger.trip, dive.carry, dive.entry, request.units) : null,
      }));
      const at = (basePt: number) =>
        dayPages({ set, widthPt, basePt }, request, mine.diver.name, day, dives, heightPt, flyAfter);
      const smallest = at(SLATE_MIN_PT);
      if (smallest === null) return null;
      let pages = smallest;
      for (const basePt of SIZES_PT.slice(0, -1)) {
        const larger = at(basePt);
        if (larger !== null && larger.length <= smallest.length) {
          pages = larger;
          break;
        }
      }
      for (const page of pages) {
        const numbers = page.numbers;
        const which =
          numbers.length === 1
            ? `dive ${numbers[0]}`
            : `dives ${numbers[0]} to ${numbers[numbers.length - 1]}`;
        drafts.push({ name: `${mine.diver.name}, ${day.dateText}, ${which}`, body: page.body });
      }
    }
  }
  return drafts;
}
