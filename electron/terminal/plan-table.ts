import { greatest } from '../../core/numeric';
import { deepestLevel } from '../../core/ledger/level-limits';
import { asPrinted, LEVELS_MEANING, levelWords } from '../../core/slate/levels';
import { SAFETY_LINE } from '../../core/words/safety-line';
import { dayNumber, momentAt, timeAt } from '../../core/words/calendar';
import { unitOf, type Kind } from '../../core/words/quantity';
import { capital, inOneSystem, shown, wordsOf, type Reader, type Words } from '../../core/words/reader';
import {
  bare,
  clockSpan,
  cylinder,
  dayOf,
  figure,
  inRow,
  listed,
  moment,
  NOTHING,
  said,
  sentences,
  type Figure,
  type Piece,
  type Said,
} from '../../core/words/said';
import { divesSaid, HEADS, mixSaid, NO_END, NONE, PAST, SEVERITIES } from '../../core/words/terms';
import { bailOutSaid, setpointsSaid } from '../../core/ledger/loop-said';
import { climbLines, climbNameSaid } from '../../core/ledger/climb-said';
import { ownWaterSaid } from '../../core/ledger/water-said';
import type { DiverLedger, Entry, Ledger, LedgerDay, LoopFigures } from '../../core/ledger/ledger-types';
import { flightLines } from '../../core/ledger/flight-said';
import { roomMinutes } from '../../core/ledger/room';
import { isRoomUnknown } from '../../core/ledger/tightest';
import { siteName } from '../../core/document/site-of';
import type { Trip } from '../../core/document/types';
import type { Caution } from '../../core/cautions/caution';
import { headline } from './headline';
import { inked } from './paint';
import {
  cut,
  line,
  padded,
  PLAIN,
  sentenceColumns,
  widthLeft,
  TABLE_COLUMNS,
  wrapped,
  type Look,
} from './text-table';

/** A column and the least it is wide; a head or a second system of units may need more. */
interface Column {
  readonly head: Said;
  readonly width: number;
  readonly widthInBoth?: number;
  readonly isText?: boolean;
}

const SITE: Column = { head: HEADS.site, width: 8, isText: true };

const COLUMNS: readonly Column[] = [
  { head: HEADS.start, width: 5 },
  { head: HEADS.interval, width: 8 },
  SITE,
  { head: HEADS.depth, width: 6, widthInBoth: 8 },
  { head: HEADS.time, width: 6 },
  { head: HEADS.mix, width: 7, isText: true },
  { head: HEADS.po2, width: 4 },
  { head: HEADS.noStop, width: 7 },
  { head: HEADS.room, width: 4 },
  { head: HEADS.cns, width: 5 },
  { head: HEADS.otu, width: 3 },
  { head: HEADS.left, width: 4, widthInBoth: 8 },
];

/** How the columns of a reader lie: their heads in words, and the site what the others leave. */
interface Columns {
  readonly heads: readonly string[];
  readonly widths: readonly number[];
  readonly row: (cells: readonly string[]) => string;
}

function columnsFor(reader: Reader, words: Words, siteLetters: number, look: Look): Columns {
  const heads = COLUMNS.map(({ head }) => words(head));
  const least = COLUMNS.map(({ width, widthInBoth }, at) =>
    Math.max(reader.units === 'both' ? (widthInBoth ?? width) : width, heads[at]!.length),
  );
  const site = COLUMNS.indexOf(SITE);
  const others = least.filter((_, at) => at !== site);
  // A wide terminal shows whole names, and no blanks for names that nobody has.
  const most = Math.max(siteLetters, widthLeft(others, TABLE_COLUMNS));
  const left = Math.min(most, widthLeft(others, look.columns));
  const widths = least.map((width, at) => (at === site ? Math.max(width, left) : width));
  const isText = (column: number): boolean => COLUMNS[column]!.isText === true;
  return { heads, widths, row: (cells) => line(cells, widths, isText) };
}

/** A reader, their words, and the columns they are put in. */
interface Page {
  readonly trip: Trip;
  readonly reader: Reader;
  /** Of sentences, which have one system. */
  readonly words: Words;
  readonly columns: Columns;
  readonly look: Look;
}

/** The values of a figure alone, "24/78" to who has both systems. */
function values(of: Figure, { reader }: Page): string {
  return shown(of, reader)
    .map(({ value }) => value)
    .join('/');
}

/** A depth with its unit where there is one. */
function depthCell(of: Figure, page: Page): string {
  return page.reader.units === 'both' ? values(of, page) : page.words(said`${of}`);
}

/** Surface time; a first dive has none, and where stops run into the dive nothing is left of it. */
function intervalSaid(min: number | null): Piece {
  if (min === null) return said`first`;
  return min < 0 ? said`none` : clockSpan(min, 'down');
}

/** What is left in the cylinder; nothing where nobody can tell what is used. */
function leftCell({ usedL, endBar }: Entry['gas'], page: Page): string {
  if (usedL === null) return NONE;
  return endBar === null ? page.words(said`out`) : values(figure('pressureLeft', endBar), page);
}

/** Minutes, or that a limit is passed which no shorter stay would keep; nothing where a clock is not known. */
function roomCell(entry: Entry, { trip, words }: Page): string {
  const { min, minLimit } = roomMinutes(trip, entry);
  const isPast = min === null && minLimit !== null && !isRoomUnknown(entry, minLimit);
  return words(isPast ? PAST : said`${bare('minutesLeft', min)}`);
}

/** What is breathed; of a loop its high setpoint. */
function mixCell({ loop, o2 }: Entry): Piece {
  if (loop !== null) return said`SP ${bare('po2Limit', loop.breathing.highBar)}`;
  return o2 === null ? said`none` : mixSaid(o2);
}

/** What is left in a cylinder of a loop. */
function pressureSaid(bar: number | null): Piece {
  return bar === null ? said`out` : figure('pressureLeft', bar);
}

/** What there is of a loop beside the columns. */
function loopSaid(loop: LoopFigures): Said {
  const { diluent, oxygen, diluentGas, scrubber, breathing } = loop;
  const lasts =
    scrubber.leftMin < 0
      ? said`${figure('minutesMet', -scrubber.leftMin)} over`
      : said`${figure('minutesLeft', scrubber.leftMin)} left`;
  return sentences([
    said`Loop: ${setpointsSaid(loop)}, diluent ${mixSaid(breathing.diluentO2)}${diluent.analysedO2 === undefined ? '' : said` analysed`}; left: oxygen ${pressureSaid(oxygen.leftBar)}, diluent ${pressureSaid(diluentGas.leftBar)}, scrubber ${lasts}.`,
    said`Bail-out ${bailOutSaid(loop)}.`,
  ]);
}

function diveRow(entry: Entry, page: Page): string {
  const { trip, words, columns } = page;
  const { isAsDived } = entry;
  const printed = asPrinted(trip, entry, page.reader.units);
  const noStop = deepestLevel(printed.levels);
  const levels = levelWords(entry, printed, page.reader.units);
  const cell = (piece: Piece): string => words(said`${piece}`);
  const figures = columns.row([
    cell(timeAt(entry.startMin)),
    cell(intervalSaid(entry.intervalMin)),
    cut(siteName(trip, entry.dive), columns.widths[COLUMNS.indexOf(SITE)]!),
    depthCell(figure(isAsDived ? 'depthMet' : 'depthSet', entry.depthM), page),
    `${cell(bare(isAsDived ? 'minutesDived' : 'minutesSet', entry.bottomMin))}${isAsDived ? '+' : ''}`,
    cell(mixCell(entry)),
    cell(bare('po2Met', entry.po2Bar)),
    cell(noStop.unlimited ? NO_END : bare('minutesLeft', noStop.noStopMin)),
    roomCell(entry, page),
    cell(figure('shareMet', entry.cns.after)),
    cell(bare('doseMet', entry.otu.dive)),
    leftCell(entry.gas, page),
  ]);
  const water = ownWaterSaid(trip, entry.dive.siteId);
  const below = [
    ...(levels === null ? [] : [said`Levels: ${inRow(levels)}`]),
    ...(entry.loop === null ? [] : [loopSaid(entry.loop)]),
    ...(water === null ? [] : [said`Not as the other sites: ${water}`]),
  ];
  return [
    figures,
    ...below.map((text) => `  ${wrapped(words(text), 4, sentenceColumns(page.look) - 2)}`),
  ].join('\n');
}

function dayLine(day: LedgerDay, words: Words): string {
  const otu = said`OTU ${figure('doseMet', day.otu)} of ${figure('doseLeft', Math.max(0, day.otuAllowed))}`;
  const share = figure('shareMet', day.cnsDayPeak);
  return words(said`${dayOf(day.date)}: ${divesSaid(day.dives)}, ${otu}, 24 h oxygen clock ${share}`);
}

function diverText(ledger: DiverLedger, page: Page): string {
  const { diver, entries, days } = ledger;
  const { gradient, po2 } = diver;
  const { words, columns } = page;
  const gear = said`${cylinder(diver.cylinder)} at ${figure('pressureLeft', diver.cylinder.fillBar)}, ${figure('rateTyped', diver.surfaceRateLpm)}`;
  const limits = said`to ${figure('depthSet', diver.maxDepthM)}; gradient ${figure('shareTyped', gradient.low)} to ${figure('shareTyped', gradient.high)}; PO2 ${figure('po2Limit', po2.working)}; oxygen to ${figure('oxygenSet', diver.maxO2)}`;
  const lines = [
    wrapped(wordsOf(page.reader)(said`${diver.name}: ${gear}; ${limits}`), 2, sentenceColumns(page.look)),
  ];
  let index = 0;
  for (const day of days) {
    lines.push('', dayLine(day, words), columns.row(columns.heads));
    const number = dayNumber(entries[index]!.startMin);
    for (; index < entries.length && dayNumber(entries[index]!.startMin) === number; index += 1) {
      lines.push(diveRow(entries[index]!, page));
    }
  }
  if (entries.length === 0) lines.push('', words(said`No dives.`));
  return lines.join('\n');
}

/** How wide the severity of a caution is set. */
const SEVERITY_WIDTH = 14;

function cautionText(caution: Caution, { trip, words, look }: Page): string {
  const diver = trip.party.find(({ id }) => id === caution.diverId);
  const dive = trip.dives.find(({ id }) => id === caution.diveId);
  const place = [diver?.name, dive && moment(dive.startsAt), dive && siteName(trip, dive)].filter(
    (part) => part !== undefined,
  );
  const says = place.length === 0 ? caution.says : said`${inRow(place)}: ${caution.says}`;
  const severity = words(SEVERITIES[caution.severity]);
  // There is no bold: what must stop stands out by its letters.
  const shownAs = caution.severity === 'stop' ? severity.toUpperCase() : severity;
  const text = `${padded(shownAs, SEVERITY_WIDTH, true)}${words(said`${says} [${caution.source}]`)}`;
  const lines = wrapped(text, SEVERITY_WIDTH, sentenceColumns(look));
  return caution.severity === 'know'
    ? lines
    : `${inked(shownAs, caution.severity, look.isColored)}${lines.slice(shownAs.length)}`;
}

/** What is told of a diver, with the place for who it is of. */
interface Told {
  readonly name: string;
  readonly tell: (who: Piece) => Said;
}

/** Each sentence once, with all whom it is told of alike, in the order in which they first come. */
function toldOnce(all: readonly Told[], { divers }: Ledger, words: Words): readonly Said[] {
  const alike = new Map<string, { readonly names: string[]; readonly tell: Told['tell'] }>();
  for (const { name, tell } of all) {
    const text = words(tell(''));
    const group = alike.get(text);
    if (group) group.names.push(name);
    else alike.set(text, { names: [name], tell });
  }
  return [...alike.values()].map(({ names, tell }) =>
    tell(names.length > 1 && names.length === divers.length ? said`everybody` : listed(names)),
  );
}

/** Ways up to a greater height, in the order of time. */
function climbsSaid(ledger: Ledger, words: Words): readonly Said[] {
  const ways = ledger.divers
    .flatMap(({ diver: { name }, climbs }) => climbs.map((views) => ({ name, views })))
    .toSorted((a, b) => a.views.climb.atMin - b.views.climb.atMin)
    .map(({ name, views }): Told => {
      const latest = climbLines(views).find(({ isLatest }) => isLatest);
      const why = latest === undefined ? NOTHING : said` (${latest.name}: ${latest.why})`;
      const { atMin, dive } = views.climb;
      const way = climbNameSaid(views, dive === null ? '' : siteName(ledger.trip, dive));
      const tooSoon = atMin < views.clearMin ? said`: too soon` : NOTHING;
      return {
        name,
        tell: (who) =>
          said`${way}: ${who} clear to go up from ${momentAt(views.clearMin)}${why}; planned ${momentAt(atMin)}${tooSoon}.`,
      };
    });
  return toldOnce(ways, ledger, words);
}

function flightsSaid(ledger: Ledger, words: Words): readonly Said[] {
  const flights = ledger.divers.map(({ diver: { name }, flight }): Told => {
    if (flight === null) return { name, tell: (who) => said`${who}: no dives.` };
    const latest = flightLines(flight).find(({ isLatest }) => isLatest)!;
    return {
      name,
      tell: (who) =>
        said`${who}: clear to fly from ${momentAt(flight.clearMin)} (${latest.name}: ${latest.why}).`,
    };
  });
  return toldOnce(flights, ledger, words);
}

function flyingText(ledger: Ledger, { words, look }: Page): string {
  const { flight } = ledger.trip;
  const leaves = flight === null ? [] : [said`The flight leaves ${moment(flight.at)}.`];
  const lines = [...flightsSaid(ledger, words), ...climbsSaid(ledger, words), ...leaves];
  return lines.map((sentence) => wrapped(capital(words(sentence)), 2, sentenceColumns(look))).join('\n');
}

/** The unit of a kind of figure, of both systems where the reader has both. */
function unitsOf(kind: Kind, { units }: Reader): string {
  const systems = units === 'both' ? (['metric', 'imperial'] as const) : [units];
  return systems.map((system) => unitOf(kind, system).sign).join('/');
}

const LOOPS_MEANING = said` SP: on a loop at this setpoint; its oxygen clocks take the PO2 of the cells, those of open circuit oxygen times ambient pressure.`;

function legend(reader: Reader, hasLoops: boolean): Said {
  const depth = reader.units === 'both' ? said`depth in ${unitsOf('depth', reader)}; ` : NOTHING;
  return said`Interval in h:min; ${depth}time (bottom time), no-stop and room (to the first limit met, past where no shorter stay would keep it) in minutes; PO2 at depth in ${unitsOf('po2', inOneSystem(reader))}, pressure left in ${unitsOf('pressure', reader)}; CNS on surfacing. + as dived. Of several levels no-stop is that of the deepest; under them each level, ${LEVELS_MEANING}.${hasLoops ? LOOPS_MEANING : NOTHING}`;
}

/**
 * The trip as a person reads it in a terminal: each diver's ledger by day and dive, the
 * cautions, when flying is clear, and what no plan replaces. Limits and what is planned round down, exposures up.
 * @param ledger of the divers to show @param cautions of these, in order of severity
 * @param reader who has both systems is told figures of tables in both, and sentences in one
 * @param look of the terminal; below 100 columns names of sites are cut shorter, the table stays
 */
export function planTable(
  ledger: Ledger,
  cautions: readonly Caution[],
  reader: Reader,
  look: Look = PLAIN,
): string {
  const { trip } = ledger;
  const words = wordsOf(inOneSystem(reader));
  const longest = greatest(trip.sites.map(({ name }) => Array.from(name).length));
  const columns = columnsFor(reader, words, longest, look);
  const page: Page = { trip, reader, words, columns, look };
  const text = (sentence: string): string => wrapped(sentence, 0, sentenceColumns(look));
  const hasLoops = ledger.divers.some(({ entries }) => entries.some(({ loop }) => loop !== null));
  const title = said`${trip.title}.${trip.place === '' ? NOTHING : said` ${trip.place}.`}`;
  const parts = [
    text(words(title)),
    inked(text(capital(words(headline(ledger, cautions)))), 'strong', look.isColored),
    text(words(legend(reader, hasLoops))),
    ...ledger.divers.map((each) => diverText(each, page)),
    cautions.length === 0
      ? words(said`No cautions.`)
      : [words(said`Cautions`), ...cautions.map((caution) => cautionText(caution, page))].join('\n'),
    flyingText(ledger, page),
    text(words(SAFETY_LINE)),
  ];
  return `${parts.join('\n\n')}\n`;
}
