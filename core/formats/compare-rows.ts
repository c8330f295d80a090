import type { CompareCell, CompareRow, NoStopTime } from '../mixes/compare';
import { fileWords } from '../words/reader';
import { whyNotSaid } from '../mixes/richest';
import { down, up } from '../slate/figures';
import { csvText, type Cell, type CsvStyle } from './delimited';

const HEADINGS = [
  'site',
  'depth of the site (m)',
  'richest oxygen (%)',
  'oxygen (%)',
  'can be used',
  'reason',
  'MOD (m)',
  'no-stop time alone at the site (min)',
  'more than air (min)',
  'no-stop time in the trip (min)',
  'at the depth of that dive (m)',
  'more than air in the trip (min)',
  'CNS of a dive (%)',
  'OTU of a dive',
  'cost of a fill',
  'dives it would be used on',
] as const;

function noStopCell(time: NoStopTime | null): Cell {
  if (time === null || (time.min === null && !time.unlimited)) return null;
  return time.min === null ? 'unlimited' : down(time.min, 0.1);
}

function cells(row: CompareRow, cell: CompareCell): readonly Cell[] {
  return [
    row.site.name,
    row.site.depthM,
    row.richest.percent,
    Number((100 * cell.o2).toFixed(2)),
    cell.allowed ? 'yes' : 'no',
    cell.whyNot === null ? null : fileWords(whyNotSaid(cell.whyNot)),
    down(cell.modM, 0.1),
    noStopCell(cell.alone),
    cell.aloneGainMin === null ? null : down(cell.aloneGainMin, 0.1),
    noStopCell(cell.inTrip),
    cell.inTrip === null ? null : up(cell.inTrip.depthM, 0.1),
    cell.inTripGainMin === null ? null : down(cell.inTripGainMin, 0.1),
    cell.cns === null ? null : up(100 * cell.cns, 0.1),
    cell.otu === null ? null : up(cell.otu, 0.1),
    cell.cost,
    cell.usedOn.length,
  ];
}

/**
 * The comparison of mixes across sites as comma-separated values: a row for each mix at each site, as a
 * spreadsheet can sort and pivot it.
 * @param rows of the comparison @param style of the spreadsheets that will open it @returns headings and rows, in their order
 * Source: RFC 4180 (2005); figures as in the comparison, limits rounded down and exposures up.
 */
export function writeCompareRows(rows: readonly CompareRow[], style?: CsvStyle): string {
  return csvText([HEADINGS, ...rows.flatMap((row) => row.cells.map((cell) => cells(row, cell)))], style);
}
