import type { Trouble } from '../result';
import { fileWords, worded, type Words } from '../words/reader';
import { said, type SaidTrouble } from '../words/said';
import { LIST_RULES } from '../document/schema';
import { excerpt } from '../document/texts';
import type { Site } from '../document/types';
import {
  csvText,
  type CsvStyle,
  readDelimited,
  readRecords,
  separatorsIn,
  type DelimitedRecord,
  type Separator,
} from './delimited';
import { levelsText } from './levels-text';
import { textTooLarge, type SiteDraft, type SiteReading, type SiteTroubleKind } from './site-draft';
import { headingLayout, isDepth, siteOfRow, type DepthUnit, type Layout, type RowRead } from './site-row';

/** Headings of a list, and what separates them. */
interface Heading {
  readonly layout: Layout;
  readonly separator: Separator;
}

/**
 * Sites from rows, as typed, pasted from a spreadsheet or read from a CSV file.
 * Cells stand apart by tabs, semicolons or commas, which each row may choose for itself: the first of these
 * that makes a site of it. A first row of headings (name, depth, latitude, longitude, position, notes; "depth
 * (ft)") sets their order; without it the order is name, depth, notes, with a position before the notes if
 * there is one. Decimal commas are read where they cannot be taken for the end of a cell; a row that can be
 * read in two ways is refused.
 * @param text anything @param usualUnit of depths that name none @param words of whoever reads the troubles
 * @returns the sites that were understood, and a trouble with its line for every row that was not
 * Source: RFC 4180 for the rows; ranges as in the trip file.
 */
export function readSiteRows(
  text: string,
  usualUnit: DepthUnit = 'm',
  words: Words = fileWords,
): SiteReading {
  const tooLarge = textTooLarge(text);
  if (tooLarge) return tooLarge;
  const records = readRecords(text.replace(SEP_LINE, '\n')).filter((record) => !BLANK.test(record.text));
  const heading = headingOf(records[0], usualUnit);
  const rows = heading === null ? records : records.slice(1);
  if (rows.length === 0) {
    const mend = 'Write a site on each line: name, depth, and if you like latitude, longitude and notes.';
    return { sites: [], troubles: [trouble('no-sites', 'There is no site in this text.', mend)] };
  }
  if (rows.length > LIST_RULES.sites.max) {
    const what = `There are ${rows.length} rows; a trip holds ${LIST_RULES.sites.max} sites.`;
    return { sites: [], troubles: [trouble('too-many', what, 'Take the sites of this trip alone.')] };
  }
  const sites: SiteDraft[] = [];
  const troubles: Trouble<SiteTroubleKind>[] = [];
  for (const record of rows) {
    const read = readRow(record.text, heading, usualUnit);
    if ('site' in read) sites.push(read.site);
    else troubles.push({ kind: 'row', where: `line ${record.line}`, ...worded(read, words) });
  }
  return { sites, troubles };
}

/** What some spreadsheets write over a table; an empty line in its place keeps the numbers of the lines. */
const SEP_LINE = /^\uFEFF?sep=.(?:\r\n|\r|\n)/i;

/** A row of cells with nothing in them, as spreadsheets leave between and below what was written. */
const BLANK = /^(?:[;,\s]|"\s*"(?=[;,\s]|$))*$/;

function trouble(kind: SiteTroubleKind, what: string, mend: string): Trouble<SiteTroubleKind> {
  return { kind, what, where: '', mend };
}

/** A row's cells by a separator; null where a quotation mark is left open, or the row falls apart. */
function cellsOf(record: string, separator: Separator): readonly string[] | null {
  const { rows, unclosedLine } = readDelimited(record, separator);
  return rows.length === 1 && unclosedLine === null ? rows[0]!.cells : null;
}

function headingOf(record: DelimitedRecord | undefined, usualUnit: DepthUnit): Heading | null {
  if (!record) return null;
  for (const separator of separatorsIn(record.text)) {
    const cells = cellsOf(record.text, separator);
    const layout = cells && headingLayout(cells, usualUnit);
    if (layout) return { layout, separator };
  }
  return null;
}

const UNCLOSED: SaidTrouble = {
  what: said`A quotation mark is opened and never closed, or text follows where it is closed.`,
  mend: said`Close it at the end of its cell, or double it where it belongs to the text.`,
};

/** Reads a row by each separator that it holds, and takes the first that makes a site of it. */
function readRow(record: string, heading: Heading | null, usualUnit: DepthUnit): RowRead {
  const held = separatorsIn(record);
  // A row in one piece may still be "The Wall 18 m".
  const separators = held.length === 0 ? ([','] as const) : held;
  const own = heading && separators.includes(heading.separator) ? heading.separator : null;
  const inOrder = own ? [own, ...separators.filter((each) => each !== own)] : separators;
  let refusal: SaidTrouble | null = null;
  for (const separator of inOrder) {
    const read = readBy(record, separator, heading, usualUnit);
    if ('site' in read) {
      const isSure = separator === own || isOneWay(read.site.name, separator, separators);
      return isSure ? read : (refusal ?? twoWays(record));
    }
    refusal ??= read;
  }
  return refusal!;
}

function readBy(
  record: string,
  separator: Separator,
  heading: Heading | null,
  usualUnit: DepthUnit,
): RowRead {
  const cells = cellsOf(record, separator);
  if (cells === null) return UNCLOSED;
  const isByCommas = separator === ',';
  if (heading === null) return siteOfRow(cells, { depthUnit: usualUnit }, isByCommas);
  const { layout } = heading;
  const [first, second] = layout.columns;
  // A row that is separated otherwise than its headings keeps to their order only where that begins as any does.
  const isUsualOrder = first === 'name' && second === 'depth';
  return heading.separator === separator || (isUsualOrder && cells.length > 2)
    ? siteOfRow(cells, layout, isByCommas)
    : siteOfRow(cells, { depthUnit: layout.depthUnit }, isByCommas);
}

/**
 * Whether no other separator of a row could have been meant: none that comes before this one is left within
 * the name, and the name does not end in what another would take for the depth.
 */
function isOneWay(name: string, separator: Separator, held: readonly Separator[]): boolean {
  const at = held.indexOf(separator);
  return held.every((other, index) => {
    if (other === separator || !name.includes(other)) return true;
    return index > at && !isDepth(name.slice(name.lastIndexOf(other) + 1));
  });
}

function twoWays(record: string): SaidTrouble {
  return {
    what: said`"${excerpt(record)}" can be read in two ways.`,
    mend: said`Separate all cells by the same sign, and put text that holds it into quotation marks.`,
  };
}

/**
 * Sites as comma-separated values, with headings; `readSiteRows` reads them back.
 * @param sites of a trip @param style of the spreadsheets that will open it
 * @returns rows of name, depth in metres, latitude, longitude, levels, who may not, altitude and water where they are its own, briefing, plan B and notes: of what no
 *   site has there is no column
 * Source: RFC 4180 (2005).
 */
export function writeSiteRows(sites: readonly Site[], style?: CsvStyle): string {
  const columns: readonly (readonly [string, (site: Site) => string | number | null])[] = [
    ['name', ({ name }) => name],
    ['depth (m)', ({ depthM }) => depthM],
    ['latitude', ({ position }) => position?.lat ?? null],
    ['longitude', ({ position }) => position?.lon ?? null],
    ['levels (m/min)', ({ levels }) => levelsText(levels)],
    ['least depth limit (m)', ({ notFor }) => notFor?.depthLimitUnderM ?? null],
    ['not for', ({ notFor }) => notFor?.certifications?.join(', ') ?? ''],
    ['water altitude (m)', ({ water }) => water?.altitudeM ?? null],
    ['water density', ({ water }) => water?.density ?? null],
    ['briefing', ({ briefing }) => briefing ?? ''],
    ['plan B', ({ planB }) => planB ?? ''],
    ['notes', ({ notes }) => notes],
  ];
  // The usual five stand always, so that two lists can be put together.
  const told = columns.filter(
    ([, of], at) =>
      at < 4 || at === columns.length - 1 || sites.some((site) => of(site) !== null && of(site) !== ''),
  );
  return csvText([told.map(([head]) => head), ...sites.map((site) => told.map(([, of]) => of(site)))], style);
}
