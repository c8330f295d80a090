import type { Diver } from '../document/types';
import { csvText, type Cell, type CsvStyle } from './delimited';

interface Column {
  readonly heading: string;
  readonly cell: (diver: Diver) => Cell;
}

/** Shares as percent, by their digits: no hundredth is a binary fraction. */
function percent(fraction: number): number {
  return Number((100 * fraction).toFixed(6));
}

const COLUMNS: readonly Column[] = [
  { heading: 'name', cell: ({ name }) => name },
  { heading: 'certification', cell: ({ certification }) => certification ?? '' },
  { heading: 'group', cell: ({ group }) => group?.name ?? '' },
  { heading: 'enters after (min)', cell: ({ group }) => group?.afterMin ?? 0 },
  { heading: 'RMV (L/min)', cell: ({ surfaceRateLpm }) => surfaceRateLpm },
  { heading: 'cylinder (L)', cell: ({ cylinder }) => cylinder.waterL },
  { heading: 'fill (bar)', cell: ({ cylinder }) => cylinder.fillBar },
  { heading: 'reserve (bar)', cell: ({ cylinder }) => cylinder.reserveBar },
  { heading: 'cylinder number', cell: ({ cylinderNo }) => cylinderNo ?? '' },
  { heading: 'depth limit (m)', cell: ({ maxDepthM }) => maxDepthM },
  { heading: 'oxygen ceiling (%)', cell: ({ maxO2 }) => percent(maxO2) },
  { heading: 'working PO2 (bar)', cell: ({ po2 }) => po2.working },
  { heading: 'contingency PO2 (bar)', cell: ({ po2 }) => po2.contingency },
  { heading: 'gradient factor low (%)', cell: ({ gradient }) => percent(gradient.low) },
  { heading: 'gradient factor high (%)', cell: ({ gradient }) => percent(gradient.high) },
];

/**
 * The party as separated values: a row a diver, in litres, bar and metres.
 * @param party of a trip @param style of the spreadsheets that will open it
 * @returns headings and rows, in the order of the party; figures as they were given, none rounded
 * Source: RFC 4180 (2005).
 */
export function writePartyRows(party: readonly Diver[], style?: CsvStyle): string {
  const rows = party.map((diver) => COLUMNS.map(({ cell }) => cell(diver)));
  return csvText([COLUMNS.map(({ heading }) => heading), ...rows], style);
}
