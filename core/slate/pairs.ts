import { beside, stack, type Block, type Setter, type TextStyle } from './layout';

/** The width to fill and the type size of plain words on it. */
export interface Sizes {
  readonly set: Setter;
  readonly widthPt: number;
  readonly basePt: number;
}

/**
 * "Label value" pairs that flow over as many lines as they need; a pair is never torn apart.
 * @param items a label, empty for none, and what it says, in bold
 */
export function pairs(size: Sizes, items: readonly (readonly [label: string, value: string])[]): Block {
  const { set, basePt, widthPt } = size;
  const plain: TextStyle = { font: 'text', sizePt: basePt };
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
