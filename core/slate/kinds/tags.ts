/** Cylinder tags, sheet after sheet, and the log in which the analyses are written down. */
import { inOneSystem, wordsOf } from '../../words/reader';
import { said } from '../../words/said';
import { penOf } from '../card/pen';
import { labelSheet, type LabelSheet } from '../labels';
import { straight, type Block, type Mark, type Setter } from '../layout';
import { foot, FOOT_PT, type Draft, type FootFacts } from '../page-frame';
import { CUT_GAP_PT, CUT_MARK_PT, PT_PER_MM, type Paper } from '../paper';
import { slateReader } from '../reading';
import type { DatedRequest } from '../request';
import { tagsOf } from '../tag/content';
import { tagBlock } from '../tag/draw';
import { logDrafts } from './analysis-log';

/** Kept clear inside each tag: printers pull labels in crooked. Source: common practice. */
const INSET_MM = 2.5;

/** Printers leave so much of a sheet's edge white. Source: common practice. */
const EDGE_MM = 4;

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

/** Marks in the white round the tags where a knife is laid; dashed lines between them where there is none. */
function cutMarks(sheet: LabelSheet): readonly Mark[] {
  const { columns, rows, label } = sheet;
  const [left, top] = [sheet.leftMm * PT_PER_MM, sheet.topMm * PT_PER_MM];
  const [wide, high] = [label.widthMm * PT_PER_MM, label.heightMm * PT_PER_MM];
  const [right, bottom] = [left + columns * wide, top + rows * high];
  const marks: Mark[] = [];
  const dash = [2, 3] as const;
  for (let c = 0; c <= columns; c += 1) {
    const x = left + c * wide;
    const length = Math.min(CUT_MARK_PT, top);
    if (length > CUT_GAP_PT + 2) {
      marks.push(straight(x, top - length, x, top - CUT_GAP_PT, 0.4));
      marks.push(straight(x, bottom + CUT_GAP_PT, x, bottom + length, 0.4));
    } else marks.push(straight(x, top, x, bottom, 0.3, dash));
  }
  for (let r = 0; r <= rows; r += 1) {
    const y = top + r * high;
    const length = Math.min(CUT_MARK_PT, left);
    if (length > CUT_GAP_PT + 2) {
      marks.push(straight(left - length, y, left - CUT_GAP_PT, y, 0.4));
      marks.push(straight(right + CUT_GAP_PT, y, right + length, y, 0.4));
    } else marks.push(straight(left, y, right, y, 0.3, dash));
  }
  return marks;
}

/** Where the cautions and the foot stand: in the white under the tags, or in the last cells of the sheet. */
interface FootPlace {
  readonly x: number;
  readonly y: number;
  readonly widthPt: number;
  /** Cells that no tag gets. */
  readonly cells: number;
}

function footPlace(set: Setter, paper: Paper, sheet: LabelSheet, facts: FootFacts): FootPlace | null {
  const heightFor = (widthPt: number): number =>
    foot(set, widthPt, FOOT_PT, facts, facts.words(said`page ${'8888'}/${'8888'}`)).heightPt;
  const marksPt = sheet.isStock ? 0 : CUT_MARK_PT;
  const white = {
    x: Math.max(EDGE_MM, sheet.leftMm) * PT_PER_MM,
    y: (sheet.topMm + (sheet.rows - 1) * sheet.pitchYMm + sheet.label.heightMm) * PT_PER_MM + marksPt,
    widthPt: (paper.widthMm - 2 * Math.max(EDGE_MM, sheet.leftMm)) * PT_PER_MM,
  };
  if (white.y + heightFor(white.widthPt) <= (paper.heightMm - EDGE_MM) * PT_PER_MM) {
    return { ...white, cells: 0 };
  }
  const cells = cellsOf(sheet);
  const fits = (columns: number, rows: number): FootPlace | null => {
    const widthPt = ((columns - 1) * sheet.pitchXMm + sheet.label.widthMm - 2 * INSET_MM) * PT_PER_MM;
    const heightPt = ((rows - 1) * sheet.pitchYMm + sheet.label.heightMm - INSET_MM) * PT_PER_MM;
    const count = columns * rows;
    const first = cells[cells.length - count];
    if (first === undefined || heightFor(widthPt) > heightPt) return null;
    return {
      x: first.x + INSET_MM * PT_PER_MM,
      y: first.y + (INSET_MM / 2) * PT_PER_MM,
      widthPt,
      cells: count,
    };
  };
  for (let columns = 1; columns <= sheet.columns; columns += 1) {
    const place = fits(columns, 1);
    if (place !== null) return place;
  }
  return fits(sheet.columns, 2);
}

/**
 * Cylinder tags, a sheet of labels after the other, and the pages of the log.
 * @returns null where a tag does not take what has to stand on it, or the paper no tag
 */
export function tagDrafts(
  request: DatedRequest,
  set: Setter,
  widthPt: number,
  heightPt: number,
  facts: FootFacts,
): readonly Draft[] | null {
  const { paper } = request;
  const sheet = labelSheet(paper, request.label);
  if (sheet === null) return null;
  const reader = slateReader(request);
  const words = wordsOf(inOneSystem(reader));
  const tags = tagsOf(request, reader, words);
  const pen = penOf(set, 1);
  const [wide, high] = [sheet.label.widthMm - 2 * INSET_MM, sheet.label.heightMm - 2 * INSET_MM];
  const place = footPlace(set, paper, sheet, facts);
  if (place === null) return null;
  const blocks: Block[] = [];
  for (const tag of tags) {
    const block = tagBlock(pen, words, tag, wide, high);
    if (block === null) return null;
    blocks.push(block);
  }
  const cells = cellsOf(sheet);
  const perPage = cells.length - place.cells;
  if (perPage <= 0) return null;
  const drafts: Draft[] = [];
  const inset = INSET_MM * PT_PER_MM;
  for (let first = 0; first < blocks.length; first += perPage) {
    const { day } = tags[first]!;
    drafts.push({
      name: words(said`Cylinder tags, ${day}, from ${first + 1} on`),
      begins: Math.min(perPage, blocks.length - first),
      marks: (page) => [
        ...(sheet.isStock ? [] : cutMarks(sheet)),
        ...blocks.slice(first, first + perPage).flatMap((block, i) => {
          const { x, y } = cells[i]!;
          return block.at(x + inset, y + inset);
        }),
        ...foot(set, place.widthPt, FOOT_PT, facts, page).at(place.x, place.y),
      ],
    });
  }
  const log = logDrafts(request, set, tags, reader, words, widthPt, heightPt);
  return log === null ? null : [...drafts, ...log];
}
