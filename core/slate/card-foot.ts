/** The foot of what is printed small: a line of caution, and which plan it is a print of. */
import type { Words } from '../words/reader';
import { SAFETY_LINE } from '../words/safety-line';
import { said } from '../words/said';
import { blockOf, lines, put, TYPES, widthMm, type Pen } from './card/pen';
import { beside, space, stack, type Block } from './layout';

/** What to do on the front, that no model prevents on the back; both where there is one face alone. */
const DO = said`Stay within your training. Analyse your cylinder. Computer and local rules come first.`;
const NO_PROMISE = said`No model or table prevents decompression sickness or oxygen toxicity.`;

export type FootCaution = 'do' | 'no promise' | 'both' | 'whole';

/** The foot: one small line of caution, or all of it once a booklet; and which plan this is a print of. */
export function footBlock(pen: Pen, words: Words, which: FootCaution, mark: string, width: number): Block {
  const texts = {
    do: [DO],
    'no promise': [NO_PROMISE],
    both: [DO, NO_PROMISE],
    whole: [SAFETY_LINE],
  }[which].map(words);
  const print = words(said`plan ${mark}`);
  const printAt = width - widthMm(pen, print, TYPES.caution);
  const body = stack(texts.map((text) => lines(pen, text, TYPES.caution, width, 3)));
  // The plan is named where a line leaves room for it: on one side of a card at least.
  const ends = lines(pen, texts[texts.length - 1]!, TYPES.caution, width, 3).at(0, 0);
  const last = Math.max(...ends.map(({ y }) => y));
  const end = Math.max(
    ...ends.filter(({ y }) => y === last).map(({ x, width: wide }) => (x + wide) / pen.mm),
  );
  const printed =
    end + 2 > printAt
      ? []
      : [put(pen, print, TYPES.caution, { x: printAt, y: body.heightPt / pen.mm - 3, pitch: 3 })];
  return stack([
    space(0.8 * pen.mm),
    beside([
      { block: body, x: 0 },
      { block: blockOf(pen, 3, printed), x: 0 },
    ]),
  ]);
}
