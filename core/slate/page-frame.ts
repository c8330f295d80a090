import type { Words } from '../words/reader';
import { dayOf, said, type Said } from '../words/said';
import { SAFETY_LINE } from '../words/safety-line';
import type { Trip } from '../document/types';
import { beside, rule, stack, type Block, type Mark, type Setter, type TextStyle } from './layout';

/** What stands inside the margins of a page, above its foot. */
export interface NamedSheet {
  readonly name: string;
  /** How many of what is counted begin on it: days, guests, divers; 0 on what only goes on. */
  readonly begins: number;
  readonly body: Block;
}

/** A page before it is known how many there are. */
export type Draft =
  | NamedSheet
  | {
      readonly name: string;
      /** Tags on it. */
      readonly begins: number;
      /** The whole page, foot included, as label stock knows no margins. @param page e.g. "page 2/7" */
      readonly marks: (page: string) => readonly Mark[];
    };

/** Bodies as drafts that are named for what they are of, the second one on as a further sheet of it. */
export function namedSheets(words: Words, what: Said, bodies: readonly Block[]): readonly NamedSheet[] {
  const name = words(what);
  return bodies.map((body, i) => ({
    name: i === 0 ? name : words(said`${name}, sheet ${i + 1}`),
    begins: i === 0 ? 1 : 0,
    body,
  }));
}

/** What every page says at its foot besides its number. */
export interface FootFacts {
  readonly trip: Trip;
  /** Of the plan as it stands, "3f9a". */
  readonly planMark: string;
  readonly printedOn: string;
  /** Of whoever holds the page: whole dates. */
  readonly words: Words;
}

/** The smallest type of figures and captions on any print-out, points. Source: common practice, legible by torch. */
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
    ...(set.width(trip.title, style) + sizePt + set.width(words(print), style) <= widthPt
      ? [
          beside([
            { block: set.text(trip.title, style, widthPt), x: 0 },
            { block: set.text(words(print), { ...style, align: 'right' }, widthPt), x: 0 },
          ]),
        ]
      : [set.text(trip.title, style, widthPt), set.text(words(print), style, widthPt)]),
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
