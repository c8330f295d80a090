import type { Paper } from './paper';

/** Where the tags lie on a sheet, in millimetres. */
export interface LabelSheet {
  readonly label: Paper;
  readonly columns: number;
  readonly rows: number;
  readonly leftMm: number;
  readonly topMm: number;
  /** From one tag to the next. */
  readonly pitchXMm: number;
  readonly pitchYMm: number;
  /** Blank paper is cut apart along lines; label stock is cut already. */
  readonly isStock: boolean;
}

const MM_PER_IN = 25.4;

function size(name: string, widthMm: number, heightMm: number): Paper {
  return { name, widthMm, heightMm };
}

interface Stock extends Omit<LabelSheet, 'isStock'> {
  readonly paper: 'A4' | 'letter';
}

/**
 * Label stock by the size of one label.
 * Source: common practice of self-adhesive label sheets, from memory; a first sheet is to be tried on plain
 * paper.
 */
const STOCK: readonly Stock[] = [
  {
    paper: 'A4',
    label: size('70x37mm', 70, 37),
    columns: 3,
    rows: 8,
    leftMm: 0,
    topMm: 0.5,
    pitchXMm: 70,
    pitchYMm: 37,
  },
  {
    paper: 'A4',
    label: size('63.5x38.1mm', 63.5, 38.1),
    columns: 3,
    rows: 7,
    leftMm: 7.2,
    topMm: 15.15,
    pitchXMm: 66.04,
    pitchYMm: 38.1,
  },
  {
    paper: 'A4',
    label: size('99.1x38.1mm', 99.1, 38.1),
    columns: 2,
    rows: 7,
    leftMm: 4.65,
    topMm: 15.15,
    pitchXMm: 101.6,
    pitchYMm: 38.1,
  },
  {
    paper: 'letter',
    label: size('4x2in', 4 * MM_PER_IN, 2 * MM_PER_IN),
    columns: 2,
    rows: 5,
    leftMm: 0.15625 * MM_PER_IN,
    topMm: 0.5 * MM_PER_IN,
    pitchXMm: 4.1875 * MM_PER_IN,
    pitchYMm: 2 * MM_PER_IN,
  },
  {
    paper: 'letter',
    label: size('4x1.33in', 4 * MM_PER_IN, (4 / 3) * MM_PER_IN),
    columns: 2,
    rows: 7,
    leftMm: 0.15625 * MM_PER_IN,
    topMm: (5 / 6) * MM_PER_IN,
    pitchXMm: 4.1875 * MM_PER_IN,
    pitchYMm: (4 / 3) * MM_PER_IN,
  },
];

/** A tag as it is cut from plain paper: large enough to be read across a deck, ten on A4 or letter. */
const PLAIN_TAG = size('95x54mm', 95, 54);

/** Sizes offered for choice; each takes all that has to stand on a tag. */
export const LABEL_SIZES: readonly string[] = [PLAIN_TAG.name, ...STOCK.map((stock) => stock.label.name)];

/** The size of a tag where none is chosen, on any paper. */
export function usualLabel(): Paper {
  return PLAIN_TAG;
}

/** White over tags cut from plain paper: what more there is lies under them, for the cautions. */
const TOP_MM = 8;

/**
 * How tags of a size lie on a paper: as on label stock where that size is known for it, else side by side
 * at the head of the sheet, to be cut apart.
 * @param label null: the usual size @returns null where not one fits
 */
export function labelSheet(paper: Paper, label: Paper | null): LabelSheet | null {
  const wanted = label ?? usualLabel();
  const stock = STOCK.find(
    (each) =>
      each.paper === paper.name &&
      Math.abs(each.label.widthMm - wanted.widthMm) < 0.1 &&
      Math.abs(each.label.heightMm - wanted.heightMm) < 0.1,
  );
  if (stock) return { ...stock, isStock: true };
  const columns = Math.floor(paper.widthMm / wanted.widthMm + 1e-6);
  const rows = Math.floor(paper.heightMm / wanted.heightMm + 1e-6);
  if (columns * rows === 0) return null;
  return {
    label: wanted,
    columns,
    rows,
    leftMm: (paper.widthMm - columns * wanted.widthMm) / 2,
    topMm: Math.min(TOP_MM, (paper.heightMm - rows * wanted.heightMm) / 2),
    pitchXMm: wanted.widthMm,
    pitchYMm: wanted.heightMm,
    isStock: false,
  };
}
