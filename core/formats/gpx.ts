import type { Trouble } from '../result';
import { fileWords, worded, type Words } from '../words/reader';
import type { SaidTrouble } from '../words/said';
import { numberTrouble } from '../document/fields';
import { excerpt, textTrouble } from '../document/texts';
import { LIST_RULES } from '../document/schema';
import type { Site } from '../document/types';
import { decimalText } from './delimited';
import { textTooLarge, type SiteDraft, type SiteReading, type SiteTroubleKind } from './site-draft';
import { readXml, xmlText, type XmlElement } from './xml';

/** GPX knows no depth of water: it stands among the extensions, under a name of ours. */
const DEPTH_NAMESPACE = 'urn:carryover:site:1';

/**
 * Sites from the waypoints of a GPX file.
 * The depth is read from an extension named "depth", or from an elevation below 0; a waypoint at sea level or
 * above it has none, and the diver has to give it.
 * @param text the document @param words of whoever reads the troubles
 * @returns the waypoints that can be sites, and a trouble for each that cannot
 * Source: GPX 1.1 schema, Topografix (2004); version 1.0 names waypoints alike and is read too.
 */
export function readGpx(text: string, words: Words = fileWords): SiteReading {
  const tooLarge = textTooLarge(text);
  if (tooLarge) return tooLarge;
  const xml = readXml(text);
  if (!xml.ok) {
    return failed('not-readable', xml.what, `line ${xml.line}`, 'Save the waypoints again as GPX 1.1.');
  }
  if (localName(xml.root.name) !== 'gpx') {
    return failed(
      'not-readable',
      `The file is XML, but not GPX: it begins with <${excerpt(xml.root.name)}>.`,
      '',
      SAVE_AS_GPX,
    );
  }
  const waypoints = xml.root.children.filter((child) => localName(child.name) === 'wpt');
  if (waypoints.length === 0) {
    return failed(
      'no-sites',
      'There is no waypoint in this file; tracks and routes are not read.',
      '',
      SAVE_AS_GPX,
    );
  }
  if (waypoints.length > LIST_RULES.sites.max) {
    const what = `There are ${waypoints.length} waypoints; a trip holds ${LIST_RULES.sites.max} sites.`;
    return failed('too-many', what, '', 'Save the waypoints of this trip alone.');
  }
  const sites: SiteDraft[] = [];
  const troubles: Trouble<SiteTroubleKind>[] = [];
  waypoints.forEach((waypoint, index) => {
    const read = siteOf(waypoint);
    if ('site' in read) sites.push(read.site);
    else {
      const name = childText(waypoint, 'name');
      const where = name === '' ? `waypoint ${index + 1}` : `waypoint ${index + 1} ("${excerpt(name)}")`;
      troubles.push({ kind: 'row', where, ...worded(read, words) });
    }
  });
  return { sites, troubles };
}

const SAVE_AS_GPX = 'Save the waypoints of the sites as GPX and choose that file.';

function failed(kind: SiteTroubleKind, what: string, where: string, mend: string): SiteReading {
  return { sites: [], troubles: [{ kind, what, where, mend }] };
}

/** Names are compared without their prefix: it is the file's own choice. */
function localName(name: string): string {
  return name.slice(name.indexOf(':') + 1);
}

function childText(element: XmlElement, name: string): string {
  return element.children.find((child) => localName(child.name) === name)?.text ?? '';
}

/** A decimal as XML Schema writes it; anything else is no number rather than half of one. */
function decimal(text: string | undefined): number {
  const plain = text?.trim() ?? '';
  return /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)$/.test(plain) ? Number(plain) : Number.NaN;
}

function siteOf(waypoint: XmlElement): { readonly site: SiteDraft } | SaidTrouble {
  const position = { lat: decimal(waypoint.attributes['lat']), lon: decimal(waypoint.attributes['lon']) };
  const name = childText(waypoint, 'name');
  const notes = [childText(waypoint, 'desc'), childText(waypoint, 'cmt')]
    .filter((text, index, all) => text !== '' && all.indexOf(text) === index)
    .join('\n');
  const depthM = depthOf(waypoint);
  const trouble =
    textTrouble('name', name) ??
    numberTrouble('latitude', position.lat) ??
    numberTrouble('longitude', position.lon) ??
    (depthM === null ? null : numberTrouble('siteDepthM', depthM)) ??
    textTrouble('siteNotes', notes);
  return trouble ?? { site: { name, depthM, notes, position } };
}

function depthOf(waypoint: XmlElement): number | null {
  const extensions = waypoint.children.find((child) => localName(child.name) === 'extensions');
  const written = extensions?.children.find((child) => localName(child.name).toLowerCase() === 'depth');
  if (written) return decimal(written.text);
  const elevationM = decimal(childText(waypoint, 'ele'));
  return elevationM < 0 ? -elevationM : null;
}

/** A document, and the sites that could not stand in it. */
export interface GpxWriting {
  readonly text: string;
  readonly withoutPosition: readonly Site[];
}

/**
 * Sites as the waypoints of a GPX file; `readGpx` reads them back.
 * @param sites of a trip; those without position are handed back, as a waypoint must have one
 * @param title of the trip
 * @returns GPX 1.1 with name, notes and, as an extension, depth in metres
 * Source: GPX 1.1 schema, Topografix (2004).
 */
export function writeGpx(sites: readonly Site[], title: string): GpxWriting {
  const withoutPosition: Site[] = [];
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<gpx version="1.1" creator="Carryover" xmlns="http://www.topografix.com/GPX/1/1" xmlns:c="${DEPTH_NAMESPACE}">`,
    `  <metadata><name>${xmlText(title)}</name></metadata>`,
  ];
  for (const site of sites) {
    if (!site.position) {
      withoutPosition.push(site);
      continue;
    }
    lines.push(`  <wpt lat="${decimalText(site.position.lat)}" lon="${decimalText(site.position.lon)}">`);
    lines.push(`    <name>${xmlText(site.name)}</name>`);
    if (site.notes !== '') lines.push(`    <desc>${xmlText(site.notes)}</desc>`);
    lines.push(`    <extensions><c:depth>${decimalText(site.depthM)}</c:depth></extensions>`, '  </wpt>');
  }
  lines.push('</gpx>', '');
  return { text: lines.join('\n'), withoutPosition };
}
