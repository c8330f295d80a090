/** Pages laid on larger sheets, and faces beside each other to fold. */
import { moved, straight, type Mark, type Page } from './layout';
import { CUT_GAP_PT, CUT_MARK_PT, placeOf, PT_PER_MM, type Imposition, type Paper } from './paper';

/** Marks at the edges a knife is laid along, outside the pages they part, as far as the sheet has white there. */
function cutMarks(page: Paper, how: Imposition): readonly Mark[] {
  const width = page.widthMm * PT_PER_MM;
  const height = page.heightMm * PT_PER_MM;
  const right = how.origin.x + how.columns * width;
  const bottom = how.origin.y + how.rows * height;
  const marks: Mark[] = [];
  for (let c = 0; c <= how.columns && how.origin.y >= CUT_MARK_PT; c += 1) {
    const x = how.origin.x + c * width;
    marks.push(straight(x, how.origin.y - CUT_MARK_PT, x, how.origin.y - CUT_GAP_PT, 0.3));
    marks.push(straight(x, bottom + CUT_GAP_PT, x, bottom + CUT_MARK_PT, 0.3));
  }
  for (let r = 0; r <= how.rows && how.origin.x >= CUT_MARK_PT; r += 1) {
    const y = how.origin.y + r * height;
    marks.push(straight(how.origin.x - CUT_MARK_PT, y, how.origin.x - CUT_GAP_PT, y, 0.3));
    marks.push(straight(right + CUT_GAP_PT, y, right + CUT_MARK_PT, y, 0.3));
  }
  return marks;
}

/** Dashed lines between pages: where the pages fill the sheet, marks beside them find no white. */
function cutLines(page: Paper, how: Imposition): readonly Mark[] {
  const width = page.widthMm * PT_PER_MM;
  const height = page.heightMm * PT_PER_MM;
  const marks: Mark[] = [];
  for (let c = 1; c < how.columns; c += 1) {
    const x = how.origin.x + c * width;
    marks.push(straight(x, how.origin.y, x, how.origin.y + how.rows * height, 0.3, [3, 3]));
  }
  for (let r = 1; r < how.rows; r += 1) {
    const y = how.origin.y + r * height;
    marks.push(straight(how.origin.x, y, how.origin.x + how.columns * width, y, 0.3, [3, 3]));
  }
  return marks;
}

/** Pages laid on larger sheets. On both sides: sheets go in pairs, the back with its columns turned round. */
export function onSheets(
  pages: readonly Page[],
  paper: Paper,
  how: Imposition,
  twoSided: boolean,
): readonly Page[] {
  const perSide = how.columns * how.rows;
  const sides: (Page | undefined)[][] = [];
  if (twoSided) {
    // Front and back of one leaf are neighbours in the list and must meet in one place of the sheet.
    for (let leaf = 0; leaf * 2 < pages.length; leaf += perSide) {
      const leaves = Array.from({ length: perSide }, (_, i) => 2 * (leaf + i));
      sides.push(leaves.map((first) => pages[first]));
      const backs = leaves.map((first) => pages[first + 1]);
      if (backs.some((page) => page !== undefined)) sides.push(backs);
    }
  } else {
    for (let i = 0; i < pages.length; i += perSide) sides.push(pages.slice(i, i + perSide));
  }
  const guides = [...cutMarks(paper, how), ...cutLines(paper, how)];
  return sides.map((side, s) => ({
    name: side.flatMap((page) => (page ? [page.name] : [])).join('; '),
    widthPt: how.sheet.widthMm * PT_PER_MM,
    heightPt: how.sheet.heightMm * PT_PER_MM,
    marks: [
      ...guides,
      ...side.flatMap((page, i) => {
        if (!page) return [];
        const { x, y } = placeOf(i, paper, how, twoSided && s % 2 === 1);
        return moved(page.marks, x, y);
      }),
    ],
  }));
}

/** Where to fold: marks at both edges, in the white of the margins. */
const FOLD_MARK_PT = 8;

/** Fronts and backs side by side, each pair a page to fold down its middle. */
export function foldedPages(faces: readonly Page[]): readonly Page[] {
  const pages: Page[] = [];
  for (let i = 0; i < faces.length; i += 2) {
    const [front, back] = [faces[i]!, faces[i + 1]!];
    const { widthPt, heightPt } = front;
    pages.push({
      name: back.name === '' || back.name === front.name ? front.name : `${front.name}; ${back.name}`,
      widthPt: 2 * widthPt,
      heightPt,
      marks: [
        straight(widthPt, 0, widthPt, FOLD_MARK_PT, 0.3),
        straight(widthPt, heightPt - FOLD_MARK_PT, widthPt, heightPt, 0.3),
        ...front.marks,
        ...moved(back.marks, widthPt, 0),
      ],
    });
  }
  return pages;
}
