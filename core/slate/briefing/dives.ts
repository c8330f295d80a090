/** The dives of a briefing: what is planned, where, what is breathed and who has the least room. */
import type { Words } from '../../words/reader';
import { inRow, said } from '../../words/said';
import { beside, polyline, rule, space, stack, type Block, type Mark, type Setter } from '../layout';
import { stressed } from '../markup';
import {
  LEADING,
  lineOf,
  linesOf,
  paragraph,
  sectionHead,
  TYPES,
  widthOf,
  type Cell,
  type Section,
} from '../sheet/parts';
import type { BriefDay } from './content';
import type { BriefDive } from './one-dive';

/** White between columns. */
const GAP = 9;

/** A site and what is to be known there need this much, or nothing stands beside them. */
const SITE_LEAST = 150;

/** White above the first line of a dive and below its last. */
const PAD = 2.5;

interface Columns {
  readonly in: number;
  readonly site: number;
  readonly siteWidth: number;
  readonly plan: number;
  readonly planWidth: number;
  readonly mix: number;
  readonly mixWidth: number;
  readonly room: number;
  readonly roomWidth: number;
}

function most(set: Setter, texts: readonly string[], type: (typeof TYPES)[keyof typeof TYPES]): number {
  return Math.max(0, ...texts.map((text) => widthOf(set, text, type)));
}

/** The columns of a wide sheet; null where the site would be squeezed. */
function columnsOf(set: Setter, words: Words, { dives }: BriefDay, width: number): Columns | null {
  const number =
    most(
      set,
      dives.map((each) => each.number),
      TYPES.big,
    ) + 7;
  const clock =
    Math.max(
      most(
        set,
        dives.map((each) => each.in),
        TYPES.strong,
      ),
      most(
        set,
        dives.map((each) => each.up),
        TYPES.caption,
      ),
      widthOf(set, words(IN), TYPES.caption),
    ) + GAP;
  const planWidth = Math.min(
    width * 0.3,
    Math.max(
      most(
        set,
        dives.flatMap((each) => each.plan),
        TYPES.plan,
      ),
      most(
        set,
        dives.map((each) => each.leave),
        TYPES.caption,
      ),
    ) + 1,
  );
  const mixWidth = Math.min(
    width * 0.2,
    Math.max(
      most(
        set,
        dives.flatMap((each) => each.mixes.map(([mix]) => mix)),
        TYPES.strong,
      ),
      most(
        set,
        dives.flatMap((each) => each.mixes.flatMap(([, mods]) => mods)),
        TYPES.caption,
      ),
      widthOf(set, words(BREATHE), TYPES.caption),
    ) + 1,
  );
  const roomWidth = Math.min(
    width * 0.21,
    Math.max(
      most(
        set,
        dives.flatMap((each) => each.room ?? []),
        TYPES.strong,
      ),
      widthOf(set, words(LEAST), TYPES.caption),
    ) + 10,
  );
  const site = number + clock;
  const room = width - roomWidth;
  const mix = room - GAP - mixWidth;
  const plan = mix - GAP - planWidth;
  const siteWidth = plan - GAP - site;
  if (siteWidth < SITE_LEAST) return null;
  return { in: number, site, siteWidth, plan, planWidth, mix, mixWidth, room, roomWidth };
}

const IN = said`in`;
const SITE = said`site, what to know there`;
const BREATHE = said`breathe`;
const LEAST = said`least room`;

/** Dots round a block, as round a rock on a chart. */
function enclosed(block: Block, width: number, heightPt: number): Block {
  return {
    heightPt,
    at: (x, y): readonly Mark[] => [
      polyline(
        [
          { x: x - 4, y: y - 1 },
          { x: x + width, y: y - 1 },
          { x: x + width, y: y + heightPt },
          { x: x - 4, y: y + heightPt },
          { x: x - 4, y: y - 1 },
        ],
        1,
        [1, 1.6],
      ),
      ...block.at(x, y),
    ],
  };
}

function wideDive(set: Setter, dive: BriefDive, columns: Columns, width: number): Block {
  const cell = (text: string, type: (typeof TYPES)[keyof typeof TYPES], wide: number): Block =>
    text === ''
      ? space(0)
      : lineOf(set, [{ text, type, x: 0, width: wide }], type[1] > 11 ? LEADING.name : LEADING.data);
  const small = (text: string, wide: number): Block =>
    text === '' ? space(0) : paragraph(set, text, wide, TYPES.caption, LEADING.caption);
  const [who, room] = dive.room ?? ['', ''];
  const roomBlock = stack([
    cell(room, TYPES.plan, columns.roomWidth - 6),
    ...(who === '' ? [] : [paragraph(set, who, columns.roomWidth - 6, TYPES.person)]),
  ]);
  const clockWidth = columns.site - columns.in - 2;
  const row = beside([
    { block: cell(dive.number, TYPES.big, columns.in), x: 0 },
    { block: stack([cell(dive.in, TYPES.strong, clockWidth), small(dive.up, clockWidth)]), x: columns.in },
    {
      block: stack([
        cell(dive.site, TYPES.name, columns.siteWidth),
        ...dive.notes.map((note) => paragraph(set, note, columns.siteWidth)),
      ]),
      x: columns.site,
    },
    {
      block: stack([
        ...dive.plan.map((plan) => cell(plan, TYPES.plan, columns.planWidth)),
        small(dive.leave, columns.planWidth),
      ]),
      x: columns.plan,
    },
    {
      block: stack(
        dive.mixes.flatMap(([mix, mods]) => [
          cell(mix, TYPES.strong, columns.mixWidth),
          ...mods.map((mod) => small(mod, columns.mixWidth)),
        ]),
      ),
      x: columns.mix,
    },
    {
      block: dive.isTightest ? enclosed(roomBlock, columns.roomWidth - 4, roomBlock.heightPt) : roomBlock,
      x: columns.room,
    },
  ]);
  return stack([
    space(PAD),
    row,
    ...dive.warnings
      .map((text) => paragraph(set, text, width - columns.site, TYPES.dataBold))
      .map((block) => beside([{ block, x: columns.site }])),
    space(PAD),
  ]);
}

/** Each line of a dive by itself: on narrow paper one after the other. */
function narrowDive(set: Setter, words: Words, dive: BriefDive, width: number): readonly Block[] {
  const numberWidth = widthOf(set, dive.number, TYPES.big) + 7;
  const clockWidth = widthOf(set, dive.in, TYPES.strong) + 8;
  const at = numberWidth + clockWidth;
  const head = lineOf(
    set,
    [
      { text: dive.number, type: TYPES.big, x: 0, width: numberWidth },
      { text: dive.in, type: TYPES.strong, x: numberWidth, width: clockWidth },
      { text: dive.site, type: TYPES.name, x: at, width: width - at },
    ],
    LEADING.name,
  );
  const mixes = dive.mixes.map(([mix, mods]) => words(said`${stressed(mix)} ${inRow(mods)}`).trimEnd());
  const [who, room] = dive.room ?? ['', ''];
  const least = who === '' ? words(said`Room: ${room}`) : words(said`Least room: ${room}, ${who}`);
  const texts = [
    ...dive.planAlone.slice(0, -1),
    [dive.planAlone.at(-1)!, dive.leave, dive.up].filter((text) => text !== '').join('; '),
    mixes.join(', '),
    ...(room === '' ? [] : [dive.isTightest ? words(said`${stressed(least)}`) : least]),
  ];
  const lines = [
    ...texts.filter((text) => text !== '').map((text) => paragraph(set, text, width)),
    ...dive.warnings.map((text) => paragraph(set, text, width, TYPES.dataBold)),
    ...dive.notes.map((note) => paragraph(set, note, width)),
  ];
  return [stack([space(PAD), head]), ...lines.flatMap((block) => linesOf(block, LEADING.data)), space(PAD)];
}

/** The head of a column. */
function caption(text: string, x: number, width: number): Cell {
  return { text, type: TYPES.caption, x, width };
}

/** A line above each dive but the first. */
function parted(block: Block, at: number, width: number): Block {
  return at === 0 ? block : stack([rule(width, 0.4, 1), block]);
}

/** Under its head a dive stands in one piece where a page takes it. */
export function diveSection(
  set: Setter,
  words: Words,
  day: BriefDay,
  width: number,
  heightPt: number,
): Section {
  const columns = columnsOf(set, words, day, width);
  const title = words(said`Dives`);
  if (columns !== null) {
    const unit = day.depthUnit.includes('/')
      ? words(said`depth to run time, min`)
      : words(said`depth, ${day.depthUnit}, to run time, min`);
    const heads = stack([
      lineOf(
        set,
        [
          caption(words(IN), columns.in, columns.site - columns.in),
          caption(words(SITE), columns.site, columns.siteWidth),
          caption(unit, columns.plan, columns.mix - columns.plan - 4),
          caption(words(BREATHE), columns.mix, columns.mixWidth),
          caption(words(LEAST), columns.room, columns.roomWidth),
        ],
        LEADING.caption,
      ),
      rule(width, 0.4, 3),
    ]);
    const rows = day.dives.map((dive, i) => parted(wideDive(set, dive, columns, width), i, width));
    const head = stack([sectionHead(set, title, '', width), heads]);
    if (rows.every(({ heightPt: high }) => high + head.heightPt <= heightPt)) {
      return { head, again: heads, rows, isWhole: false };
    }
  }
  const head = sectionHead(set, title, words(said`depth until which run time`), width);
  const rows = day.dives.flatMap((dive, i) => {
    const [first, ...others] = narrowDive(set, words, dive, width);
    const lines = [parted(first!, i, width), ...others];
    const whole = stack(lines);
    return whole.heightPt + head.heightPt <= heightPt ? [whole] : lines;
  });
  return { head, again: space(0), rows, isWhole: false };
}
