/** Cards as they leave the printer: on faces of one size of type, cut from larger sheets, front and back to fold. */
import { success, type Result } from '../result';
import type { Said } from '../words/said';
import { countSaid } from './counts';
import type { Block, Page } from './layout';
import { frameOf, imposition, PT_PER_MM, type Imposition, type Paper } from './paper';
import { slateWords } from './reading';
import type { SlateRequest, SlateTrouble } from './request';
import { foldedPages, onSheets } from './sheets';

/** One side of a card. */
export interface Face {
  readonly name: string;
  /** Inside the margins. */
  readonly body: Block;
}

/** Faces that belong together: those of one leaf. */
export interface Card {
  readonly faces: readonly Face[];
}

/** Where a face is written on, in points, and how much larger it is than one of A6. */
export interface FaceSpace {
  readonly widthPt: number;
  readonly heightPt: number;
  readonly scale: number;
}

/** A face of A6 is what all sizes of a card are given for, millimetres. */
const A6 = { widthMm: 105, heightMm: 148 };

/** What stands lower than a card's margin: its foot may come this near to the edge, millimetres. */
const FOOT_MARGIN = 4;

/** Large papers are no face: they take several, to cut. Nothing is scaled down for it. */
const CUT_FROM: Readonly<Record<string, Paper>> = {
  A4: { name: 'A6', ...A6 },
  letter: { name: 'half-letter', widthMm: 5.5 * 25.4, heightMm: 8.5 * 25.4 },
};

/** The face and the sheet that a request means. */
export function papersOf({ paper, sheet }: SlateRequest): {
  readonly face: Paper;
  readonly sheet: Paper | null;
} {
  const face = CUT_FROM[paper.name];
  return face === undefined ? { face: paper, sheet } : { face, sheet: sheet ?? paper };
}

/** A larger face has everything larger, in tenths; a smaller one nothing smaller. */
export function scaleOf({ widthMm, heightMm }: Paper): number {
  const fitting = Math.min(widthMm / A6.widthMm, heightMm / A6.heightMm);
  return Math.max(1, Math.floor(fitting * 10 + 1e-6) / 10);
}

export function spaceOf(
  face: Paper,
  { marginMm, holes }: SlateRequest,
  isBack: boolean,
): FaceSpace & { x: number; y: number } {
  const frame = frameOf(face, marginMm, holes, isBack);
  const lower = Math.max(0, marginMm - FOOT_MARGIN) * PT_PER_MM;
  return {
    x: frame.x,
    y: frame.y,
    widthPt: frame.width,
    heightPt: frame.height + lower,
    scale: scaleOf(face),
  };
}

/** Pages with what they come to. */
export interface CardPages {
  readonly pages: readonly Page[];
  /** How many cards, pages and sheets that is. */
  readonly count: Said;
}

/** How pages lie on the sheets that are asked for; null: each is its own. */
function imposed(
  request: SlateRequest,
  page: Paper,
  sheet: Paper | null,
): Result<Imposition | null, SlateTrouble> {
  return sheet === null ? success(null) : imposition(page, sheet, slateWords(request));
}

/** How a card is made of its faces. */
interface Making {
  /** Front and back side by side, a page to fold. */
  readonly isFolded: boolean;
  readonly twoSided: boolean;
}

/**
 * Cards on the paper that is asked for.
 * @returns why not where the sheet does not take one
 */
export function cardSheets(
  request: SlateRequest,
  cards: readonly Card[],
  { isFolded, twoSided }: Making,
): Result<CardPages, SlateTrouble> {
  const { face, sheet } = papersOf(request);
  const faces = cards.flatMap((card) =>
    card.faces.map(({ name, body }, i): Page => {
      const { x, y } = spaceOf(face, request, i % 2 === 1);
      return {
        name,
        widthPt: face.widthMm * PT_PER_MM,
        heightPt: face.heightMm * PT_PER_MM,
        marks: body.at(x, y),
      };
    }),
  );
  const pages = isFolded ? foldedPages(faces) : faces;
  const page: Paper = isFolded ? { ...face, widthMm: 2 * face.widthMm } : face;
  const how = imposed(request, page, sheet);
  if (!how.ok) return how;
  const printed = how.value === null ? pages : onSheets(pages, page, how.value, twoSided);
  const usedSheet = how.value === null ? null : sheet;
  return success({
    pages: printed,
    count: countSaid(request.kind, cards.length, {
      pages: pages.length,
      sides: printed.length,
      sheet: usedSheet,
      isFolded,
      twoSided,
    }),
  });
}
