import { down, up } from '../slate/figures';
import { wallText } from '../words/calendar';
import { setpointsSaid } from '../ledger/loop-said';
import { fileWords } from '../words/reader';
import type { Entry, EntryLevel, Ledger } from '../ledger/ledger-types';
import { deepestLevel } from '../ledger/level-limits';
import { siteOf } from '../document/site-of';
import type { Trip } from '../document/types';
import { csvText, type Cell, type CsvStyle } from './delimited';

interface Column {
  readonly heading: string;
  readonly cell: (entry: Entry, trip: Trip) => Cell;
}

type Rounding = (value: number, step: number) => number;

/** A figure rounded the careful way; nothing in the cell where the figure does not exist. */
function rounded(value: number | null, round: Rounding, step: number): Cell {
  return value === null ? null : round(value, step);
}

function percent(fraction: number | null, round: Rounding, step = 0.1): Cell {
  return fraction === null ? null : round(100 * fraction, step);
}

/** What is planned is rounded down, what was dived up: as a slate has depth and time. */
function asDiveIs({ isAsDived }: Entry): Rounding {
  return isAsDived ? up : down;
}

/** Limits and what is planned round down, exposures up. */
const COLUMNS: readonly Column[] = [
  { heading: 'diver', cell: (entry) => entry.diver.name },
  { heading: 'dive', cell: (entry, trip) => trip.dives.findIndex((dive) => dive.id === entry.dive.id) + 1 },
  {
    heading: 'site',
    cell: (entry, trip) => siteOf(trip, entry.dive)?.name ?? null,
  },
  { heading: 'starts', cell: (entry) => wallText(entry.startMin) },
  { heading: 'surfaces', cell: (entry) => (entry.isMade ? wallText(entry.surfacesMin) : null) },
  { heading: 'interval (min)', cell: (entry) => rounded(entry.intervalMin, down, 1) },
  { heading: 'as dived', cell: (entry) => (entry.isAsDived ? 'yes' : 'no') },
  { heading: 'depth (m)', cell: (entry) => asDiveIs(entry)(entry.depthM, 0.1) },
  { heading: 'bottom time (min)', cell: (entry) => asDiveIs(entry)(entry.bottomMin, 0.1) },
  {
    heading: 'oxygen (%)',
    cell: (entry) => (entry.o2 === null ? null : Number((100 * entry.o2).toFixed(2))),
  },
  { heading: 'analysed', cell: (entry) => (entry.isAnalysed ? 'yes' : 'no') },
  { heading: 'MOD (m)', cell: (entry) => rounded(entry.modM, down, 0.1) },
  { heading: 'PO2 (bar)', cell: (entry) => rounded(entry.po2Bar, up, 0.01) },
  { heading: 'EAD (m)', cell: (entry) => rounded(entry.eadM, up, 0.1) },
  { heading: 'gas density (g/L)', cell: (entry) => rounded(entry.gasDensityGL, up, 0.01) },
  {
    // Of the deepest level: the depth stands in the same row.
    heading: 'no-stop limit (min)',
    cell: ({ levels }) => limitCell(deepestLevel(levels)),
  },
  { heading: 'levels', cell: levelsCell },
  {
    heading: 'whole time with the last level lengthened (min)',
    cell: (entry) => (entry.levels.length < 2 || entry.levelsPastLimitM.length > 0 ? null : limitCell(entry)),
  },
  { heading: 'required stops', cell: stopsCell },
  { heading: 'leading compartment', cell: (entry) => entry.leading.compartment },
  { heading: 'of its limit (%)', cell: (entry) => percent(entry.leading.fractionOfLimit, up) },
  { heading: 'CNS before (%)', cell: (entry) => percent(entry.cns.before, up) },
  { heading: 'CNS after (%)', cell: (entry) => percent(entry.cns.after, up) },
  { heading: 'CNS 24 h (%)', cell: (entry) => percent(entry.cns.day, up) },
  { heading: 'OTU', cell: (entry) => rounded(entry.otu.dive, up, 0.1) },
  { heading: 'OTU of the day', cell: (entry) => up(entry.otu.day, 0.1) },
  { heading: 'OTU of the trip', cell: (entry) => up(entry.otu.trip, 0.1) },
  { heading: 'ESOT (min)', cell: (entry) => rounded(entry.esot.dive, up, 0.1) },
  { heading: 'ESOT of the day (min)', cell: (entry) => up(entry.esot.day, 0.1) },
  { heading: 'gas used (L)', cell: (entry) => rounded(entry.gas.usedL, up, 1) },
  { heading: 'pressure left (bar)', cell: (entry) => rounded(entry.gas.endBar, down, 1) },
  { heading: 'turn pressure (bar)', cell: (entry) => rounded(entry.gas.turnBar, up, 1) },
  { heading: 'minimum gas (bar)', cell: (entry) => rounded(entry.gas.minimumBar, up, 1) },
  {
    heading: 'remark',
    cell: (entry) => {
      if (!entry.isMade) return 'Left out: no mix of the trip can be used there.';
      return entry.loop === null ? null : `On a loop: ${fileWords(setpointsSaid(entry.loop))}.`;
    },
  },
];

function limitCell({ noStopMin, unlimited }: Pick<EntryLevel, 'noStopMin' | 'unlimited'>): Cell {
  return unlimited ? 'unlimited' : rounded(noStopMin, down, 0.1);
}

/** The levels in their order, each with its own limit; nothing for a single one. */
function levelsCell(entry: Entry): Cell {
  if (entry.levels.length < 2) return null;
  const round = asDiveIs(entry);
  return entry.levels
    .map((level) => {
      const planned = `${round(level.depthM, 0.1)} m ${round(level.min, 0.1)} min`;
      if (!entry.isMade) return planned;
      return `${planned} (${level.unlimited ? 'no limit' : `no-stop ${limitCell(level)} min`})`;
    })
    .join(', ');
}

function stopsCell(entry: Entry): Cell {
  if (entry.stops === null) return 'no ascent on this gas was found';
  if (entry.stops.length === 0) return entry.isMade ? 'none' : null;
  return entry.stops.map((stop) => `${up(stop.min, 1)} min at ${up(stop.depthM, 1)} m`).join(', ');
}

/**
 * The ledger as comma-separated values: a row for each dive of each diver, in metres, bar and litres.
 * A cell is empty where a figure does not exist.
 * @param ledger of the whole party @param style of the spreadsheets that will open it
 * @returns headings and rows, divers in the order of the party
 * Source: RFC 4180 (2005); figures as in the ledger, limits and what is planned rounded down, exposures up.
 */
export function writeLedgerRows(ledger: Ledger, style?: CsvStyle): string {
  const entries = ledger.divers.flatMap((diver) => diver.entries);
  return csvText(
    [
      COLUMNS.map(({ heading }) => heading),
      ...entries.map((entry) => COLUMNS.map(({ cell }) => cell(entry, ledger.trip))),
    ],
    style,
  );
}
