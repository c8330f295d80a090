/** The table of a trip: its days, each with its dives under its date. */
import {
  space,
  stack,
  straight,
  tagged,
  type Block,
  type Mark,
  type Setter,
  type Tag,
  type TextStyle,
} from '../layout';
import type { TripDay, TripDive } from './content';

const PLAIN: TextStyle = { font: 'text', sizePt: 10, leadingPt: 11.8 };
const STRONG: TextStyle = { ...PLAIN, font: 'bold' };
const HEAD: TextStyle = { font: 'bold', sizePt: 13, leadingPt: 15.5 };

const GAP_PT = 4;
/** White above and below a dive; the dots round the tightest one stand in it. */
const PAD_PT = 1.6;

/** On less than this a site's name stands under its hour, points. */
const SITE_LEAST_PT = 40;

/** Two texts on a line, the second at its right end; on two lines where they would touch. */
function ends(
  set: Setter,
  left: string,
  right: string,
  widthPt: number,
  first: TextStyle = PLAIN,
  tags?: readonly [Tag, Tag],
): Block {
  const style = PLAIN;
  const fits = set.width(left, first) + GAP_PT + set.width(right, style) <= widthPt;
  const told = (block: Block, at: 0 | 1): Block => (tags === undefined ? block : tagged(block, tags[at]));
  const one = told(set.text(left, first, widthPt), 0);
  const other = told(set.text(right, { ...style, align: 'right' }, widthPt), 1);
  if (!fits) return stack([one, other]);
  return { heightPt: one.heightPt, at: (x, y) => [...one.at(x, y), ...other.at(x, y)] };
}

/** A dive is a row of the table to whoever has it read out. */
function diveBlock(set: Setter, dive: TripDive, widthPt: number, row: number): Block {
  const cell = (column: number): Tag => ({ is: column === 0 ? 'TH' : 'TD', row, column });
  const hour = set.width(dive.start, STRONG) + GAP_PT;
  const depth = set.width(dive.depth, PLAIN) + GAP_PT;
  const sitePt = widthPt - hour - depth;
  const site = set.text(dive.site, PLAIN, sitePt);
  const first: Block =
    sitePt >= SITE_LEAST_PT
      ? {
          heightPt: Math.max(PLAIN.leadingPt!, site.heightPt),
          at: (x, y) => [
            ...tagged(set.text(dive.start, STRONG, hour), cell(0)).at(x, y),
            ...tagged(site, cell(1)).at(x + hour, y),
            ...tagged(set.text(dive.depth, { ...PLAIN, align: 'right' }, widthPt), cell(2)).at(x, y),
          ],
        }
      : stack([
          ends(set, dive.start, dive.depth, widthPt, STRONG, [cell(0), cell(1)]),
          tagged(set.text(dive.site, PLAIN, widthPt), cell(2)),
        ]);
  const body = stack([
    space(PAD_PT),
    first,
    ends(set, dive.time, dive.room, widthPt, PLAIN, [cell(3), cell(4)]),
    ...(dive.warning === '' ? [] : [tagged(set.text(dive.warning, STRONG, widthPt), cell(5))]),
    space(PAD_PT),
  ]);
  if (!dive.isTightest) return body;
  return {
    heightPt: body.heightPt,
    at: (x, y) => [...dotted(x, y, widthPt, body.heightPt), ...body.at(x, y)],
  };
}

/** Dots as round a rock on a chart: the dive with least room. */
function dotted(x: number, y: number, widthPt: number, heightPt: number): readonly Mark[] {
  const [left, right, top, bottom] = [x - 2, x + widthPt + 2, y + 0.4, y + heightPt - 0.4];
  const dash = [1.2, 1.8] as const;
  return [
    straight(left, top, right, top, 1, dash),
    straight(right, top, right, bottom, 1, dash),
    straight(right, bottom, left, bottom, 1, dash),
    straight(left, bottom, left, top, 1, dash),
  ];
}

function totalsBlock(set: Setter, { totals }: TripDay, widthPt: number): Block {
  const line: Block = {
    heightPt: 3,
    at: (x, y) => [straight(x, y + 1.5, x + widthPt, y + 1.5, 0.6)],
  };
  return stack([line, ...totals.map(([name, says]) => ends(set, name, says, widthPt))]);
}

/** The parts of a day, which a column may end between. */
export interface DayParts {
  readonly head: Block;
  readonly parts: readonly Block[];
}

export function dayParts(set: Setter, day: TripDay, widthPt: number): DayParts {
  const head = day.heads.find((text) => set.width(text, HEAD) <= widthPt) ?? day.heads[day.heads.length - 1]!;
  return {
    head: stack([space(3), tagged(set.text(head, HEAD, widthPt), { is: 'H2' })]),
    parts: [
      ...day.dives.map((dive, i) => diveBlock(set, dive, widthPt, i + 1)),
      totalsBlock(set, day, widthPt),
    ],
  };
}

/**
 * Days in columns filled one after the other; a day that goes on in another column has its date there again.
 * @returns the columns; null where a part is higher than a column
 */
export function columnsOf(days: readonly DayParts[], heightPt: number): readonly Block[] | null {
  const columns: Block[][] = [[]];
  let used = 0;
  for (const { head, parts } of days) {
    let isHeaded = false;
    for (const [i, part] of parts.entries()) {
      if (head.heightPt + part.heightPt > heightPt) return null;
      // The sums of a day stand below its last dive, and in a column of their own only where no column takes both.
      const sums = i === parts.length - 2 ? parts[i + 1]!.heightPt : 0;
      const heldPt = part.heightPt + (head.heightPt + part.heightPt + sums <= heightPt ? sums : 0);
      if (used + (isHeaded ? 0 : head.heightPt) + heldPt > heightPt) {
        columns.push([]);
        used = 0;
        isHeaded = false;
      }
      const column = columns[columns.length - 1]!;
      if (!isHeaded) {
        column.push(head);
        used += head.heightPt;
        isHeaded = true;
      }
      column.push(part);
      used += part.heightPt;
    }
  }
  return columns.map((blocks) => stack(blocks));
}
