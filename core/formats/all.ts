import { fileWords, type Reader, type Words } from '../words/reader';
import type { Ledger } from '../ledger/ledger-types';
import { fillPlan, USUAL_STARTS_BAR } from '../mixes/fills';
import { least } from '../numeric';
import { assert } from '../result';
import { writeCalendar } from './calendar';
import type { CsvStyle } from './delimited';
import { writeDiveRows } from './dive-rows';
import { writeFillRows } from './fill-rows';
import { readGpx, writeGpx } from './gpx';
import { readKml } from './kml';
import { writeLedgerRows } from './ledger-rows';
import { writePartyRows } from './party-rows';
import type { SiteReading } from './site-draft';
import type { DepthUnit } from './site-row';
import { readSiteRows, writeSiteRows } from './site-rows';
import { writeStockRows } from './stock-rows';

/** A format that sites can be read from. */
export interface SiteFormat {
  readonly id: 'gpx' | 'kml' | 'rows';
  readonly label: string;
  readonly isIn: (text: string) => boolean;
  readonly read: (text: string, usualUnit: DepthUnit, words: Words) => SiteReading;
}

/** How much of a text is looked at to tell what it is. */
const HEAD = 20_000;

/** Asked in order: the first that claims a text reads it. Rows take whatever is left. */
export const SITE_FORMATS: readonly SiteFormat[] = [
  {
    id: 'kml',
    label: 'Placemarks (KML)',
    isIn: (text) =>
      /^\uFEFF?\s*</.test(text) && /<(?:[A-Za-z][\w.-]{0,50}:)?kml[\s>]/.test(text.slice(0, HEAD)),
    read: (text, _, words) => readKml(text, words),
  },
  {
    id: 'gpx',
    label: 'Waypoints (GPX)',
    isIn: (text) => /^\uFEFF?\s*</.test(text),
    read: (text, _, words) => readGpx(text, words),
  },
  { id: 'rows', label: 'Rows of a table (CSV, tabs)', isIn: () => true, read: readSiteRows },
];

/**
 * Sites from a text of any format, pasted or read from a file.
 * @param text anything @param usualUnit of depths that name none @param words of whoever reads the troubles
 * @returns what was understood, and a trouble for each row or waypoint that was not
 */
export function readSites(text: string, usualUnit: DepthUnit = 'm', words: Words = fileWords): SiteReading {
  return SITE_FORMATS.find((format) => format.isIn(text))!.read(text, usualUnit, words);
}

/** What is asked of an export. */
export interface ExportRequest {
  readonly ledger: Ledger;
  /** When the file is made, UTC: "2027-03-01T18:00:00Z". */
  readonly stampedAtUtc: string;
  /** Who will read what is meant for people; left out: who edits files. */
  readonly reader?: Reader;
  /** Of tables; as the standard has them where nothing is said. */
  readonly csv?: CsvStyle;
}

export interface ExportText {
  readonly text: string;
  /** What could not go into the file, as sentences; empty where all did. */
  readonly remarks: readonly string[];
}

/** A format that something of a trip can be written in. */
export interface ExportFormat {
  readonly id:
    | 'ledger-csv'
    | 'dives-csv'
    | 'party-csv'
    | 'stock-csv'
    | 'fills-csv'
    | 'calendar'
    | 'sites-csv'
    | 'sites-gpx';
  readonly label: string;
  /** Without the dot. */
  readonly extension: string;
  readonly mediaType: string;
  readonly write: (request: ExportRequest) => ExportText;
}

/** Fills from banks; in a party with a cylinder that is filled to less than is usually left, from empty: that takes more. */
function fillsText({ ledger, csv }: ExportRequest): ExportText {
  const isUsual = least(ledger.divers.map(({ diver }) => diver.cylinder.fillBar)) > USUAL_STARTS_BAR.metric;
  const startBar = isUsual ? USUAL_STARTS_BAR.metric : 0;
  const { gasLaw: law } = ledger.trip.settings;
  const plan = fillPlan(ledger, { method: 'banked', law, startBar, startO2: null });
  assert(plan.ok, 'no cylinder is filled to nothing');
  const amounts = law === 'ideal' ? 'of an ideal gas' : 'with compressibility at 20 °C';
  const from = isUsual ? `with ${USUAL_STARTS_BAR.metric} bar left in each cylinder` : 'into empty cylinders';
  return {
    text: writeFillRows(plan.value, csv),
    remarks: [`Filled from banks of the mix ${from}, amounts ${amounts}; Mixes has other ways.`],
  };
}

export const EXPORT_FORMATS: readonly ExportFormat[] = [
  {
    id: 'ledger-csv',
    label: 'Ledger as a table (CSV)',
    extension: 'csv',
    mediaType: 'text/csv',
    write: ({ ledger, csv }) => ({ text: writeLedgerRows(ledger, csv), remarks: [] }),
  },
  {
    id: 'dives-csv',
    label: 'Dives as a table (CSV)',
    extension: 'csv',
    mediaType: 'text/csv',
    write: ({ ledger, csv }) => ({ text: writeDiveRows(ledger.trip, csv), remarks: [] }),
  },
  {
    id: 'party-csv',
    label: 'Party as a table (CSV)',
    extension: 'csv',
    mediaType: 'text/csv',
    write: ({ ledger, csv }) => ({ text: writePartyRows(ledger.trip.party, csv), remarks: [] }),
  },
  {
    id: 'stock-csv',
    label: 'Fills by diver, site and mix as a table (CSV)',
    extension: 'csv',
    mediaType: 'text/csv',
    write: ({ ledger, csv }) => ({ text: writeStockRows(ledger, null, csv), remarks: [] }),
  },
  {
    id: 'fills-csv',
    label: 'Fills by day and mix as a table (CSV)',
    extension: 'csv',
    mediaType: 'text/csv',
    write: fillsText,
  },
  {
    id: 'calendar',
    label: 'Dives as a calendar (iCalendar)',
    extension: 'ics',
    mediaType: 'text/calendar',
    write: ({ ledger, stampedAtUtc, reader }) => ({
      text: writeCalendar(ledger, stampedAtUtc, reader),
      remarks: [],
    }),
  },
  {
    id: 'sites-csv',
    label: 'Sites as a table (CSV)',
    extension: 'csv',
    mediaType: 'text/csv',
    write: ({ ledger, csv }) => ({ text: writeSiteRows(ledger.trip.sites, csv), remarks: [] }),
  },
  {
    id: 'sites-gpx',
    label: 'Sites as waypoints (GPX)',
    extension: 'gpx',
    mediaType: 'application/gpx+xml',
    write: ({ ledger }) => {
      const { text, withoutPosition } = writeGpx(ledger.trip.sites, ledger.trip.title);
      const names = withoutPosition.map((site) => site.name).join(', ');
      return {
        text,
        remarks: names === '' ? [] : [`Without a position, and so not in the file: ${names}.`],
      };
    },
  },
];
