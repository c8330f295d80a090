/** Trip sheets: the strip of a diver's trip as large as the lying paper takes it, and a table of the days. */
import { climbClearSaid } from '../climbs';
import { failure, success, type Result } from '../../result';
import type { DiverLedger } from '../../ledger/ledger-types';
import { dayAt, momentAt, wallMin } from '../../words/calendar';
import { inOneSystem, wordsOf, type Words } from '../../words/reader';
import { moment, NOTHING, said, sentences, type Said } from '../../words/said';
import { divesSaid, SEVERITIES } from '../../words/terms';
import type { CardPages } from '../card-sheets';
import { countSaid, type Printed } from '../counts';
import { nothingMade, paperTooSmall } from '../faults';
import { beside, rule, space, stack, tagged, type Block, type Page, type Setter } from '../layout';
import { stressed, unmarked } from '../markup';
import { KIND_NAMES } from '../names';
import { foot, FOOT_PT, footHeight, namedSheets, type FootFacts, type NamedSheet } from '../page-frame';
import { frameOf, imposition, PT_PER_MM, type Paper } from '../paper';
import { slateReader } from '../reading';
import type { DatedRequest, SlateTrouble } from '../request';
import { onSheets } from '../sheets';
import { tripDays, type TripDay } from '../trip/content';
import { tripDrawing, type StripPlan, type TripDrawing } from '../trip/drawing';
import { stripBlock, STRIP_LEAST } from '../trip/strip';
import { columnsOf, dayParts } from '../trip/table';

/** More days than these stand in two strips where the paper has the height. Source: the hours of four dives a day. */
const DAYS_A_STRIP = 9;

/** A day of the strip is no narrower than this, of the table no narrower than that, points. */
const STRIP_DAY_PT = 42;
const TABLE_DAY_PT = 100;
const COLUMN_GAP_PT = 12;

/** Of what height is left over the plots get these shares. */
const GROWTH = { divesPt: 0.5, nitrogenPt: 0.28, oxygenPt: 0.22 } as const;

/** White between the body of a page and its foot, and over the table. */
const FOOT_GAP_PT = 3;
const TABLE_GAP_PT = 6;

/** From this width on the title is large. */
const LARGE_PT = 500;

interface Area {
  readonly widthPt: number;
  readonly heightPt: number;
}

/** Told in the line about flying already. */
const FLIGHT_CODE = 'flight-too-soon';

function flyingSaid(mine: DiverLedger, { ledger }: DatedRequest): Said {
  const { flyAfterMin } = mine;
  const { flight } = ledger.trip;
  const clear = flyAfterMin === null ? NOTHING : said`No flying before ${stressed(momentAt(flyAfterMin))}.`;
  if (flight === null) return clear;
  const at = said`Flight ${stressed(moment(flight.at))}`;
  const isTooSoon = flyAfterMin !== null && wallMin(flight.at) < flyAfterMin;
  return sentences([clear, isTooSoon ? said`${at}, ${stressed(said`too soon`)}.` : said`${at}.`]);
}

function headBlock(
  set: Setter,
  words: Words,
  mine: DiverLedger,
  request: DatedRequest,
  widthPt: number,
): Block {
  const { trip } = request.ledger;
  const sizePt = widthPt >= LARGE_PT ? 20 : 14;
  const made = mine.entries.filter(({ isMade }) => isMade).length;
  const facts = sentences([
    said`${stressed(unmarked(mine.diver.name))}, ${divesSaid(made)}.`,
    ...mine.climbs.map((views) => climbClearSaid(views, request.ledger.trip)),
    flyingSaid(mine, request),
    said`Bar: bottom time. Dotted: way up. Thick waterline: night. Dots round: least room.`,
  ]);
  const stops = request.cautions
    .filter(({ severity, diveId, code }) => severity === 'stop' && diveId === null && code !== FLIGHT_CODE)
    .filter(({ diverId }) => diverId === null || diverId === mine.diver.id)
    .map(({ says }) => words(said`${SEVERITIES.stop}: ${says}`));
  return stack([
    tagged(set.text(unmarked(trip.title), { font: 'name', sizePt }, widthPt), { is: 'H1' }),
    set.text(words(facts), { font: 'text', sizePt: 10 }, widthPt),
    ...stops.map((text) => set.text(text, { font: 'bold', sizePt: 10 }, widthPt)),
    space(5),
  ]);
}

/** The table in columns of equal width under a strip; the first of so many that takes it, or null. */
function tableIn(set: Setter, days: readonly TripDay[], widthPt: number, mostPt: number): Block | null {
  const count = Math.max(1, Math.floor((widthPt + COLUMN_GAP_PT) / (TABLE_DAY_PT + COLUMN_GAP_PT)));
  const columnPt = (widthPt - COLUMN_GAP_PT * (count - 1)) / count;
  const parts = days.map((day) => dayParts(set, day, columnPt));
  // As low as the columns allow: what is not needed is the strip's.
  for (let heightPt = 40; ; heightPt = Math.min(mostPt, heightPt + 8)) {
    const columns = heightPt > mostPt ? null : columnsOf(parts, heightPt);
    if (columns !== null && columns.length <= count) {
      return beside(columns.map((block, c) => ({ block, x: c * (columnPt + COLUMN_GAP_PT) })));
    }
    if (heightPt >= mostPt) return null;
  }
}

/** The table in the columns of the strip above it; null where they are too narrow. */
function tableUnder(
  set: Setter,
  { days, scale }: TripDrawing,
  widthPt: number,
  gutterPt: number,
): Block | null {
  const dayPt = (widthPt - gutterPt) / scale.days;
  if (dayPt < TABLE_DAY_PT) return null;
  const inset = 3;
  return beside(
    days.map((day) => {
      const at = Math.floor(wallMin(`${day.date}T00:00`) / 1440) - scale.firstDay;
      const { parts } = dayParts(set, day, dayPt - 3 * inset);
      return { block: stack(parts), x: gutterPt + at * dayPt + inset };
    }),
  );
}

/** The table on pages of its own, in as many columns as its highest part allows; null where even one is too narrow. */
function tablePages(
  set: Setter,
  days: readonly TripDay[],
  { widthPt, heightPt }: Area,
): readonly Block[] | null {
  const most = Math.max(1, Math.floor((widthPt + COLUMN_GAP_PT) / (TABLE_DAY_PT + COLUMN_GAP_PT)));
  for (let count = most; count >= 1; count -= 1) {
    const columnPt = (widthPt - COLUMN_GAP_PT * (count - 1)) / count;
    const parts = days.map((day) => dayParts(set, day, columnPt));
    const columns = columnsOf(parts, heightPt);
    if (columns === null) continue;
    return Array.from({ length: Math.ceil(columns.length / count) }, (_, i) =>
      beside(
        columns
          .slice(i * count, (i + 1) * count)
          .map((block, c) => ({ block, x: c * (columnPt + COLUMN_GAP_PT) })),
      ),
    );
  }
  return null;
}

type Heights = Pick<StripPlan, 'divesPt' | 'nitrogenPt' | 'oxygenPt'>;

/** What the plots may have: all three, on low paper the dives and the nitrogen, on the lowest the dives. */
const PARTS: readonly Heights[] = [
  STRIP_LEAST,
  { ...STRIP_LEAST, oxygenPt: 0 },
  { ...STRIP_LEAST, oxygenPt: 0, nitrogenPt: 0 },
  { divesPt: 52, oxygenPt: 0, nitrogenPt: 0 },
];

function grown(least: Heights, byPt: number): Heights {
  const keys = ['divesPt', 'nitrogenPt', 'oxygenPt'] as const;
  const whole = keys.reduce((sum, key) => sum + (least[key] === 0 ? 0 : GROWTH[key]), 0);
  const of = (key: (typeof keys)[number]): number =>
    least[key] === 0 ? 0 : least[key] + (byPt * GROWTH[key]) / whole;
  return { divesPt: of('divesPt'), nitrogenPt: of('nitrogenPt'), oxygenPt: of('oxygenPt') };
}

/** The bodies of one diver's pages; null where the paper is too small. */
function bodiesOf(
  request: DatedRequest,
  set: Setter,
  mine: DiverLedger,
  area: Area,
): readonly Block[] | null {
  const { ledger, units } = request;
  const reader = slateReader(request);
  const [words, single] = [wordsOf(reader), wordsOf(inOneSystem(reader))];
  const days = tripDays(ledger.trip, mine, request.dates, request.cautions, words, single);
  const drawing = tripDrawing(ledger.trip, mine, days);
  const { widthPt } = area;
  const head = headBlock(set, single, mine, request, widthPt);
  const name: Block = stack([
    set.text(unmarked(mine.diver.name), { font: 'name', sizePt: 11 }, widthPt),
    rule(widthPt, 1.2, 5),
  ]);
  const room = area.heightPt - head.heightPt;
  const all = drawing.scale.days;
  const stripsOf = (count: number, heights: Heights) =>
    Array.from({ length: Math.ceil(all / count) }, (_, i) =>
      stripBlock(
        set,
        single,
        units,
        drawing,
        { first: i * count, count: Math.min(count, all - i * count), ...heights },
        // The last strip may have fewer days: they stay as wide as those above.
        widthPt,
      ),
    );
  const heightOf = (strips: ReturnType<typeof stripsOf>): number =>
    strips.reduce((sum, { block }) => sum + block.heightPt, 0);
  const narrowest = Math.max(1, Math.floor((widthPt - 36) / STRIP_DAY_PT));
  const counts = [Math.min(DAYS_A_STRIP, narrowest), narrowest].map((most) =>
    Math.ceil(all / Math.ceil(all / most)),
  );
  for (const least of PARTS) {
    for (const count of counts) {
      const strips = stripsOf(count, least);
      const leastPt = heightOf(strips);
      if (leastPt > room) continue;
      const under = strips.length > 1 ? null : tableUnder(set, drawing, widthPt, strips[0]!.gutterPt);
      const free = room - leastPt - TABLE_GAP_PT;
      const table = under !== null && under.heightPt <= free ? under : tableIn(set, days, widthPt, free);
      const taken = table === null ? 0 : table.heightPt + TABLE_GAP_PT;
      const heights = grown(least, (room - leastPt - taken) / strips.length);
      const strip = stack(stripsOf(count, heights).map(({ block }) => block));
      const first = stack([head, strip, ...(table === null ? [] : [space(TABLE_GAP_PT), table])]);
      if (table !== null) return [first];
      const more = tablePages(set, days, { widthPt, heightPt: area.heightPt - name.heightPt });
      return more === null ? null : [first, ...more.map((page) => stack([name, page]))];
    }
  }
  // Low paper: a page for what is said of the whole, one for each strip, and then the table.
  const stripPt = area.heightPt - name.heightPt;
  for (const least of PARTS) {
    const strips = stripsOf(counts[1]!, least);
    if (head.heightPt > area.heightPt || strips.some(({ block }) => block.heightPt > stripPt)) continue;
    const more = tablePages(set, days, { widthPt, heightPt: stripPt });
    if (more === null) return null;
    const highest = Math.max(...strips.map(({ block }) => block.heightPt));
    const drawn = stripsOf(counts[1]!, grown(least, stripPt - highest)).map(({ block }) => block);
    return [head, ...[...drawn, ...more].map((page) => stack([name, page]))];
  }
  return null;
}

/** The paper lies: a week is wider than it is deep. */
function lying({ name, widthMm, heightMm }: Paper): Paper {
  return { name, widthMm: Math.max(widthMm, heightMm), heightMm: Math.min(widthMm, heightMm) };
}

/**
 * Trip sheets, diver by diver in the order of the party.
 * @returns pages, or why not: nobody makes a dive, or a paper that is too small
 */
export function tripPages(
  request: DatedRequest,
  set: Setter,
  facts: FootFacts,
): Result<CardPages, SlateTrouble> {
  const { ledger, diverIds, marginMm, holes, twoSided } = request;
  const paper = lying(request.paper);
  const frame = frameOf(paper, marginMm, holes, false);
  const tooSmall = paperTooSmall(facts.words, paper.name, KIND_NAMES.trip, null);
  const bodies: NamedSheet[] = [];
  const footPt = footHeight(set, frame.width, FOOT_PT, facts, 3) + FOOT_GAP_PT;
  const area: Area = { widthPt: frame.width, heightPt: frame.height - footPt };
  if (area.heightPt <= 0 || area.widthPt < 3 * STRIP_DAY_PT) return failure(tooSmall);
  for (const mine of ledger.divers) {
    if (diverIds !== null && !diverIds.includes(mine.diver.id)) continue;
    const isDiving = mine.entries.some(
      ({ isMade, startMin }) => isMade && request.dates.includes(dayAt(startMin).day),
    );
    if (!isDiving) continue;
    const made = bodiesOf(request, set, mine, area);
    if (made === null) return failure(tooSmall);
    bodies.push(...namedSheets(facts.words, said`Trip sheet, ${unmarked(mine.diver.name)}`, made));
  }
  if (bodies.length === 0) return failure(nothingMade(facts.words));
  const pages = bodies.map(({ name, body }, i): Page => {
    const { x, y, width, height } = frameOf(paper, marginMm, holes, twoSided && i % 2 === 1);
    const below = foot(set, width, FOOT_PT, facts, facts.words(said`page ${i + 1}/${bodies.length}`));
    return {
      name,
      widthPt: paper.widthMm * PT_PER_MM,
      heightPt: paper.heightMm * PT_PER_MM,
      marks: [...body.at(x, y), ...below.at(x, y + height - below.heightPt)],
    };
  });
  const begun = bodies.reduce((sum, { begins }) => sum + begins, 0);
  const counted = (printed: Omit<Printed, 'pages' | 'twoSided'>) =>
    countSaid('trip', begun, { pages: pages.length, twoSided, ...printed });
  if (request.sheet === null) {
    return success({ pages, count: counted({ sides: pages.length, sheet: null }) });
  }
  const how = imposition(paper, request.sheet, facts.words);
  if (!how.ok) return how;
  const printed = onSheets(pages, paper, how.value, twoSided);
  return success({ pages: printed, count: counted({ sides: printed.length, sheet: request.sheet }) });
}
