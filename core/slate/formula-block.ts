/** A formula in type: fractions with a line between, powers raised, broken between its terms where it is too wide. */
import { areJoined, formulaText, isBuilt, type Formula, type Term } from '../words/formula';
import type { Words } from '../words/reader';
import { said } from '../words/said';
import { straight, tagged, type Block, type Mark, type Setter, type TextStyle } from './layout';

/** Something that stands on a baseline. */
interface Box {
  readonly width: number;
  /** Above and below the baseline. */
  readonly above: number;
  readonly below: number;
  readonly at: (x: number, baseline: number) => readonly Mark[];
}

/** Shares of the type size: what letters reach above and below, where a fraction's line lies, and the white about it. */
const ABOVE = 0.8;
const BELOW = 0.24;
const AXIS = 0.27;
const LINE_WHITE = 0.12;
const SIDE_WHITE = 0.15;
const WORD_GAP = 0.27;
const POWER_SIZE = 0.7;
const POWER_LIFT = 0.42;
const LINE_PT = 0.6;

function wordBox(set: Setter, text: string, style: TextStyle): Box {
  return {
    width: set.width(text, style),
    above: style.sizePt * ABOVE,
    below: style.sizePt * BELOW,
    at: (x, baseline) => set.line(text, style, x, baseline),
  };
}

function fractionBox(over: Box, under: Box, sizePt: number): Box {
  const side = sizePt * SIDE_WHITE;
  const white = sizePt * LINE_WHITE;
  const axis = sizePt * AXIS;
  const width = Math.max(over.width, under.width) + 2 * side;
  return {
    width,
    above: axis + white + over.below + over.above,
    below: under.above + under.below + white - axis,
    at: (x, baseline) => {
      const y = baseline - axis;
      return [
        ...over.at(x + (width - over.width) / 2, y - white - over.below),
        straight(x + side / 2, y, x + width - side / 2, y, LINE_PT),
        ...under.at(x + (width - under.width) / 2, y + white + under.above),
      ];
    },
  };
}

function raisedBox(base: Box, power: Box, sizePt: number): Box {
  const lift = sizePt * POWER_LIFT;
  return {
    width: base.width + power.width,
    above: Math.max(base.above, lift + power.above),
    below: base.below,
    at: (x, baseline) => [...base.at(x, baseline), ...power.at(x + base.width, baseline - lift)],
  };
}

interface Setting {
  readonly set: Setter;
  readonly words: Words;
}

function boxOf({ set, words }: Setting, term: Term, style: TextStyle): Box {
  if (!isBuilt(term)) return wordBox(set, words(said`${term}`), style);
  const inner = (formula: Formula, sizePt: number): Box =>
    rowBox(boxesOf({ set, words }, formula, { ...style, sizePt }));
  const { sizePt } = style;
  return term.is === 'fraction'
    ? fractionBox(inner(term.over, sizePt), inner(term.under, sizePt), sizePt)
    : raisedBox(inner(term.base, sizePt), inner(term.power, sizePt * POWER_SIZE), sizePt);
}

/** A box and the white before it. */
interface Placed {
  readonly box: Box;
  readonly gap: number;
}

function boxesOf(setting: Setting, formula: Formula, style: TextStyle): readonly Placed[] {
  let before = '';
  return formula.map((term, at) => {
    const text = isBuilt(term) ? 'x' : setting.words(said`${term}`);
    const gap = at === 0 || areJoined(before, text) ? 0 : style.sizePt * WORD_GAP;
    before = text;
    return { box: boxOf(setting, term, style), gap };
  });
}

function rowBox(row: readonly Placed[]): Box {
  return {
    width: row.reduce((sum, { box, gap }, at) => sum + box.width + (at === 0 ? 0 : gap), 0),
    above: Math.max(0, ...row.map(({ box }) => box.above)),
    below: Math.max(0, ...row.map(({ box }) => box.below)),
    at: (x, baseline) => {
      let left = x;
      return row.flatMap(({ box, gap }, at) => {
        const from = left + (at === 0 ? 0 : gap);
        left = from + box.width;
        return box.at(from, baseline);
      });
    },
  };
}

/** Terms in rows no wider than the width, as far as one term is not. */
function rowsOf(placed: readonly Placed[], widthPt: number): readonly (readonly Placed[])[] {
  const rows: Placed[][] = [];
  let used = 0;
  for (const each of placed) {
    const row = rows[rows.length - 1];
    const { width } = each.box;
    if (row === undefined || used + each.gap + width > widthPt) {
      rows.push([each]);
      used = width;
    } else {
      row.push(each);
      used += each.gap + width;
    }
  }
  return rows;
}

/**
 * A formula as it is written by hand.
 * @param words of whoever holds the page @param widthPt points; a longer one goes on in the next line
 */
export function formulaBlock(
  set: Setter,
  formula: Formula,
  words: Words,
  style: TextStyle,
  widthPt: number,
): Block {
  const rows = rowsOf(boxesOf({ set, words }, formula, style), widthPt).map(rowBox);
  const block: Block = {
    heightPt: rows.reduce((sum, { above, below }) => sum + above + below, 0),
    at: (x, y) => {
      let top = y;
      return rows.flatMap((row) => {
        const baseline = top + row.above;
        top = baseline + row.below;
        return row.at(x, baseline);
      });
    },
  };
  return tagged(block, { is: 'Formula', alt: formulaText(formula, words) });
}
