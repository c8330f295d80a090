import { pageReader, wordsOf } from '../../core/words/reader';
import { deepestLevel } from '../../core/ledger/level-limits';
import { asPrinted, LEVELS_MEANING, levelWords } from '../../core/slate/levels';
import { SAFETY_LINE } from '../../core/safety-line';
import {
  clockText,
  dateText,
  diveDepths,
  diveTime,
  down,
  joined,
  mixName,
  NONE,
  oxygenPercent,
  percentUp,
  po2LimitText,
  signed,
  up,
} from '../../core/slate/figures';
import { dayNumber, wallMin, wallText, type WallTime } from '../../core/words/calendar';
import type { DiverLedger, Entry, Ledger, LedgerDay } from '../../core/ledger/ledger-types';
import { roomMinutes } from '../../core/ledger/room';
import type { Trip } from '../../core/document/types';
import type { Caution } from '../../core/cautions/caution';

/** What a terminal of the usual width shows without breaking lines. */
export const TABLE_COLUMNS = 100;

interface Column {
  readonly title: string;
  readonly width: number;
  readonly isText?: boolean;
}

/** Widths and the two blanks between them make 100. */
const COLUMNS: readonly Column[] = [
  { title: 'start', width: 5 },
  { title: 'interval', width: 8 },
  { title: 'site', width: 19, isText: true },
  { title: 'depth', width: 6 },
  { title: 'time', width: 6 },
  { title: 'mix', width: 7, isText: true },
  { title: 'PO2', width: 4 },
  { title: 'no-stop', width: 7 },
  { title: 'room', width: 4 },
  { title: 'CNS', width: 5 },
  { title: 'OTU', width: 3 },
  { title: 'left', width: 4 },
];

function cut(text: string, width: number): string {
  const letters = Array.from(text);
  return letters.length <= width ? text : `${letters.slice(0, width - 1).join('')}\u2026`;
}

function row(cells: readonly string[]): string {
  return COLUMNS.map(({ width, isText }, index) => {
    const cell = cells[index] ?? '';
    const blanks = ' '.repeat(Math.max(0, width - Array.from(cell).length));
    return isText === true ? cell + blanks : blanks + cell;
  })
    .join('  ')
    .trimEnd();
}

/** Breaks a sentence at blanks. @param indent blanks before each line but the first */
export function wrapped(text: string, indent: number, columns = TABLE_COLUMNS): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const room = columns - (lines.length === 0 ? 0 : indent);
    if (line !== '' && line.length + 1 + word.length > room) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].join(`\n${' '.repeat(indent)}`);
}

/** Surface time as "14:41" hours and minutes, rounded down; an interval is no longer than it is. */
function interval(min: number | null): string {
  if (min === null) return 'first';
  if (min < 0) return 'none';
  const whole = down(min);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

function diveRow(trip: Trip, entry: Entry): string {
  const site = trip.sites.find(({ id }) => id === entry.dive.siteId);
  const room = roomMinutes(trip, entry).min;
  const printed = asPrinted(trip, entry, 'metric');
  const noStop = deepestLevel(printed.levels);
  const levels = levelWords(entry, printed, 'metric');
  const figures = row([
    clockText(entry.startMin),
    interval(entry.intervalMin),
    cut(site?.name ?? entry.dive.siteId, 19),
    joined(diveDepths(entry, 'metric')),
    `${diveTime(entry).value}${entry.isAsDived ? '+' : ''}`,
    entry.o2 === null ? 'none' : mixName(entry.o2),
    entry.po2Bar === null ? NONE : up(entry.po2Bar, 0.01).toFixed(2),
    noStop.unlimited ? 'no end' : noStop.noStopMin === null ? NONE : String(down(noStop.noStopMin)),
    room === null ? NONE : signed(down(room)),
    percentUp(entry.cns.after),
    entry.otu.dive === null ? NONE : String(up(entry.otu.dive)),
    leftText(entry.gas),
  ]);
  return levels === null ? figures : `${figures}\n${wrapped(`  Levels: ${levels.join(', ')}`, 4)}`;
}

/** What is left in the cylinder; nothing where nobody can tell what is used. */
function leftText({ usedL, endBar }: Entry['gas']): string {
  if (usedL === null) return NONE;
  return endBar === null ? 'out' : String(down(endBar));
}

function dayLine(day: LedgerDay, firstEntry: Entry): string {
  const date = dateText(day.date, dayNumber(firstEntry.startMin));
  const dives = day.dives === 1 ? '1 dive' : `${day.dives} dives`;
  const share = day.cnsDayPeak === null ? NONE : percentUp(day.cnsDayPeak);
  return `${date}: ${dives}, OTU ${up(day.otu)} of ${down(day.otuAllowed)}, 24 h oxygen clock ${share}`;
}

function diverText(trip: Trip, ledger: DiverLedger): string {
  const { diver, entries, days } = ledger;
  const { cylinder, gradient, po2 } = diver;
  const head = wrapped(
    `${diver.name}: ${cylinder.waterL} L at ${cylinder.fillBar} bar, ${diver.surfaceRateLpm} L/min; ` +
      `to ${diver.maxDepthM} m; gradient ${percentUp(gradient.low)} to ${percentUp(gradient.high)}; ` +
      `PO2 ${po2LimitText(po2.working)} bar; oxygen to ${oxygenPercent(diver.maxO2)} %`,
    2,
  );
  const lines = [head];
  let index = 0;
  for (const day of days) {
    lines.push('', dayLine(day, entries[index]!), row(COLUMNS.map(({ title }) => title)));
    const number = dayNumber(entries[index]!.startMin);
    for (; index < entries.length && dayNumber(entries[index]!.startMin) === number; index += 1) {
      lines.push(diveRow(trip, entries[index]!));
    }
  }
  if (entries.length === 0) lines.push('', 'No dives.');
  return lines.join('\n');
}

/** "Sat 6 Mar 2027, 07:30" */
function momentText(at: WallTime): string {
  return `${dateText(at.slice(0, 10), dayNumber(wallMin(at)))}, ${at.slice(11)}`;
}

/** The dive with the least room of all, as the sentence the trip begins with. */
function tightest(ledger: Ledger): string {
  let least: { readonly min: number; readonly entry: Entry } | null = null;
  for (const each of ledger.divers) {
    for (const entry of each.entries) {
      const { min } = roomMinutes(ledger.trip, entry);
      if (min !== null && (least === null || min < least.min)) least = { min, entry };
    }
  }
  if (least === null) return '';
  const { entry, min } = least;
  const site = ledger.trip.sites.find(({ id }) => id === entry.dive.siteId);
  return `Tightest: ${momentText(wallText(entry.startMin))}, ${site?.name ?? entry.dive.siteId}, ${entry.diver.name}: ${signed(down(min))} min of room.`;
}

const words = wordsOf(pageReader('metric'));

const SEVERITY_WORDS = { stop: 'STOP', change: 'change', know: 'know' } as const;

function cautionText(trip: Trip, caution: Caution): string {
  const diver = trip.party.find(({ id }) => id === caution.diverId);
  const dive = trip.dives.find(({ id }) => id === caution.diveId);
  const site = trip.sites.find(({ id }) => id === dive?.siteId);
  const place = [diver?.name, dive && momentText(dive.startsAt), site?.name].filter(
    (part) => part !== undefined,
  );
  const where = place.length === 0 ? '' : `${place.join(', ')}: `;
  return wrapped(
    `${SEVERITY_WORDS[caution.severity].padEnd(8)}${where}${words(caution.says)} [${words(caution.source)}]`,
    8,
  );
}

function flyingText(ledger: Ledger): string {
  const lines = ledger.divers.map(({ diver, flyAfterMin }) => {
    if (flyAfterMin === null) return `${diver.name}: no dives.`;
    // Rounded up: the minute in which the hours are met is not clear yet.
    return `${diver.name}: clear to fly from ${momentText(wallText(flyAfterMin))}.`;
  });
  const flight = ledger.trip.flight;
  if (flight !== null) {
    lines.push(`The flight leaves ${momentText(flight.at)}.`);
  }
  return lines.map((line) => wrapped(line, 2)).join('\n');
}

/**
 * The trip as a person reads it in a terminal of 100 columns: each diver's ledger by day and dive, the
 * cautions, when flying is clear, and what no plan replaces. Limits and what is planned round down, exposures up.
 * @param ledger of the divers to show @param cautions of these, in order of severity
 */
export function planTable(ledger: Ledger, cautions: readonly Caution[]): string {
  const { trip } = ledger;
  const place = trip.place === '' ? '' : ` ${trip.place}.`;
  const parts = [
    wrapped(`${trip.title}.${place}`, 0),
    wrapped(tightest(ledger), 0),
    wrapped(
      'Interval in h:min; time (bottom time), no-stop and room (to the first limit met) in minutes; PO2 at ' +
        'depth and pressure left in bar; CNS on surfacing. + as dived. Of several levels ' +
        'no-stop is that of the deepest; under them each level, ' +
        `${LEVELS_MEANING}.`,
      0,
    ),
    ...ledger.divers.map((each) => diverText(trip, each)),
    cautions.length === 0
      ? 'No cautions.'
      : ['Cautions', ...cautions.map((caution) => cautionText(trip, caution))].join('\n'),
    flyingText(ledger),
    wrapped(SAFETY_LINE, 0),
  ];
  return `${parts.join('\n\n')}\n`;
}
