import { denseSentence } from '../../cautions/gas-dense';
import { toldTogether, type Told } from '../../cautions/told-together';
import type { Words } from '../../words/reader';
import { listed as listedNames, said } from '../../words/said';
import { assert } from '../../result';
import type { Trip } from '../../document/types';
import { slateDays } from '../contents';
import { dateText } from '../figures';
import { SEVERITIES } from '../../words/terms';
import { beside, rule, stack, type Block, type Setter } from '../layout';
import { flow, heading, PRINT_MIN_PT, type Draft } from '../page-frame';
import type { DatedRequest } from '../request';
import { slateWords } from '../reading';
import { CARD_FORMS, diveCard, type PartyDive } from './briefing-card';

/** A type size and how many dives stand side by side. */
interface Way {
  readonly sizePt: number;
  readonly perRow: 1 | 2;
}

/** Tried in this order: the first with which the day stays on one page is taken. */
const WAYS: readonly Way[] = [
  { sizePt: 12, perRow: 1 },
  { sizePt: 11, perRow: 1 },
  { sizePt: 10, perRow: 1 },
  { sizePt: PRINT_MIN_PT, perRow: 1 },
  { sizePt: 10, perRow: 2 },
  { sizePt: PRINT_MIN_PT, perRow: 2 },
];

/** Put to the party before entry, in words of our own. */
const QUESTIONS: readonly string[] = [
  'What did you read when you analysed your cylinder, and is it on the tag?',
  'How deep may you go on it, and what do you do if you find yourself deeper?',
  'At which pressure do you turn, and at which must you be on the way up?',
  'What ends this dive first: no-stop time, gas or depth? How much room is that?',
  'Who dives with whom, how do you find each other again, who leads if something goes wrong?',
  'Does anyone feel unwell, cold, tired, or unwilling today?',
];

interface PartyDay {
  readonly date: string;
  readonly dives: readonly PartyDive[];
  readonly cautions: readonly string[];
}

/** A caution with whom and which dive it is about, as the sheet numbers them. */
function cautionText(
  { caution, diverIds }: Told,
  party: Trip['party'],
  dives: readonly PartyDive[],
  words: Words,
): string {
  const names = party.filter((diver) => diverIds.includes(diver.id)).map(({ name }) => name);
  const number = dives.find((each) => each.rows[0]!.dive.entry.dive.id === caution.diveId)?.number;
  const about = [
    ...(names.length === 0 ? [] : [words(said`${listedNames(names)}`)]),
    ...(number === undefined ? [] : [`dive ${number}`]),
  ].join(', ');
  const who = about === '' ? '' : `${about}: `;
  return `${words(SEVERITIES[caution.severity])}. ${who}${words(caution.says)}`;
}

function partyDays(request: DatedRequest): readonly PartyDay[] {
  const { ledger, cautions, diverIds, dates } = request;
  const chosen = ledger.divers.filter((each) => diverIds === null || diverIds.includes(each.diver.id));
  const all = chosen.flatMap((mine) =>
    slateDays(ledger.trip, mine, dates, cautions, request).flatMap((day) =>
      day.dives.map((dive) => ({ date: day.date, name: mine.diver.name, dive })),
    ),
  );
  const words = slateWords(request);
  return [...new Set(all.map((each) => each.date))].toSorted().map((date) => {
    const today = all.filter((each) => each.date === date);
    const starts = (id: string): number =>
      Math.min(
        ...today.filter((each) => each.dive.entry.dive.id === id).map((each) => each.dive.entry.startMin),
      );
    const ids = [...new Set(today.map((each) => each.dive.entry.dive.id))].toSorted(
      (a, b) => starts(a) - starts(b),
    );
    const dives = ids.map((id) => {
      const rows = today.filter((each) => each.dive.entry.dive.id === id);
      return { number: rows[0]!.dive.number, rows };
    });
    const ours = cautions.filter(
      (caution) =>
        (caution.diveId === null ? caution.severity !== 'know' : ids.includes(caution.diveId)) &&
        (caution.diverId === null || chosen.some((each) => each.diver.id === caution.diverId)),
    );
    // Said once for the whole trip, but to be known before each of these dives.
    const dense = denseSentence(today.map((each) => each.dive.entry));
    return {
      date,
      dives,
      cautions: [
        ...toldTogether(ours).map((told) => cautionText(told, ledger.trip.party, dives, words)),
        ...(dense === null ? [] : [`${words(SEVERITIES.know)}. ${words(dense)}`]),
      ],
    };
  });
}

/**
 * A list with its title: in one piece where a page takes it, else item by item, the title with the first, so
 * that it is never left alone at the foot of a page.
 */
function listed(
  set: Setter,
  title: string,
  items: readonly string[],
  area: { readonly widthPt: number; readonly heightPt: number },
  sizePt: number,
): readonly Block[] {
  const text = (item: string): Block => set.text(item, { font: 'text', sizePt }, area.widthPt);
  const [first, ...rest] = items;
  if (first === undefined) return [];
  const head = stack([set.text(title, { font: 'bold', sizePt: sizePt * 1.15 }, area.widthPt), text(first)]);
  const blocks = [head, ...rest.map(text)];
  const whole = stack(blocks, sizePt * 0.2);
  return whole.heightPt <= area.heightPt ? [whole] : blocks;
}

/**
 * The cards of a day, all in one form so that the eye learns it once: the first form that the width takes.
 * @param heightPt free for a card on a page of its own
 */
function dayCards(
  set: Setter,
  dives: readonly PartyDive[],
  widthPt: number,
  heightPt: number,
  sizePt: number,
): readonly (readonly Block[])[] {
  for (const form of CARD_FORMS) {
    const cards = dives.flatMap((dive) => {
      const card = diveCard({ set, widthPt, basePt: sizePt }, dive, form, heightPt);
      return card === null ? [] : [card];
    });
    if (cards.length === dives.length) return cards;
  }
  assert(false, 'the narrowest form of a card found no place');
}

/** The day's pages with that many dives side by side; null where something is higher than a page. */
function dayPages(
  request: DatedRequest,
  set: Setter,
  day: PartyDay,
  area: { readonly widthPt: number; readonly heightPt: number },
  way: Way,
): readonly Block[] | null {
  const { sizePt, perRow } = way;
  const { widthPt } = area;
  const gap = sizePt * 1.4;
  const head = stack([
    heading(set, dateText(day.date), request.ledger.trip.place, widthPt, sizePt * 1.6),
    rule(widthPt, 0.8, 6),
  ]);
  const available = area.heightPt - head.heightPt;
  const cardWidth = (widthPt - gap * (perRow - 1)) / perRow;
  const cards = dayCards(set, day.dives, cardWidth, available, sizePt);
  // Side by side stand whole cards alone: parts of one would be read across.
  if (perRow > 1 && cards.some((parts) => parts.length > 1)) return null;
  const rows: Block[] = [];
  for (let i = 0; i < cards.length; i += perRow) {
    if (perRow === 1) rows.push(...cards[i]!);
    else {
      const pair = cards.slice(i, i + perRow).map(([card]) => card!);
      rows.push(beside(pair.map((block, c) => ({ block, x: c * (cardWidth + gap) }))));
    }
  }
  const cautions = day.cautions.length === 0 ? ['None of this day\u2019s own.'] : day.cautions;
  const body = { widthPt, heightPt: available };
  const blocks = [
    ...rows,
    ...listed(set, 'Cautions', cautions, body, sizePt),
    ...listed(set, 'Before entry, ask', QUESTIONS, body, sizePt),
  ];
  const between = sizePt * 0.4;
  const pages = flow(blocks, available, between);
  return pages?.map((page) => stack([head, stack(page, between)])) ?? null;
}

/** The first way that takes one page, else the one that takes the fewest. */
function bestPages(tries: readonly (() => readonly Block[] | null)[]): readonly Block[] | null {
  let best: readonly Block[] | null = null;
  for (const attempt of tries) {
    const pages = attempt();
    if (pages !== null && (best === null || pages.length < best.length)) best = pages;
    if (best?.length === 1) break;
  }
  return best;
}

/**
 * Briefing sheets: the party's day, dive by dive, on one page where it fits.
 * @returns drafts in order of the days, or null where the paper is too small for 9 point
 */
export function briefingDrafts(
  request: DatedRequest,
  set: Setter,
  widthPt: number,
  heightPt: number,
): readonly Draft[] | null {
  const drafts: Draft[] = [];
  for (const day of partyDays(request)) {
    const pages = bestPages(WAYS.map((way) => () => dayPages(request, set, day, { widthPt, heightPt }, way)));
    if (pages === null) return null;
    drafts.push(
      ...pages.map((body, i) => ({
        name: `Briefing, ${dateText(day.date)}${i === 0 ? '' : `, sheet ${i + 1}`}`,
        body,
      })),
    );
  }
  return drafts;
}
