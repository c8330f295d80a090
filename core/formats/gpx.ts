import type { Trouble } from '../result';
import { fileWords, worded, type Words } from '../words/reader';
import type { SaidTrouble } from '../words/said';
import { greatest, least } from '../numeric';
import { numberTrouble } from '../document/fields';
import { excerpt, textTrouble } from '../document/texts';
import { LIST_RULES } from '../document/schema';
import type { Site } from '../document/types';
import { decimalText } from './delimited';
import { levelsText } from './levels-text';
import { readExtras } from './site-row';
import {
  textTooLarge,
  type SiteDraft,
  type SiteExtras,
  type SiteReading,
  type SiteTroubleKind,
} from './site-draft';
import { readXml, xmlText, type XmlElement } from './xml';

/** GPX knows no depth of water: it stands among the extensions, under the name that receivers' files have for it. */
const EXTENSION_NAMESPACE = 'http://www.garmin.com/xmlschemas/GpxExtensions/v3';

/** What else a site of this product says stands among the extensions too, under a namespace of its own. */
const SITE_NAMESPACE = 'urn:carryover:site:1';

/** Depths of one waypoint that differ by less are the same, written with fewer digits, metres. */
const SAME_DEPTH_M = 0.05;

/**
 * Sites from the waypoints of a GPX file.
 * The depth is read from an extension, `WaypointExtension/Depth` or one named "depth". An elevation below 0 is a
 * suggestion alone, as a receiver's height errs by metres; so is the deepest of depths that disagree. A waypoint
 * with neither has no depth, and the diver has to give it.
 * @param text the document @param words of whoever reads the troubles
 * @returns the waypoints that can be sites, and a trouble for each that cannot
 * Source: GPX 1.1 schema, Topografix (2004), version 1.0 names waypoints alike and is read too; the published
 * schema GpxExtensions, version 3, for `WaypointExtension/Depth` in metres.
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
  const { depthM, suggestion } = depthOf(waypoint);
  const trouble =
    textTrouble('name', name) ??
    numberTrouble('latitude', position.lat) ??
    numberTrouble('longitude', position.lon) ??
    (depthM === null ? null : numberTrouble('siteDepthM', depthM)) ??
    textTrouble('siteNotes', notes);
  if (trouble) return trouble;
  const extras = extrasOf(waypoint, depthM);
  return 'what' in extras
    ? extras
    : { site: { name, depthM, ...(suggestion && { suggestion }), ...extras, notes, position } };
}

function childrenNamed(element: XmlElement, name: string): readonly XmlElement[] {
  return element.children.filter((child) => localName(child.name).toLowerCase() === name);
}

/** What a waypoint says of its depth; not a number where that is none, for the range to refuse. */
function depthOf(waypoint: XmlElement): Pick<SiteDraft, 'depthM' | 'suggestion'> {
  const extensions = childrenNamed(waypoint, 'extensions');
  const holders = [...extensions, ...extensions.flatMap((each) => childrenNamed(each, 'waypointextension'))];
  const depthsM = holders.flatMap((each) => childrenNamed(each, 'depth')).map(({ text }) => decimal(text));
  if (depthsM.length > 0) {
    if (depthsM.some((depthM) => Number.isNaN(depthM))) return { depthM: Number.NaN };
    const most = greatest(depthsM);
    return most - least(depthsM) > SAME_DEPTH_M && isDepth(most)
      ? { depthM: null, suggestion: { from: 'several', depthM: most } }
      : { depthM: most };
  }
  // Its digits past the tenth say nothing.
  const depthM = Math.ceil(-10 * decimal(childText(waypoint, 'ele'))) / 10;
  return isDepth(depthM) ? { depthM: null, suggestion: { from: 'elevation', depthM } } : { depthM: null };
}

/** Whether a site may be that deep. */
function isDepth(m: number): boolean {
  return numberTrouble('siteDepthM', m) === null;
}

/** What a site says besides name, depth, notes and position; texts as in a list of sites. */
function extrasOf(waypoint: XmlElement, depthM: number | null): SiteExtras | SaidTrouble {
  const extensions = childrenNamed(waypoint, 'extensions');
  const text = (name: string): string =>
    extensions
      .flatMap((each) => childrenNamed(each, name))
      .map((each) => each.text.trim())
      .find((each) => each !== '') ?? '';
  return readExtras(
    {
      levels: text('levels'),
      least: text('leastdepthlimit'),
      notFor: text('notfor'),
      briefing: text('briefing'),
      planB: text('planb'),
    },
    depthM,
    { depthUnit: 'm' },
  );
}

function extrasXml({ levels, notFor, briefing, planB }: Site): string {
  const parts: readonly (readonly [string, string])[] = [
    ['levels', levelsText(levels)],
    ['leastDepthLimit', notFor?.depthLimitUnderM === undefined ? '' : decimalText(notFor.depthLimitUnderM)],
    ['notFor', notFor?.certifications?.join(', ') ?? ''],
    ['briefing', briefing ?? ''],
    ['planB', planB ?? ''],
  ];
  return parts
    .filter(([, text]) => text !== '')
    .map(([name, text]) => `<site:${name}>${xmlText(text)}</site:${name}>`)
    .join('');
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
 * Source: as `readGpx`.
 */
export function writeGpx(sites: readonly Site[], title: string): GpxWriting {
  const withoutPosition: Site[] = [];
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<gpx version="1.1" creator="Carryover" xmlns="http://www.topografix.com/GPX/1/1" xmlns:gpxx="${EXTENSION_NAMESPACE}" xmlns:site="${SITE_NAMESPACE}">`,
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
    const depth = `<gpxx:Depth>${decimalText(site.depthM)}</gpxx:Depth>`;
    lines.push(
      `    <extensions><gpxx:WaypointExtension>${depth}</gpxx:WaypointExtension>${extrasXml(site)}</extensions>`,
      '  </wpt>',
    );
  }
  lines.push('</gpx>', '');
  return { text: lines.join('\n'), withoutPosition };
}
