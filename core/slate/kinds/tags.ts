import { slateDays, type SlateDive } from '../contents';
import { depths, joined, mixName, oxygenPercent, po2LimitText } from '../figures';
import { labelSheet, type LabelSheet } from '../labels';
import { beside, stack, straight, type Block, type Mark, type Setter, type TextStyle } from '../layout';
import { foot, lowered, PRINT_MIN_PT, type Draft, type FootFacts } from '../page-frame';
import { PT_PER_MM } from '../paper';
import type { DatedRequest } from '../request';
import { logDraft } from './analysis-log';

/** Sizes tried on a tag, largest first. */
const SIZES_PT = [18, 16, 14, 12, 11, 10, PRINT_MIN_PT];

/** Kept clear inside each tag: printers pull labels in crooked. Source: common practice. */
const INSET_MM = 2.5;

interface Tag {
  readonly name: string;
  readonly date: string;
  readonly dive: SlateDive;
}

function tagsOf(request: DatedRequest): readonly Tag[] {
  const { ledger, diverIds, dates, cautions } = request;
  return ledger.divers
    .filter((each) => diverIds === null || diverIds.includes(each.diver.id))
    .flatMap((mine) =>
      slateDays(ledger.trip, mine, dates, cautions, request).flatMap((day) =>
        day.dives
          .filter((dive) => dive.entry.isMade)
          .map((dive) => ({ name: mine.diver.name, date: day.dateText, dive })),
      ),
    )
    .toSorted((a, b) => a.dive.entry.startMin - b.dive.entry.startMin);
}

/** "MOD 33 m / 110 ft at 1.4" for both limits of the diver. */
function modLines(dive: SlateDive): readonly string[] {
  const { entry } = dive;
  const { working, contingency } = entry.diver.po2;
  return [
    `MOD ${joined(depths(entry.modM, 'limit', 'both'))} at ${po2LimitText(working)}`,
    `MOD ${joined(depths(entry.contingencyModM, 'limit', 'both'))} at ${po2LimitText(contingency)}`,
  ];
}

/**
 * One tag. Oxygen as analysed in large figures; where nothing is analysed yet a blank to fill in, and the
 * depths stand under the condition that it reads as planned.
 */
function tagBlock(set: Setter, tag: Tag, widthPt: number, sizePt: number): Block {
  const plain: TextStyle = { font: 'text', sizePt };
  const strong: TextStyle = { font: 'bold', sizePt };
  const oneLine = { maxLines: 1 } as const;
  const { entry } = tag.dive;
  const gap = sizePt * 0.6;
  const dateWidth = set.width(tag.date, plain);
  const top = beside([
    { block: set.text(tag.name, { ...strong, ...oneLine }, widthPt - dateWidth - gap), x: 0 },
    { block: set.text(tag.date, { ...plain, align: 'right' }, widthPt), x: 0 },
  ]);
  const dive = set.text(
    `Dive ${tag.dive.number}, ${tag.dive.startsAt}, ${tag.dive.site}`,
    { ...plain, ...oneLine },
    widthPt,
  );
  const percent = oxygenPercent(entry.o2!);
  const initials = 'Initials';
  const initialsWidth = set.width(`${initials} `, plain);
  const signPt = sizePt * 1.5;
  const bigPt = sizePt * 1.7;
  const big: TextStyle = { font: 'bold', sizePt: bigPt };
  const share = entry.isAnalysed
    ? set.text(`O2 ${percent} %`, big, widthPt)
    : beside([
        { block: set.text('O2', big, widthPt), x: 0 },
        { block: blank(sizePt * 4, bigPt * 1.1), x: set.width('O2 ', big) },
        { block: set.text('%', big, widthPt), x: set.width('O2 ', big) + sizePt * 4.3 },
      ]);
  const shareWidth = entry.isAnalysed
    ? set.width(`O2 ${percent} %`, big)
    : set.width('O2 %', big) + sizePt * 4.6;
  const signWidth = widthPt - shareWidth - gap * 2 - initialsWidth;
  const sign =
    signWidth >= sizePt * 2
      ? [
          {
            block: lowered(set.text(initials, plain, initialsWidth), (bigPt - sizePt) * 0.95),
            x: widthPt - signWidth - initialsWidth,
          },
          { block: blank(signWidth, bigPt * 1.1), x: widthPt - signWidth },
        ]
      : [];
  const below =
    sign.length > 0
      ? []
      : [
          beside([
            { block: set.text(initials, plain, initialsWidth), x: 0 },
            { block: blank(widthPt - initialsWidth, signPt), x: initialsWidth },
          ]),
        ];
  const condition = entry.isAnalysed ? `Analysed, ${mixName(entry.o2!)}` : `Holds for ${percent} % or less:`;
  return stack([
    top,
    dive,
    beside([{ block: share, x: 0 }, ...sign]),
    ...below,
    set.text(condition, plain, widthPt),
    ...modLines(tag.dive).map((line) => set.text(line, strong, widthPt)),
  ]);
}

/** A line to write on, at the foot of its height. */
function blank(widthPt: number, heightPt: number): Block {
  return { heightPt, at: (x, y) => [straight(x, y + heightPt - 1, x + widthPt, y + heightPt - 1, 0.5)] };
}

/** The largest type at which every tag fits; null where not even the smallest does. */
function tagSize(set: Setter, tags: readonly Tag[], widthPt: number, heightPt: number): number | null {
  const fits = (sizePt: number) =>
    tags.every((tag) => tagBlock(set, tag, widthPt, sizePt).heightPt <= heightPt);
  return SIZES_PT.find(fits) ?? null;
}

interface Cell {
  readonly x: number;
  readonly y: number;
}

function cellsOf(sheet: LabelSheet): readonly Cell[] {
  return Array.from({ length: sheet.rows * sheet.columns }, (_, i) => ({
    x: (sheet.leftMm + (i % sheet.columns) * sheet.pitchXMm) * PT_PER_MM,
    y: (sheet.topMm + Math.floor(i / sheet.columns) * sheet.pitchYMm) * PT_PER_MM,
  }));
}

function cutLines(cell: Cell, widthPt: number, heightPt: number): readonly Mark[] {
  const { x, y } = cell;
  const right = x + widthPt;
  const bottom = y + heightPt;
  const dash = [2, 3] as const;
  return [
    straight(x, y, right, y, 0.3, dash),
    straight(x, bottom, right, bottom, 0.3, dash),
    straight(x, y, x, bottom, 0.3, dash),
    straight(right, y, right, bottom, 0.3, dash),
  ];
}

/** The last cells of a sheet, kept for the cautions and the foot, which begin in the first of them. */
interface FootCells {
  readonly count: number;
  readonly widthPt: number;
}

/** Cells of the bottom row, as few as the foot fits into, else all of the bottom two; null where neither takes it. */
function footCells(set: Setter, sheet: LabelSheet, facts: FootFacts): FootCells | null {
  const fits = (columns: number, rows: number): FootCells | null => {
    const widthPt = ((columns - 1) * sheet.pitchXMm + sheet.label.widthMm - 2 * INSET_MM) * PT_PER_MM;
    const heightPt = ((rows - 1) * sheet.pitchYMm + sheet.label.heightMm - INSET_MM) * PT_PER_MM;
    const block = foot(set, widthPt, PRINT_MIN_PT, facts, 'page 8888/8888');
    return block.heightPt <= heightPt ? { count: columns * rows, widthPt } : null;
  };
  for (let columns = 1; columns <= sheet.columns; columns += 1) {
    const cells = fits(columns, 1);
    if (cells !== null) return cells;
  }
  return fits(sheet.columns, 2);
}

/** Sheets of tags; the last cells of each carry the cautions and the foot. */
function tagSheets(
  request: DatedRequest,
  set: Setter,
  facts: FootFacts,
  sheet: LabelSheet,
): readonly Draft[] | null {
  const tags = tagsOf(request);
  const label = { width: sheet.label.widthMm * PT_PER_MM, height: sheet.label.heightMm * PT_PER_MM };
  const inset = INSET_MM * PT_PER_MM;
  const innerWidth = label.width - 2 * inset;
  const sizePt = tagSize(set, tags, innerWidth, label.height - 2 * inset);
  const taken = footCells(set, sheet, facts);
  if (sizePt === null || taken === null) return null;
  const cells = cellsOf(sheet);
  const perPage = cells.length - taken.count;
  if (perPage <= 0) return null;
  const drafts: Draft[] = [];
  for (let first = 0; first < tags.length; first += perPage) {
    const mine = tags.slice(first, first + perPage);
    const footCell = cells[perPage]!;
    drafts.push({
      name: `Cylinder tags, ${mine[0]!.date}, dive ${mine[0]!.dive.number} and on`,
      marks: (page) => [
        ...mine.flatMap((tag, i) => {
          const cell = cells[i]!;
          return [
            ...(sheet.isStock ? [] : cutLines(cell, label.width, label.height)),
            ...tagBlock(set, tag, innerWidth, sizePt).at(cell.x + inset, cell.y + inset),
          ];
        }),
        ...foot(set, taken.widthPt, PRINT_MIN_PT, facts, page).at(footCell.x + inset, footCell.y + inset / 2),
      ],
    });
  }
  return drafts;
}

/**
 * Cylinder tags, a sheet of labels after the other, and a page to log the analyses on.
 * @returns null where a tag does not take what has to stand on it, or the paper no tag
 */
export function tagDrafts(
  request: DatedRequest,
  set: Setter,
  widthPt: number,
  heightPt: number,
  facts: FootFacts,
): readonly Draft[] | null {
  const sheet = labelSheet(request.paper, request.label);
  if (sheet === null) return null;
  const sheets = tagSheets(request, set, facts, sheet);
  const log = logDraft(request, set, widthPt, heightPt);
  return sheets === null || log === null ? null : [...sheets, log];
}
