/** Guest sheets: one page for each guest before the trip where the paper takes it, more of the same size where not. */
import { inOneSystem, wordsOf, type Words } from '../../words/reader';
import { said } from '../../words/said';
import { beside, polyline, rule, space, stack, tagged, type Block, type Mark, type Setter } from '../layout';
import { namedSheets, type Draft } from '../page-frame';
import { slateReader } from '../reading';
import type { DatedRequest } from '../request';
import {
  flowed,
  LEADING,
  lineOf,
  linesOf,
  paragraph,
  sectionHead,
  styleOf,
  TYPES,
  widthOf,
  type Section,
  type Type,
} from '../sheet/parts';
import { guestsOf, type Guest, type GuestDay, type GuestSite } from './content';

/** Name of the guest. */
const GUEST = ['name', 15] as const;

/** A dive of the table is no narrower than this. */
const DIVE_LEAST = 62;

/** From here on sites stand beside what is breathed. */
const TWO_COLUMNS = 330;

const GAP = 16;
const PAD = 2.2;

/** What stands above the first section, line by line: the longest names take more than a small page. */
function topRows(
  set: Setter,
  { title, where, name, summary, limits }: Guest,
  width: number,
): readonly Block[] {
  const headed = (text: string, type: Type): readonly Block[] => {
    const leadingPt = type[1] * 1.2;
    return linesOf(set.text(text, styleOf(type, { leadingPt }), width), leadingPt).map((line) =>
      tagged(line, { is: 'H1' }),
    );
  };
  const plain = (text: string): readonly Block[] => linesOf(paragraph(set, text, width), LEADING.data);
  const isBeside = set.width(name, styleOf(GUEST)) + GAP + widthOf(set, summary, TYPES.dataBold) <= width;
  const right = set.text(summary, styleOf(TYPES.data, { align: 'right' }), width);
  const who = headed(name, GUEST);
  return [
    ...headed(title, TYPES.title),
    ...plain(where),
    space(6),
    ...(isBeside
      ? [
          beside([
            { block: who[0]!, x: 0 },
            { block: stack([space((GUEST[1] - TYPES.data[1]) * 0.96), right]), x: 0 },
          ]),
        ]
      : [...who, ...plain(summary)]),
    ...plain(limits),
  ];
}

/** A day in as many lines of dives as the width asks for. */
function dayRow(
  set: Setter,
  { day, dives }: GuestDay,
  { row, left, columns, width }: { row: number; left: number; columns: number; width: number },
): Block {
  const cell = (width - left) / columns;
  const lines: Block[] = [];
  for (let i = 0; i < dives.length; i += columns) {
    lines.push(
      beside(
        dives.slice(i, i + columns).map(({ when, where }, c) => ({
          block: tagged(stack([paragraph(set, when, cell - 6), paragraph(set, where, cell - 6)]), {
            is: 'TD',
            row,
            column: 1 + c + i,
          }),
          x: left + c * cell,
        })),
      ),
    );
  }
  const name = tagged(paragraph(set, day, left - 4, TYPES.dataBold), { is: 'TH', row, column: 0 });
  return stack([
    ...(row === 0 ? [] : [rule(width, 0.4, 1)]),
    space(PAD),
    beside([
      { block: name, x: 0 },
      { block: stack(lines, 2), x: 0 },
    ]),
    space(PAD),
  ]);
}

function daysSection(set: Setter, inWords: Words, { days }: Guest, width: number): Section {
  const left = Math.max(...days.map(({ day }) => widthOf(set, day, TYPES.dataBold))) + 10;
  const most = Math.max(3, ...days.map(({ dives }) => dives.length));
  const words = days.flatMap(({ dives }) => dives.flatMap(({ where }) => where.split(' ')));
  const wide = words.map((word) => widthOf(set, word, TYPES.data) + 7);
  // A word that is longer than the page is wide breaks anyway.
  const cell = Math.max(DIVE_LEAST, ...wide.filter((each) => each <= width - left));
  const taken = Math.max(1, Math.min(most, Math.floor((width - left) / cell)));
  const rowsIn = (columns: number): readonly Block[] =>
    days.map((day, row) => dayRow(set, day, { row, left, columns, width }));
  // As low as it can be: in narrow columns long names take more lines than dives below each other.
  const [rows] = Array.from({ length: taken }, (_, i) => rowsIn(taken - i)).toSorted(
    (one, other) => stack(one).heightPt - stack(other).heightPt,
  );
  const note = inWords(said`time in the water, deepest point, site; the evening before may change them`);
  return {
    head: sectionHead(set, inWords(said`Your days`), note, width, 1.6),
    again: space(0),
    rows: rows!,
    isWhole: false,
  };
}

function mixesSection(set: Setter, words: Words, { mixes }: Guest, width: number): Section {
  const left = Math.max(0, ...mixes.map(([mix]) => widthOf(set, mix, TYPES.big))) + 10;
  const analyse = words(
    said`You analyse each cylinder yourself before it goes aboard, and write what you read on its tag.`,
  );
  return {
    head: sectionHead(set, words(said`What you breathe`), '', width),
    again: space(0),
    rows: [
      ...mixes.map(([mix, says]) =>
        lineOf(
          set,
          [
            { text: mix, type: TYPES.big, x: 0, width: left },
            { text: says, type: TYPES.data, x: left, width: width - left },
          ],
          18,
        ),
      ),
      paragraph(set, analyse, width),
    ],
    isWhole: true,
  };
}

function textSection(set: Setter, title: string, texts: readonly string[], width: number): Section {
  return {
    head: sectionHead(set, title, '', width),
    again: space(0),
    rows: texts.map((text) => paragraph(set, text, width)),
    isWhole: true,
  };
}

function siteBlocks(set: Setter, { name, depth, note }: GuestSite, width: number): readonly Block[] {
  const named = set.width(name, styleOf(TYPES.name));
  const far = widthOf(set, depth, TYPES.data);
  const isBeside = named + 6 + far <= width;
  const head = isBeside
    ? lineOf(
        set,
        [
          { text: name, type: TYPES.name, x: 0, width: named + 1 },
          { text: depth, type: TYPES.data, x: named + 6, width: width - named - 6 },
        ],
        LEADING.name,
      )
    : stack([
        set.text(name, styleOf(TYPES.name, { leadingPt: LEADING.name }), width),
        paragraph(set, depth, width),
      ]);
  const [first, ...lines] = note === '' ? [] : linesOf(paragraph(set, note, width), LEADING.data);
  return [stack([space(PAD), head, ...(first === undefined ? [] : [first])]), ...lines];
}

function sitesSection(set: Setter, words: Words, { sites }: Guest, width: number): Section {
  return {
    head: sectionHead(set, words(said`Sites`), '', width),
    again: space(0),
    rows: sites.flatMap((site) => siteBlocks(set, site, width)),
    isWhole: false,
  };
}

/** A box to tick, and what it stands for. */
function tickBlock(set: Setter, text: string, width: number): Block {
  const side = 8;
  const indent = 15;
  const words = paragraph(set, text, width - indent);
  return {
    heightPt: words.heightPt + 2.5,
    at: (x, y): readonly Mark[] => [
      polyline(
        [
          { x, y: y + 3 },
          { x: x + side, y: y + 3 },
          { x: x + side, y: y + 3 + side },
          { x, y: y + 3 + side },
          { x, y: y + 3 },
        ],
        0.8,
      ),
      ...words.at(x + indent, y),
    ],
  };
}

function bringSection(set: Setter, words: Words, { bring }: Guest, width: number): Section {
  const columns = width >= TWO_COLUMNS ? 2 : 1;
  const each = (width - GAP) / columns;
  const rows: Block[] = [];
  const high = Math.ceil(bring.length / columns);
  for (let i = 0; i < high; i += 1) {
    const pair = bring.filter((_, at) => at % high === i);
    rows.push(
      beside(
        pair.map((text, c) => ({ block: tickBlock(set, text, each - 2), x: c * (each + GAP / columns) })),
      ),
    );
  }
  return {
    head: sectionHead(set, words(said`Bring`), words(said`tick as you pack`), width),
    again: space(0),
    rows,
    isWhole: true,
  };
}

function whole({ head, rows }: Section): Block {
  return stack([head, ...rows]);
}

/** The notes on the sites, where they have no room: each is told before its dive. */
const NO_NOTES = said`Notes on the sites have no room here: a larger sheet has them, and they are told before each dive.`;

/**
 * All below the days, close, in several ways, the first that is one page to be taken: what is breathed and flying on the
 * left and what to bring on the right, or those two beside each other and what to bring below; and below them the sites,
 * or that a larger sheet has them. None where a page is too narrow for two columns.
 */
function closeBelow(set: Setter, words: Words, guest: Guest, width: number): readonly (readonly Section[])[] {
  if (width < TWO_COLUMNS || guest.sites.length === 0) return [];
  const half = (width - GAP) / 2;
  const pair = (left: readonly Block[], right: readonly Block[]): Section => ({
    head: space(0),
    again: space(0),
    rows: [
      beside([
        { block: stack(left, 5), x: 0 },
        { block: stack(right, 5), x: half + GAP },
      ]),
    ],
    isWhole: true,
  });
  const mixes = mixParts(set, words, guest, half).map(whole);
  const flying = flyingParts(set, words, guest, half).map(whole);
  const bring = whole(bringSection(set, words, guest, half));
  const across = bringSection(set, words, guest, width);
  const sites = sitesSection(set, words, guest, width);
  const notes = paragraph(set, words(NO_NOTES), half, TYPES.caption, LEADING.caption);
  return [
    [pair([...mixes, ...flying], [bring]), sites],
    [pair(mixes, flying), across, sites],
    [pair([...mixes, ...flying], [bring, notes])],
    [pair(mixes, [...flying, notes]), across],
  ];
}

function mixParts(set: Setter, words: Words, guest: Guest, width: number): readonly Section[] {
  return guest.mixes.length === 0 ? [] : [mixesSection(set, words, guest, width)];
}

function flyingParts(set: Setter, words: Words, guest: Guest, width: number): readonly Section[] {
  return guest.flying.length === 0 ? [] : [textSection(set, words(said`Flying`), guest.flying, width)];
}

function leftParts(set: Setter, words: Words, guest: Guest, width: number): readonly Section[] {
  return [...mixParts(set, words, guest, width), ...flyingParts(set, words, guest, width)];
}

/** What is breathed and flying on the left, sites on the right; below each other where a page is too low. */
function middle(
  set: Setter,
  words: Words,
  guest: Guest,
  width: number,
  heightPt: number,
): readonly Section[] {
  if (width >= TWO_COLUMNS && guest.sites.length > 0) {
    const half = (width - GAP) / 2;
    const left = stack(leftParts(set, words, guest, half).map(whole), 5);
    const right = whole(sitesSection(set, words, guest, half));
    const row = beside([
      { block: left, x: 0 },
      { block: right, x: half + GAP },
    ]);
    if (row.heightPt <= 0.62 * heightPt) {
      return [{ head: space(0), again: space(0), rows: [row], isWhole: true }];
    }
  }
  return [
    ...leftParts(set, words, guest, width),
    ...(guest.sites.length === 0 ? [] : [sitesSection(set, words, guest, width)]),
  ];
}

/**
 * The sheets of the guests that are asked for.
 * @returns drafts in order of the party, or null where the paper is too small for what has to stand on it
 */
export function guestDrafts(
  request: DatedRequest,
  set: Setter,
  widthPt: number,
  heightPt: number,
): readonly Draft[] | null {
  const words = wordsOf(inOneSystem(slateReader(request)));
  const drafts: Draft[] = [];
  for (const guest of guestsOf(request)) {
    const top: readonly Section[] = [
      { head: space(0), again: space(0), rows: topRows(set, guest, widthPt), isWhole: false },
      daysSection(set, words, guest, widthPt),
    ];
    const pagesWith = (below: readonly Section[]): readonly Block[] | null =>
      flowed([...top, ...below], { first: heightPt, others: heightPt });
    const usual = pagesWith([
      ...middle(set, words, guest, widthPt, heightPt),
      bringSection(set, words, guest, widthPt),
    ]);
    // A guest has one page where one can be made.
    const close = usual?.length === 1 ? [] : closeBelow(set, words, guest, widthPt);
    const pages = close.map(pagesWith).find((each) => each?.length === 1) ?? usual;
    if (pages === null) return null;
    drafts.push(...namedSheets(words, said`Guest sheet, ${guest.name}`, pages));
  }
  return drafts;
}
