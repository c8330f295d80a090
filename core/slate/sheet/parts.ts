/** What the sheets that lie on a table are set of: sizes that hold on every paper, rows, heads and lists. */
import type { FaceName } from '../faces';
import {
  beside,
  rule,
  space,
  stack,
  tagged,
  type Block,
  type Setter,
  type Tag,
  type TextBlock,
  type TextStyle,
} from '../layout';

/** A face and a size in points; the same on every paper: a smaller one takes more pages. */
export type Type = readonly [font: FaceName, sizePt: number];

/** Source: at least 11 points for data and 9 for captions, this project's own. */
export const TYPES = {
  title: ['name', 20],
  section: ['name', 13],
  name: ['name', 12],
  big: ['bold', 15],
  strong: ['bold', 12],
  /** What is stressed in it is as strong. */
  plan: ['text', 12],
  data: ['text', 11],
  dataBold: ['bold', 11],
  person: ['semi', 11],
  caption: ['text', 9],
  captionSlant: ['textSlant', 9],
} as const satisfies Record<string, Type>;

/** From baseline to baseline. */
export const LEADING = { data: 13.4, caption: 11, name: 15 } as const;

/** White between sections. */
export const SECTION_GAP = 6;

export function styleOf([font, sizePt]: Type, more: Partial<TextStyle> = {}): TextStyle {
  return { font, sizePt, ...more };
}

export function widthOf(set: Setter, text: string, type: Type): number {
  return set.width(text, styleOf(type));
}

/** The middle of a line above its baseline, as a share of the type size: see layout. */
const MIDDLE = 0.36;

/** Words of a row: where they begin, how wide they may run. */
export interface Cell {
  readonly text: string;
  readonly type: Type;
  readonly x: number;
  readonly width: number;
  readonly align?: 'left' | 'right' | 'center';
  readonly tag?: Tag;
}

/** Cells beside each other, their first lines on one baseline whatever their sizes. */
export function lineOf(set: Setter, cells: readonly Cell[], leadingPt: number): Block {
  const most = Math.max(...cells.map(({ type }) => type[1]));
  return beside(
    cells.map(({ text, type, x, width, align, tag }) => {
      const block = set.text(text, styleOf(type, { leadingPt, align: align ?? 'left' }), width);
      const words = tag === undefined ? block : tagged(block, tag);
      return { block: stack([space((most - type[1]) * MIDDLE), words]), x };
    }),
  );
}

/** Words over the whole width of a column, at the distance of lines of their kind. */
export function paragraph(
  set: Setter,
  text: string,
  width: number,
  type: Type = TYPES.data,
  leadingPt: number = LEADING.data,
): TextBlock {
  return set.text(text, styleOf(type, { leadingPt }), width);
}

/** Each line of a text by itself, so that a long one may go on on the next page. */
export function linesOf(block: TextBlock, leadingPt: number): readonly Block[] {
  const count = Math.round(block.heightPt / leadingPt);
  return Array.from({ length: count }, (_, i): Block => ({
    heightPt: leadingPt,
    at: (x, y) => {
      const top = y - i * leadingPt;
      // A baseline lies between the top of its line and the next.
      return block.at(x, top).filter((mark) => Math.floor((mark.y - top) / leadingPt) === i);
    },
  }));
}

/** Lines that begin with a dash, hung from it. */
export function dashed(set: Setter, text: string, width: number, dash = '–'): readonly Block[] {
  const indent = 9;
  const words = paragraph(set, text, width - indent);
  return linesOf(words, LEADING.data).map((line, i) =>
    beside([...(i > 0 ? [] : [{ block: paragraph(set, dash, indent), x: 0 }]), { block: line, x: indent }]),
  );
}

/** The head of a section under a line across, with a note behind it where that has room, else below. */
export function sectionHead(set: Setter, title: string, note: string, width: number, strokePt = 0.6): Block {
  const head = styleOf(TYPES.section);
  const wide = set.width(title, head);
  const words = tagged(set.text(title, head, width), { is: 'H2' });
  const isBeside = wide + 6 + widthOf(set, note, TYPES.caption) <= width;
  return stack([
    rule(width, strokePt, 4),
    note === ''
      ? words
      : isBeside
        ? beside([
            { block: words, x: 0 },
            {
              block: stack([
                space((TYPES.section[1] - TYPES.caption[1]) * (MIDDLE + 0.6)),
                set.text(note, styleOf(TYPES.caption), width - wide - 6),
              ]),
              x: wide + 6,
            },
          ])
        : stack([words, set.text(note, styleOf(TYPES.caption), width)]),
  ]);
}

/** A part of a sheet: its rows stand together where a page takes them all, else they go on under their head. */
export interface Section {
  readonly head: Block;
  /** On the next page. */
  readonly again: Block;
  readonly rows: readonly Block[];
  /** Begins a page of its own rather than be parted, where one takes it whole. */
  readonly isWhole: boolean;
}

function heightOf(blocks: readonly Block[]): number {
  return blocks.reduce((sum, { heightPt }) => sum + heightPt, 0);
}

/**
 * Sections on pages in their order.
 * @param heightsPt what is free on the first page, and on the others
 * @returns null where a row is higher than a page
 */
export function flowed(
  sections: readonly Section[],
  heightsPt: { readonly first: number; readonly others: number },
): readonly Block[] | null {
  const pages: Block[][] = [[]];
  let usedPt = 0;
  const freePt = (): number => (pages.length === 1 ? heightsPt.first : heightsPt.others) - usedPt;
  const put = (block: Block): void => {
    pages[pages.length - 1]!.push(block);
    usedPt += block.heightPt;
  };
  const turn = (): void => {
    pages.push([]);
    usedPt = 0;
  };
  for (const { head, again, rows, isWhole } of sections) {
    const wholePt = heightOf([head, ...rows]);
    const gapPt = usedPt === 0 ? 0 : SECTION_GAP;
    const firstPt = head.heightPt + (rows[0]?.heightPt ?? 0);
    const mustTurn =
      gapPt + firstPt > freePt() || (isWhole && gapPt + wholePt > freePt() && wholePt <= heightsPt.others);
    // What stands above the first page may leave it no room.
    const isShort = pages.length === 1 && heightsPt.first < heightsPt.others;
    if ((usedPt > 0 || isShort) && mustTurn) turn();
    else if (gapPt > 0) put(space(gapPt));
    if (firstPt > freePt()) return null;
    put(head);
    for (const row of rows) {
      if (row.heightPt > freePt()) {
        turn();
        put(again);
        if (row.heightPt > freePt()) return null;
      }
      put(row);
    }
  }
  return pages.map((page) => stack(page));
}
