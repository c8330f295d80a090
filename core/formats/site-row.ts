import { said, type Said, type SaidTrouble } from '../words/said';
import { NUMBER_RULES, numberTrouble } from '../document/fields';
import { excerpt, textTrouble } from '../document/texts';
import { M_PER_FOOT } from '../units';
import { coordinateDegrees, positionDegrees } from './coordinates';
import { plainText } from './delimited';
import { levelBelow, readLevels } from './levels-text';
import type { SiteDraft, SiteExtras } from './site-draft';

/** What a depth without a unit is counted in. */
export type DepthUnit = 'm' | 'ft';

type Column =
  | 'name'
  | 'depth'
  | 'lat'
  | 'lon'
  | 'position'
  | 'notes'
  | 'levels'
  | 'planB'
  | 'briefing'
  | 'least'
  | 'notFor'
  | 'altitude'
  | 'water';

/** How the columns of a text are laid out; further ones go into the notes under their own heading. */
export interface Layout {
  readonly isHeaded: boolean;
  readonly columns: readonly (Column | { readonly heading: string })[];
  readonly depthUnit: DepthUnit;
  /** Of columns whose heading names another. */
  readonly units?: Partial<Record<Column, DepthUnit>>;
}

const HEADINGS: Readonly<Record<Column, RegExp>> = {
  name: /^(name|site|dive site|place)$/,
  depth: /^(max(imum)? )?depth$/,
  lat: /^lat(itude)?$/,
  lon: /^(lon|lng|long|longitude)$/,
  position: /^(position|coordinates)$/,
  notes: /^(notes?|remarks?|description|comments?)$/,
  levels: /^(levels|profile|typical (dive|profile))$/,
  planB: /^plan b$/,
  briefing: /^(note for the )?briefing$/,
  least: /^(least depth limit|depth limit at least)$/,
  notFor: /^not for$/,
  altitude: /^water altitude$/,
  water: /^water density$/,
};

const DEPTH = /^([+-]?\d+(?:[.,]\d+)?)\s*(m|metres?|meters?|ft|feet|foot|'|′)?$/i;
const UNIT = /^(?:m|metres?|meters?|ft|feet|foot|'|′)$/i;
const SPACE = /\s/;

/** A depth with its unit has fewer letters than this, so a name before it is looked for no further back. */
const LONGEST_DEPTH = 40;

/** More columns than any list of sites has: a row of more is none of headings. */
const MOST_COLUMNS = 60;

/**
 * The layout that a row of headings sets.
 * @param cells of the first row @param usualUnit of depths that name none
 * @returns null where the row is none of headings: name and depth have to be among them
 */
export function headingLayout(cells: readonly string[], usualUnit: DepthUnit): Layout | null {
  if (cells.length > MOST_COLUMNS) return null;
  let depthUnit = usualUnit;
  const units: Partial<Record<Column, DepthUnit>> = {};
  const columns = cells.map((cell) => {
    const heading = cell.trim();
    const words = heading
      .toLowerCase()
      .replace(/[\s_()[\].]+/g, ' ')
      .trim();
    const unit = /^(.*) (m|metres|meters|ft|feet)(?:\/min)?$/.exec(words);
    const name = unit?.[1] ?? words;
    const found = (Object.keys(HEADINGS) as Column[]).find((column) => HEADINGS[column].test(name));
    const own = unit && (unit[2]!.startsWith('f') ? 'ft' : 'm');
    if (found === 'depth' && own) depthUnit = own;
    if (found && own) units[found] = own;
    return found ?? { heading };
  });
  return columns.includes('name') && columns.includes('depth')
    ? { isHeaded: true, columns, depthUnit, units }
    : null;
}

/** Whether a cell without a heading is a position: without letters, two figures may be anything. */
function isPosition(cell: string | undefined): boolean {
  return cell !== undefined && /[NS]/i.test(cell) && /[EW]/i.test(cell) && positionDegrees(cell) !== null;
}

/** The layout of a row without headings: name, depth, notes; or with a position before the notes. */
export function plainLayout(cells: readonly string[], depthUnit: DepthUnit): Layout {
  const rest: Layout['columns'] = isPosition(cells[2])
    ? ['position', 'notes']
    : cells.length > 3
      ? ['lat', 'lon', 'notes']
      : ['notes'];
  return { isHeaded: false, columns: ['name', 'depth', ...rest], depthUnit };
}

/** A site, or why the row is none. */
export type RowRead = { readonly site: SiteDraft } | SaidTrouble;

/**
 * The site of one row.
 * @param given its cells @param layout of headings; null where the list has none
 * @param isByCommas whether commas separate, so that none can be trusted to be decimal
 * @returns the site, or what stands in the way
 * Source: ranges as in the trip file.
 */
export function siteOfRow(
  given: readonly string[],
  layout: Layout | { readonly depthUnit: DepthUnit },
  isByCommas: boolean,
): RowRead {
  const cells = given.length === 1 ? splitNameAndDepth(given[0]!) : given;
  const laid = 'columns' in layout ? layout : plainLayout(cells, layout.depthUnit);
  const filled = cells.findLastIndex((cell) => cell.trim() !== '') + 1;
  if (filled > laid.columns.length) {
    return {
      what: said`The row has ${String(filled)} cells where ${String(laid.columns.length)} are known.`,
      mend: said`Put text with a separator in it into quotation marks, and write decimals with a point.`,
    };
  }
  if (isByCommas && hasLooseDecimal(cells, laid)) {
    return {
      what: said`"${excerpt(cells.join(','))}" may be a decimal comma or the end of a cell.`,
      mend: said`Write decimals with a point, or separate the cells by semicolons.`,
    };
  }
  const at = (column: Column) => plainText((cells[laid.columns.indexOf(column)] ?? '').trim());

  const name = at('name');
  // More likely some rows between two quotation marks that were never meant as one.
  if (/[\r\n]/.test(name)) {
    return {
      what: said`The name goes over several lines.`,
      mend: said`Write it on one line; a quotation mark that is left open joins the rows behind it.`,
    };
  }
  const nameTrouble = textTrouble('name', name);
  if (nameTrouble) return nameTrouble;
  const depth = depthOf(at('depth'), laid.depthUnit);
  if ('what' in depth) return depth;
  const position = at('position') === '' ? halvesOf(at('lat'), at('lon')) : positionOf(at('position'));
  if (position !== null && 'what' in position) return position;
  const notes = notesOf(cells, laid);
  const notesTrouble = textTrouble('siteNotes', notes);
  if (notesTrouble) return notesTrouble;
  const water = waterOf(at('altitude'), at('water'), laid.units?.altitude ?? laid.depthUnit);
  if (water !== null && 'what' in water) return water;
  const extras = readExtras(
    {
      levels: at('levels'),
      planB: at('planB'),
      briefing: at('briefing'),
      least: at('least'),
      notFor: at('notFor'),
    },
    depth.depthM,
    laid,
  );
  if ('what' in extras) return extras;
  return {
    site: { name, depthM: depth.depthM, ...extras, notes, position, ...(water === null ? {} : { water }) },
  };
}

const ALTITUDE = /^(\d+(?:\.\d+)?)\s*(m|metres?|meters?|ft|feet)?$/i;

/** What of a site's water is its own; null where both texts are empty. */
function waterOf(
  altitude: string,
  density: string,
  usualUnit: DepthUnit,
): NonNullable<SiteDraft['water']> | SaidTrouble | null {
  if (altitude === '' && density === '') return null;
  const match = ALTITUDE.exec(altitude);
  if (altitude !== '' && match === null) {
    return {
      what: said`"${excerpt(altitude)}" is no altitude.`,
      mend: said`Give the height of the water above the sea, such as 640 or 2100 ft, or leave it out.`,
    };
  }
  const isFeet = match?.[2] === undefined ? usualUnit === 'ft' : /^f/i.test(match[2]);
  const altitudeM = match === null ? null : Number(match[1]) * (isFeet ? M_PER_FOOT : 1);
  const known = (['gauge', 'salt', 'fresh'] as const).find((name) => name === density.toLowerCase());
  const kgM3 = known ?? (density === '' ? null : Number(density));
  if (typeof kgM3 === 'number' && Number.isNaN(kgM3)) {
    return { what: said`"${excerpt(density)}" is no water.`, mend: NUMBER_RULES.densityKgM3.mend };
  }
  const trouble =
    (altitudeM === null ? null : numberTrouble('altitudeM', altitudeM)) ??
    (typeof kgM3 === 'number' ? numberTrouble('densityKgM3', kgM3) : null);
  if (trouble) return trouble;
  return {
    ...(kgM3 === null ? {} : { density: kgM3 }),
    ...(altitudeM === null ? {} : { altitudeM }),
  };
}

type Extra = 'levels' | 'planB' | 'briefing' | 'least' | 'notFor';

/**
 * Levels, plan B, briefing and who may not, from their texts: an empty one says nothing.
 * @param depthM of the site; null where it is not known yet
 * @returns what was told; or what cannot be read
 * Source: ranges as in the trip file.
 */
export function readExtras(
  texts: Readonly<Record<Extra, string>>,
  depthM: number | null,
  { depthUnit, units }: Pick<Layout, 'depthUnit' | 'units'>,
): SiteExtras | SaidTrouble {
  const levels = readLevels(texts.levels, units?.levels ?? depthUnit);
  if ('what' in levels) return levels;
  const [planB, briefing] = [texts.planB, texts.briefing];
  const least = texts.least === '' ? null : depthOf(texts.least, units?.least ?? depthUnit);
  if (least !== null && 'what' in least) return least;
  const certifications = texts.notFor
    .split(/[,;]/)
    .map((part) => part.trim())
    .filter((part) => part !== '');
  const trouble =
    (depthM === null ? null : levelBelow(levels, depthM)) ??
    textTrouble('planB', planB) ??
    textTrouble('briefing', briefing) ??
    certifications.map((text) => textTrouble('certification', text)).find((each) => each !== null);
  if (trouble) return trouble;
  const notFor = {
    ...(least && { depthLimitUnderM: least.depthM }),
    ...(certifications.length > 0 && { certifications }),
  };
  return {
    ...(levels.length > 0 && { levels }),
    ...(planB !== '' && { planB }),
    ...(briefing !== '' && { briefing }),
    ...(Object.keys(notFor).length > 0 && { notFor }),
  };
}

/** Whether a text would be read as a depth. */
export function isDepth(text: string): boolean {
  return DEPTH.test(text.trim());
}

/** Where the last word of a text begins: behind its last space; 0 where it is one word. */
function lastWordAt(text: string): number {
  let at = text.length;
  while (at > 0 && !SPACE.test(text[at - 1]!)) at -= 1;
  return at;
}

/** One cell with name and depth, told apart by the unit alone; a dash or colon may stand between. */
function splitNameAndDepth(cell: string): readonly string[] {
  const text = cell.trim();
  const tail = text.slice(-LONGEST_DEPTH);
  const last = lastWordAt(tail);
  // "18 m" are two words, "18m" is one.
  const at = UNIT.test(tail.slice(last)) ? lastWordAt(tail.slice(0, last).trimEnd()) : last;
  const depth = tail.slice(at);
  const name = text.slice(0, text.length - depth.length).trimEnd();
  const match = DEPTH.exec(depth);
  if (at === 0 || name === '' || match?.[2] === undefined || /^[+-]/.test(depth)) return [cell];
  return [withoutDash(name), depth];
}

/** A name without the colon, or the dash behind a space, that parts it from what follows. */
function withoutDash(name: string): string {
  if (name.endsWith(':')) return name.slice(0, -1);
  return /\s[-–—]$/.test(name) ? name.slice(0, -1).trimEnd() : name;
}

/** Columns that hold figures. */
const FIGURES: ReadonlySet<unknown> = new Set<Column>(['depth', 'lat', 'lon', 'position']);

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
    return next !== undefined && /^\d+\s*(?:(?:m|ft)\s*)?$/i.test(next);
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
  const depth = Number(match[1]!.replace(',', '.'));
  const isFeet = match[2] === undefined ? usualUnit === 'ft' : /^(f|'|′)/i.test(match[2]);
  const depthM = isFeet ? depth * M_PER_FOOT : depth;
  return numberTrouble('siteDepthM', depthM) ?? { depthM };
}

const BOTH_DEGREES = said`Give both as degrees, south and west negative: 12.3456 and -45.6; or leave both out.`;

function halvesOf(latText: string, lonText: string): SiteDraft['position'] | SaidTrouble {
  if (latText === '' && lonText === '') return null;
  const lat = coordinateDegrees(latText, 'lat');
  if (lat === null) return { what: said`"${excerpt(latText)}" is no latitude.`, mend: BOTH_DEGREES };
  const lon = coordinateDegrees(lonText, 'lon');
  if (lon === null) return { what: said`"${excerpt(lonText)}" is no longitude.`, mend: BOTH_DEGREES };
  return onGlobe({ lat, lon });
}

function positionOf(text: string): NonNullable<SiteDraft['position']> | SaidTrouble {
  const position = positionDegrees(text);
  if (position !== null && position !== 'ambiguous') return onGlobe(position);
  const why = position === null ? said`is no position` : said`can be read as two positions`;
  const mend = said`Give latitude and longitude such as 12° 20.7' S 45° 36' W, or leave them out.`;
  return { what: said`"${excerpt(text)}" ${why}.`, mend };
}

function onGlobe(
  position: NonNullable<SiteDraft['position']>,
): NonNullable<SiteDraft['position']> | SaidTrouble {
  return numberTrouble('latitude', position.lat) ?? numberTrouble('longitude', position.lon) ?? position;
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
