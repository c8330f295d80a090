import type { Trouble } from '../result';
import { fileWords, said, worded, type Said, type SaidTrouble, type Words } from '../said';
import { numberTrouble, textTrouble } from '../trip/fields';
import { LIMITS } from '../trip/schema';
import type { Site } from '../trip/types';
import { M_PER_FOOT } from '../units';
import { coordinateDegrees } from './coordinates';
import { csvText, plainText, readDelimited, type DelimitedRow } from './delimited';
import { excerpt, textTooLarge, type SiteDraft, type SiteReading, type SiteTroubleKind } from './site-draft';

/** What a depth without a unit is counted in. */
export type DepthUnit = 'm' | 'ft';

type Column = 'name' | 'depth' | 'lat' | 'lon' | 'notes';

/** How the columns of a text are laid out; further ones go into the notes under their own heading. */
interface Layout {
  readonly isHeaded: boolean;
  readonly columns: readonly (Column | { readonly heading: string })[];
  readonly depthUnit: DepthUnit;
}

const HEADINGS: Readonly<Record<Column, RegExp>> = {
  name: /^(name|site|dive site|place)$/,
  depth: /^(max(imum)? )?depth$/,
  lat: /^lat(itude)?$/,
  lon: /^(lon|lng|long|longitude)$/,
  notes: /^(notes?|remarks?|description|comments?)$/,
};

const NAME_LENGTH = 80;
const NOTES_LENGTH = 4000;

const DEPTH = /^([+-]?\d+(?:[.,]\d+)?)\s*(m|metres?|meters?|ft|feet|')?$/i;
/** One cell with name and depth, told apart by the unit alone. */
const NAME_AND_DEPTH = /^(.*\S)\s+(\d+(?:[.,]\d+)?\s*(?:m|ft))$/i;

/**
 * Sites from rows, as typed, pasted from a spreadsheet or read from a CSV file.
 * Cells stand apart by tabs, semicolons or commas: whichever gives the most sites. A first row of headings
 * (name, depth, latitude, longitude, notes; "depth (ft)") sets their order; without it the order is name,
 * depth, notes, or name, depth, latitude, longitude, notes. Decimal commas are read where they cannot be
 * taken for the end of a cell, and refused where they can.
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
  const separators = (['\t', ';', ','] as const).filter((each) => each === ',' || text.includes(each));
  const readings = separators.map((separator) => readWith(text, separator, usualUnit, words));
  // Of two that give as many sites the first holds: a comma may be decimal, a tab may not.
  const best = readings.reduce((one, other) => (other.sites.length > one.sites.length ? other : one));
  if (best.sites.length === 0 && best.troubles.length === 0) {
    const mend = 'Write a site on each line: name, depth, and if you like latitude, longitude and notes.';
    return { sites: [], troubles: [trouble('no-sites', 'There is no site in this text.', '', mend)] };
  }
  return best;
}

function trouble(kind: SiteTroubleKind, what: string, where: string, mend: string): Trouble<SiteTroubleKind> {
  return { kind, what, where, mend };
}

function readWith(
  text: string,
  separator: ',' | ';' | '\t',
  usualUnit: DepthUnit,
  words: Words,
): SiteReading {
  const { rows, unclosedLine } = readDelimited(text, separator);
  if (unclosedLine !== null) {
    const what = 'A quotation mark is opened and never closed, or text follows where it is closed.';
    const mend = 'Close it at the end of its cell, or double it where it belongs to the text.';
    return { sites: [], troubles: [trouble('not-readable', what, `line ${unclosedLine}`, mend)] };
  }
  const [first, ...rest] = rows;
  const heading = first ? headingLayout(first, usualUnit) : null;
  const siteRows = heading ? rest : rows;
  if (siteRows.length > LIMITS.sites) {
    const what = `There are ${siteRows.length} rows; a trip holds ${LIMITS.sites} sites.`;
    return { sites: [], troubles: [trouble('too-many', what, '', 'Take the sites of this trip alone.')] };
  }
  const sites: SiteDraft[] = [];
  const troubles: Trouble<SiteTroubleKind>[] = [];
  for (const row of siteRows) {
    const read = siteOfRow(row, heading ?? plainLayout(row, usualUnit), separator);
    if ('site' in read) sites.push(read.site);
    else troubles.push({ kind: 'row', where: `line ${row.line}`, ...worded(read, words) });
  }
  return { sites, troubles };
}

function headingLayout(row: DelimitedRow, usualUnit: DepthUnit): Layout | null {
  let depthUnit = usualUnit;
  const columns = row.cells.map((cell) => {
    const heading = cell.trim();
    const words = heading
      .toLowerCase()
      .replace(/[\s_()[\].]+/g, ' ')
      .trim();
    const unit = /^(.*) (m|metres|meters|ft|feet)$/.exec(words);
    const name = unit?.[1] ?? words;
    const found = (Object.keys(HEADINGS) as Column[]).find((column) => HEADINGS[column].test(name));
    if (found === 'depth' && unit) depthUnit = unit[2]!.startsWith('f') ? 'ft' : 'm';
    return found ?? { heading };
  });
  return columns.includes('name') && columns.includes('depth')
    ? { isHeaded: true, columns, depthUnit }
    : null;
}

function plainLayout(row: DelimitedRow, depthUnit: DepthUnit): Layout {
  return {
    isHeaded: false,
    columns: row.cells.length > 3 ? ['name', 'depth', 'lat', 'lon', 'notes'] : ['name', 'depth', 'notes'],
    depthUnit,
  };
}

type RowRead = { readonly site: SiteDraft } | SaidTrouble;

function siteOfRow(row: DelimitedRow, layout: Layout, separator: string): RowRead {
  const cells = row.cells.length === 1 ? splitNameAndDepth(row.cells[0]!) : row.cells;
  const filled = cells.findLastIndex((cell) => cell.trim() !== '') + 1;
  if (filled > layout.columns.length) {
    return {
      what: said`The row has ${String(filled)} cells where ${String(layout.columns.length)} are known.`,
      mend: said`Put text with a separator in it into quotation marks, and write decimals with a point.`,
    };
  }
  if (separator === ',' && hasLooseDecimal(cells, layout)) {
    return {
      what: said`"${excerpt(cells.join(','))}" may be a decimal comma or the end of a cell.`,
      mend: said`Write decimals with a point, or separate the cells by semicolons.`,
    };
  }
  const at = (column: Column) => plainText((cells[layout.columns.indexOf(column)] ?? '').trim());

  const name = at('name');
  const nameTrouble = textTrouble('Name', name, NAME_LENGTH, 1);
  if (nameTrouble) return nameTrouble;
  const depth = depthOf(at('depth'), layout.depthUnit);
  if ('what' in depth) return depth;
  const position = positionOf(at('lat'), at('lon'));
  if (position !== null && 'what' in position) return position;
  const notes = notesOf(cells, layout);
  const notesTrouble = textTrouble('Notes', notes, NOTES_LENGTH, 0);
  if (notesTrouble) return notesTrouble;
  return { site: { name, depthM: depth.depthM, notes, position } };
}

function splitNameAndDepth(cell: string): readonly string[] {
  const match = NAME_AND_DEPTH.exec(cell.trim());
  return match ? [match[1]!, match[2]!] : [cell];
}

/** Columns that hold figures. */
const FIGURES: ReadonlySet<unknown> = new Set<Column>(['depth', 'lat', 'lon']);

/**
 * "18,5" between commas: two cells or one depth? Nobody can tell once the digits follow without a space, unless
 * a headed column of figures stands there and every column has its cell.
 */
function hasLooseDecimal(cells: readonly string[], layout: Layout): boolean {
  const isFull = layout.isHeaded && cells.length === layout.columns.length;
  const isFigure = (index: number) => FIGURES.has(layout.columns[index]);
  return cells.some((cell, index) => {
    if (!isFigure(index) || !/^\s*[+-]?\d+$/.test(cell) || (isFull && isFigure(index + 1))) return false;
    const next = cells[index + 1];
    return next !== undefined && /^\d+\s*(m|ft)?\s*$/i.test(next);
  });
}

function depthOf(text: string, usualUnit: DepthUnit): { readonly depthM: number } | SaidTrouble {
  const mend: Said =
    usualUnit === 'm'
      ? said`Give the depth in metres, such as 18 or 18.5, or in feet as 60 ft.`
      : said`Give the depth in feet, such as 60, or in metres as 18 m.`;
  if (text === '') return { what: said`The row has no depth.`, mend };
  const match = DEPTH.exec(text);
  if (!match) return { what: said`"${excerpt(text)}" is no depth.`, mend };
  if (/,\d{3}$/.test(match[1]!))
    return { what: said`"${excerpt(text)}" may be thousands or thousandths.`, mend };
  const figure = Number(match[1]!.replace(',', '.'));
  const isFeet = match[2] === undefined ? usualUnit === 'ft' : /^(f|')/i.test(match[2]);
  const depthM = isFeet ? figure * M_PER_FOOT : figure;
  return numberTrouble('siteDepthM', depthM) ?? { depthM };
}

function positionOf(latText: string, lonText: string): SiteDraft['position'] | SaidTrouble {
  if (latText === '' && lonText === '') return null;
  const mend = said`Give both as degrees, south and west negative: 12.3456 and -45.6; or leave both out.`;
  const lat = coordinateDegrees(latText, 'lat');
  if (lat === null) return { what: said`"${excerpt(latText)}" is no latitude.`, mend };
  const lon = coordinateDegrees(lonText, 'lon');
  if (lon === null) return { what: said`"${excerpt(lonText)}" is no longitude.`, mend };
  return numberTrouble('latitude', lat) ?? numberTrouble('longitude', lon) ?? { lat, lon };
}

/** The notes, and under their headings the cells of columns a site has no field for. */
function notesOf(cells: readonly string[], layout: Layout): string {
  const lines = layout.columns.map((column, index) => {
    const cell = plainText((cells[index] ?? '').trim());
    if (column === 'notes' || cell === '') return column === 'notes' ? cell : '';
    return typeof column === 'object' ? (column.heading === '' ? cell : `${column.heading}: ${cell}`) : '';
  });
  return lines.filter((line) => line !== '').join('\n');
}

/**
 * Sites as comma-separated values, with headings; `readSiteRows` reads them back.
 * @param sites of a trip
 * @returns rows of name, depth in metres, latitude, longitude and notes
 * Source: RFC 4180 (2005).
 */
export function writeSiteRows(sites: readonly Site[]): string {
  return csvText([
    ['name', 'depth (m)', 'latitude', 'longitude', 'notes'],
    ...sites.map(({ name, depthM, position, notes }) => [
      name,
      depthM,
      position?.lat ?? null,
      position?.lon ?? null,
      notes,
    ]),
  ]);
}
