import type { Words } from '../words/reader';
import { dayOf, said } from '../words/said';
import { SAFETY_LINE } from '../words/safety-line';
import type { Trip } from '../document/types';
import {
  beside,
  rule,
  space,
  stack,
  tagged,
  type Block,
  type Mark,
  type Setter,
  type TextStyle,
} from './layout';

/** A page before it is known how many there are. */
export type Draft =
  | {
      readonly name: string;
      /** Inside the margins, above the foot. */
      readonly body: Block;
    }
  | {
      readonly name: string;
      /** The whole page, foot included, as label stock knows no margins. @param page e.g. "page 2/7" */
      readonly marks: (page: string) => readonly Mark[];
    };

/** What every page says at its foot besides its number. */
export interface FootFacts {
  readonly trip: Trip;
  /** Of the plan as it stands, "3f9a". */
  readonly planMark: string;
  readonly printedOn: string;
  /** Of whoever holds the page: whole dates. */
  readonly words: Words;
}

/** The smallest type on a wet-notes slate, and on any print-out, points. Source: common practice, legible by torch. */
export const SLATE_MIN_PT = 11;
export const PRINT_MIN_PT = 9;

/** The cautions at the foot: carried by every page, and no larger than they must be. Source: common practice. */
export const FOOT_PT = 7;

/**
 * The foot of a page: the cautions; then trip, day of printing, version of the file with the mark of what stood in it,
 * and page number.
 * @param sizePt its type size @param page e.g. "page 2/7"
 */
export function foot(set: Setter, widthPt: number, sizePt: number, facts: FootFacts, page: string): Block {
  const { trip, planMark, printedOn, words } = facts;
  const style: TextStyle = { font: 'text', sizePt };
  const print = said`${dayOf(printedOn)}, file version ${trip.version}-${planMark}, ${page}`;
  return stack([
    rule(widthPt, 0.5, 4),
    set.text(words(SAFETY_LINE), style, widthPt),
    set.text(trip.title, style, widthPt),
    set.text(words(print), style, widthPt),
  ]);
}

/** Height of a foot whatever its page number. @param digits of the count of pages */
export function footHeight(
  set: Setter,
  widthPt: number,
  sizePt: number,
  facts: FootFacts,
  digits: number,
): number {
  const most = '8'.repeat(digits);
  return foot(set, widthPt, sizePt, facts, facts.words(said`page ${most}/${most}`)).heightPt;
}

/** A title on the left and a note on the right of one line; the title gives way where both do not fit. */
export function heading(set: Setter, left: string, right: string, widthPt: number, sizePt: number): Block {
  const style: TextStyle = { font: 'bold', sizePt, maxLines: 2 };
  const note: TextStyle = {
    font: 'text',
    sizePt: Math.min(sizePt, Math.max(SLATE_MIN_PT, sizePt - 2)),
    align: 'right',
    maxLines: 2,
  };
  const noteWidth = set.width(right, note);
  const gap = sizePt;
  if (set.width(left, style) + gap + noteWidth <= widthPt) {
    return beside([
      { block: tagged(set.text(left, style, widthPt), { is: 'H1' }), x: 0 },
      { block: lowered(set.text(right, note, widthPt), (style.sizePt - note.sizePt) * 0.95), x: 0 },
    ]);
  }
  return stack([
    tagged(set.text(left, style, widthPt), { is: 'H1' }),
    set.text(right, { ...note, align: 'left' }, widthPt),
  ]);
}

/** A block with some white above it, so that baselines of two sizes meet. */
export function lowered(block: Block, byPt: number): Block {
  return stack([space(byPt), block]);
}
