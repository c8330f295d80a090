/** Briefing sheets: the party's day on one page where that takes it, on more of the same size where not. */
import { inOneSystem, wordsOf, type Words } from '../../words/reader';
import { said } from '../../words/said';
import { beside, space, stack, tagged, type Block, type Setter } from '../layout';
import { unmarked } from '../markup';
import { namedSheets, type Draft } from '../page-frame';
import { slateReader } from '../reading';
import type { DatedRequest } from '../request';
import {
  dashed,
  flowed,
  LEADING,
  paragraph,
  sectionHead,
  styleOf,
  TYPES,
  widthOf,
  type Section,
} from '../sheet/parts';
import { briefDays, type BriefDay } from './content';
import { diveSection } from './dives';
import { emergencySection } from './emergency';
import { partySections, rollSections } from './party';
import { dayStrip } from './strip';

/** Put to the party before entry, in words of our own, where the page has room left. */
const QUESTIONS = [
  said`What did you read when you analysed your cylinder, and is it on the tag?`,
  said`How deep may you go on it, and what do you do if you find yourself deeper?`,
  said`At which pressure do you turn, and at which must you be on the way up?`,
  said`What ends this dive first: no-stop time, gas or depth? How much room is that?`,
  said`Who dives with whom, how do you find each other again, who leads if something goes wrong?`,
  said`Does anyone feel unwell, cold, tired, or unwilling today?`,
] as const;

/** From here on cautions stand beside what changed. */
const TWO_COLUMNS = 420;

/** On less the day is not drawn. */
const STRIP_LEAST = 330;

function titleBlock(set: Setter, { day, where }: BriefDay, width: number): Block {
  const title = styleOf(TYPES.title);
  const words = tagged(set.text(day, title, width), { is: 'H1' });
  const beneath = paragraph(set, where, width, TYPES.caption, LEADING.caption);
  const wide = set.width(day, title);
  if (wide + 14 + widthOf(set, where, TYPES.caption) > width) return stack([words, beneath]);
  const note = set.text(where, styleOf(TYPES.caption, { align: 'right' }), width - wide - 14);
  return beside([
    { block: words, x: 0 },
    { block: stack([space((TYPES.title[1] - TYPES.caption[1]) * 0.96), note]), x: wide + 14 },
  ]);
}

/** What has so many lines may go on on the next page. */
const PARTED_FROM = 12;

function listSection(
  set: Setter,
  title: string,
  items: readonly string[],
  width: number,
  note = '',
): Section {
  const head = sectionHead(set, title, note, width);
  const rows = items.flatMap((item): readonly Block[] => {
    const lines = dashed(set, item, width);
    return lines.length <= PARTED_FROM ? [stack(lines)] : lines;
  });
  return { head, again: space(0), rows, isWhole: false };
}

/** Two lists beside each other, as one row. */
function listsBeside(lists: readonly Section[], width: number, gap: number): Section {
  const each = (width - gap) / 2;
  const blocks = lists.map(({ head, rows }) => stack([head, ...rows]));
  return {
    head: space(0),
    again: space(0),
    rows: [beside(blocks.map((block, i) => ({ block, x: i * (each + gap) })))],
    isWhole: true,
  };
}

/** Cautions and what changed: side by side where a page takes that, else one below the other. */
function listSections(
  set: Setter,
  words: Words,
  day: BriefDay,
  width: number,
  heightPt: number,
): readonly Section[] {
  const cautions = day.cautions.length === 0 ? [words(said`None of this day’s own.`)] : day.cautions;
  const titles = [words(said`Cautions`), words(said`Changed`)] as const;
  if (day.changes === null) return [listSection(set, titles[0], cautions, width)];
  const changes = day.changes.length === 0 ? [words(said`Nothing of this day.`)] : day.changes;
  const gap = 18;
  if (width >= TWO_COLUMNS) {
    const half = (width - gap) / 2;
    const both = [
      listSection(set, titles[0], cautions, half),
      listSection(set, titles[1], changes, half, day.changedSince),
    ];
    const pair = listsBeside(both, width, gap);
    if (pair.rows[0]!.heightPt <= 0.6 * heightPt) return [pair];
  }
  return [
    listSection(set, titles[0], cautions, width),
    listSection(set, titles[1], changes, width, day.changedSince),
  ];
}

function dayPages(
  request: DatedRequest,
  set: Setter,
  words: Words,
  day: BriefDay,
  width: number,
  heightPt: number,
): readonly Block[] | null {
  const strip = width < STRIP_LEAST ? null : dayStrip(set, words, day.dives, day.depthUnit, width);
  const top = stack([
    titleBlock(set, day, width),
    paragraph(set, day.sentence, width, ['text', 12], 15),
    space(3),
  ]);
  const emergency = emergencySection(set, words, request.ledger.trip, width);
  const sections: readonly Section[] = [
    diveSection(set, words, day, width, heightPt),
    ...partySections(set, words, day, width),
    ...listSections(set, words, day, width, heightPt),
    emergency,
    ...rollSections(set, words, day, width),
  ];
  const questions = listSection(
    set,
    words(said`Before entry, ask`),
    QUESTIONS.map((each) => words(each)),
    width,
  );
  const pagesWith = (head: Block, all: readonly Section[]): readonly Block[] | null => {
    const body = flowed(all, { first: heightPt - head.heightPt, others: heightPt });
    return body?.map((page, i) => (i === 0 ? stack([head, page]) : page)) ?? null;
  };
  const plain = pagesWith(top, sections);
  if (plain === null) return null;
  // What is good to have costs no page, nor the emergency box its place in front.
  const upTo = sections.findIndex((each) => each === emergency) + 1;
  const isInFront = (head: Block): boolean =>
    pagesWith(head, sections.slice(0, upTo))?.length === 1 ||
    pagesWith(top, sections.slice(0, upTo))?.length !== 1;
  const hasStrip = strip !== null && isInFront(stack([top, strip]));
  const drawn = hasStrip ? pagesWith(stack([top, strip]), sections) : null;
  const [head, pages] =
    drawn !== null && drawn.length <= plain.length ? [stack([top, strip!]), drawn] : [top, plain];
  const asked = pagesWith(head, [...sections, { ...questions, isWhole: true }]);
  return asked !== null && asked.length <= pages.length ? asked : pages;
}

/**
 * The briefings of the days that are asked for.
 * @returns drafts in order of the days, or null where the paper is too small for what has to stand on it
 */
export function briefingDrafts(
  request: DatedRequest,
  set: Setter,
  widthPt: number,
  heightPt: number,
): readonly Draft[] | null {
  const words = wordsOf(inOneSystem(slateReader(request)));
  const drafts: Draft[] = [];
  for (const day of briefDays(request)) {
    const pages = dayPages(request, set, words, day, widthPt, heightPt);
    if (pages === null) return null;
    drafts.push(...namedSheets(words, said`Briefing, ${unmarked(day.day)}`, pages));
  }
  return drafts;
}
