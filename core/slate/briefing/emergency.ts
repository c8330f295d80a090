/** The box of what an emergency asks for: what the trip says, and dotted lines for what it does not. */
import { EMERGENCY_FIELDS, EMERGENCY_KEYS } from '../../document/emergency';
import type { Trip } from '../../document/types';
import type { Words } from '../../words/reader';
import { said } from '../../words/said';
import {
  beside,
  polyline,
  space,
  stack,
  straight,
  tagged,
  type Block,
  type Mark,
  type Point,
  type Setter,
} from '../layout';
import { unmarked } from '../markup';
import { LEADING, paragraph, styleOf, TYPES, widthOf, type Section } from '../sheet/parts';

const PAD = 7;
const GAP = 16;
const FRAME_PT = 1.8;

/** A line to write on is no narrower than this, or the fields stand below each other. */
const LINE_LEAST = 120;

/** High enough to be written on. */
const ROW = 17.5;

function fieldBlock(set: Setter, label: string, value: string, labelWidth: number, width: number): Block {
  const lineAt = labelWidth + 8;
  const words = paragraph(set, value, width - lineAt - 2, TYPES.dataBold);
  const high = Math.max(ROW, words.heightPt + 4);
  const caption = paragraph(set, label, labelWidth + 1, TYPES.caption, LEADING.data);
  return {
    heightPt: high,
    at: (x, y): readonly Mark[] => [
      ...caption.at(x, y + high - LEADING.data - 1.5),
      ...words.at(x + lineAt + 2, y + high - words.heightPt - 1.5),
      straight(x + lineAt, y + high - 1, x + width, y + high - 1, 0.6, [0.8, 1.6]),
    ],
  };
}

/** The heavy frame that is looked for in a hurry; in one piece where a page takes it. */
export function emergencySection(
  set: Setter,
  words: Words,
  { emergency = {} }: Trip,
  width: number,
): Section {
  const labels = EMERGENCY_KEYS.map((key) => words(EMERGENCY_FIELDS[key]));
  const labelWidth = Math.max(...labels.map((label) => widthOf(set, label, TYPES.caption)));
  const inner = width - 2 * PAD;
  const half = (inner - GAP) / 2;
  const columns = half - labelWidth - 8 >= LINE_LEAST ? 2 : 1;
  const fieldWidth = columns === 2 ? half : inner;
  const fields = EMERGENCY_KEYS.map((key, i) =>
    fieldBlock(set, labels[i]!, unmarked(emergency[key] ?? ''), labelWidth, fieldWidth),
  );
  const rows: Block[] = [];
  for (let i = 0; i < fields.length; i += columns) {
    const pair = fields.slice(i, i + columns);
    const high = Math.max(...pair.map(({ heightPt }) => heightPt));
    rows.push(
      beside(
        pair.map((field, c) => ({
          // Lines to write on lie level, however long the word beside one is.
          block: { heightPt: high, at: (x: number, y: number) => field.at(x, y + high - field.heightPt) },
          x: c * (half + GAP),
        })),
      ),
    );
  }
  const title = tagged(set.text(words(said`Emergency`), styleOf(TYPES.section), inner), { is: 'H2' });
  const head = framed(stack([space(PAD - 3), title]), width, 'top');
  const last = rows.length - 1;
  return {
    head,
    again: framed(space(PAD), width, 'top'),
    rows: rows.map((row, i) =>
      i === last ? framed(stack([row, space(PAD)]), width, 'bottom') : framed(row, width, 'sides'),
    ),
    isWhole: true,
  };
}

/** A part of the frame with what stands in it. */
function framed(block: Block, width: number, part: 'top' | 'sides' | 'bottom'): Block {
  return {
    heightPt: block.heightPt,
    at: (x, y): readonly Mark[] => {
      const [top, bottom] = [y, y + block.heightPt];
      const side = (at: number): Point[] => [
        { x: at, y: top },
        { x: at, y: bottom },
      ];
      const [left, right] = [side(x), side(x + width)];
      const lines =
        part === 'top'
          ? [[...left.toReversed(), ...right]]
          : part === 'bottom'
            ? [[...left, ...right.toReversed()]]
            : [left, right];
      return [...lines.map((points) => polyline(points, FRAME_PT)), ...block.at(x + PAD, y)];
    },
  };
}
