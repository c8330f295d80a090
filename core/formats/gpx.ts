import { fileWords, type Words } from '../words/reader';
import type { SaidTrouble } from '../words/said';
import { greatest, least } from '../numeric';
import { numberTrouble } from '../document/fields';
import { textTrouble } from '../document/texts';
import type { Site } from '../document/types';
import { decimalText } from './delimited';
import { levelsText } from './levels-text';
import { readExtras } from './site-row';
import type { SiteDraft, SiteExtras, SiteReading } from './site-draft';
import { childrenNamed, childText, decimal, isDepth, localName, readPoints, suggestedBy } from './points';
import { xmlText, type XmlElement } from './xml';

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
 * with neither has no depth, and the diver has to give it; one without a name is called by its number in the file.
 * @param text the document @param words of whoever reads the troubles
 * @returns the waypoints that can be sites, and a trouble for each that cannot
 * Source: GPX 1.1 schema, Topografix (2004), version 1.0 names waypoints alike and is read too; the published
 * schema GpxExtensions, version 3, for `WaypointExtension/Depth` in metres.
 */
export function readGpx(text: string, words: Words = fileWords): SiteReading {
  return readPoints(
    text,
    {
      root: 'gpx',
      format: 'GPX',
      points: (root) => root.children.filter((child) => localName(child.name) === 'wpt'),
      noun: 'waypoint',
      none: 'There is no waypoint in this file; tracks and routes are not read.',
      mend: 'Save the waypoints of the sites as GPX and choose that file.',
      again: 'Save the waypoints again as GPX 1.1.',
      siteOf,
    },
    words,
  );
}

function siteOf(waypoint: XmlElement, unnamed: string): { readonly site: SiteDraft } | SaidTrouble {
  const position = { lat: decimal(waypoint.attributes['lat']), lon: decimal(waypoint.attributes['lon']) };
  const name = childText(waypoint, 'name') || unnamed;
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
  const suggestion = suggestedBy(decimal(childText(waypoint, 'ele')));
  return { depthM: null, ...(suggestion && { suggestion }) };
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
