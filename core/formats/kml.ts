import { numberTrouble } from '../document/fields';
import { textTrouble } from '../document/texts';
import { fileWords, type Words } from '../words/reader';
import { said, type SaidTrouble } from '../words/said';
import { childrenNamed, childText, decimal, localName, readPoints, suggestedBy } from './points';
import type { SiteDraft, SiteReading } from './site-draft';
import type { XmlElement } from './xml';

/** What may hold placemarks. */
const HOLDERS: ReadonlySet<string> = new Set(['kml', 'Document', 'Folder']);

/**
 * Sites from the placemarks of a KML file.
 * The depth is read from the extended data named "depth", metres. A height below 0 is a suggestion alone, and only where
 * the file says that heights count from the sea: elsewhere KML does not use them. A placemark without a name is called by
 * its number in the file; of a description in HTML the text is taken.
 * @param text the document @param words of whoever reads the troubles
 * @returns the placemarks that can be sites, and a trouble for each that cannot: lines and areas are told too
 * Source: Open Geospatial Consortium, OGC KML 2.3, 12-007r2 (2015); earlier versions name points alike.
 */
export function readKml(text: string, words: Words = fileWords): SiteReading {
  return readPoints(
    text,
    {
      root: 'kml',
      format: 'KML',
      points: placemarksIn,
      noun: 'placemark',
      none: 'There is no placemark in this file.',
      mend: 'Save the places of the sites as KML and choose that file.',
      again: 'Save the places again as KML.',
      siteOf,
    },
    words,
  );
}

function placemarksIn(holder: XmlElement): readonly XmlElement[] {
  return holder.children.flatMap((child) => {
    const name = localName(child.name);
    return name === 'Placemark' ? [child] : HOLDERS.has(name) ? placemarksIn(child) : [];
  });
}

function siteOf(placemark: XmlElement, unnamed: string): { readonly site: SiteDraft } | SaidTrouble {
  const [point, ...others] = pointsIn(placemark);
  if (point === undefined || others.length > 0) {
    return {
      what:
        point === undefined
          ? said`It has no point; lines and areas are no sites.`
          : said`It has several points.`,
      mend: said`Mark the site with a point, or leave it out.`,
    };
  }
  const [lon, lat, heightM, ...more] = childText(point, 'coordinates').split(',').map(decimal);
  const position = { lat: lat ?? Number.NaN, lon: lon ?? Number.NaN };
  const name = childText(placemark, 'name') || unnamed;
  const notes = plainText(childText(placemark, 'description'));
  const given = depthTextOf(placemark);
  const depthM = given === null ? null : decimal(given);
  const trouble =
    textTrouble('name', name) ??
    (more.length > 0
      ? { what: said`It has more than one position.`, mend: said`Mark the site with one point.` }
      : null) ??
    numberTrouble('latitude', position.lat) ??
    numberTrouble('longitude', position.lon) ??
    (depthM === null ? null : numberTrouble('siteDepthM', depthM)) ??
    textTrouble('siteNotes', notes);
  if (trouble) return trouble;
  const isFromSea = childText(point, 'altitudeMode') === 'absolute';
  const suggestion = depthM === null && isFromSea ? suggestedBy(heightM ?? Number.NaN) : null;
  return { site: { name, depthM, ...(suggestion && { suggestion }), notes, position } };
}

function pointsIn(element: XmlElement): readonly XmlElement[] {
  return [
    ...childrenNamed(element, 'point'),
    ...childrenNamed(element, 'multigeometry').flatMap((each) => pointsIn(each)),
  ];
}

function isDepthNamed({ attributes }: XmlElement): boolean {
  return attributes['name']?.toLowerCase() === 'depth';
}

/** The value of the extended data that is called depth, typed or not; null where there is none. */
function depthTextOf(placemark: XmlElement): string | null {
  const extended = childrenNamed(placemark, 'extendeddata');
  const typed = extended.flatMap((each) => childrenNamed(each, 'schemadata'));
  const untyped = extended
    .flatMap((each) => childrenNamed(each, 'data'))
    .filter(isDepthNamed)
    .map((data) => childText(data, 'value'));
  const simple = typed
    .flatMap((each) => childrenNamed(each, 'simpledata'))
    .filter(isDepthNamed)
    .map((data) => data.text);
  return [...untyped, ...simple].find((text) => text.trim() !== '') ?? null;
}

/** An element of HTML begins or ends so. */
const TAG = /<\/?[a-z][^<>]{0,500}>/gi;
const BREAK = /<(?:br|\/p|\/div|\/tr|\/li)\b[^<>]{0,500}>/gi;

const REFERENCES: Readonly<Record<string, string>> = {
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&nbsp;': ' ',
  '&amp;': '&',
};

/** A description as text: earth viewers show it as HTML. One without a tag stands as it is. */
function plainText(description: string): string {
  const broken = description.replaceAll(BREAK, '\n');
  const bare = broken.replaceAll(TAG, '');
  if (bare === description) return description;
  return bare
    .replaceAll(/&(?:lt|gt|quot|nbsp|amp);/g, (reference) => REFERENCES[reference]!)
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .join('\n');
}
