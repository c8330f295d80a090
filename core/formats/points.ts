/** Points of a chart as XML has them, on their way to sites: what waypoints and placemarks share. */
import type { Trouble } from '../result';
import { capital, worded, type Words } from '../words/reader';
import type { SaidTrouble } from '../words/said';
import { numberTrouble } from '../document/fields';
import { LIST_RULES } from '../document/schema';
import { excerpt } from '../document/texts';
import {
  textTooLarge,
  type DepthSuggestion,
  type SiteDraft,
  type SiteReading,
  type SiteTroubleKind,
} from './site-draft';
import { readXml, type XmlElement } from './xml';

/** A format that has points. */
export interface PointFormat {
  /** The name of its outermost element. */
  readonly root: string;
  readonly format: string;
  readonly points: (root: XmlElement) => readonly XmlElement[];
  /** What it calls a point. */
  readonly noun: string;
  /** What is told where there is none, and what to do then. */
  readonly none: string;
  readonly mend: string;
  /** What to do with a file that cannot be read. */
  readonly again: string;
  /** @param unnamed what a point is called that has no name */
  readonly siteOf: (point: XmlElement, unnamed: string) => { readonly site: SiteDraft } | SaidTrouble;
}

function failed(kind: SiteTroubleKind, what: string, where: string, mend: string): SiteReading {
  return { sites: [], troubles: [{ kind, what, where, mend }] };
}

/**
 * Sites from the points of a document.
 * @param text the document @param format what it is @param words of whoever reads the troubles
 * @returns the points that can be sites, and a trouble for each that cannot
 * Source: as the format has it.
 */
export function readPoints(text: string, format: PointFormat, words: Words): SiteReading {
  const tooLarge = textTooLarge(text);
  if (tooLarge) return tooLarge;
  const xml = readXml(text);
  if (!xml.ok) return failed('not-readable', xml.what, `line ${xml.line}`, format.again);
  const { noun, mend } = format;
  if (localName(xml.root.name) !== format.root) {
    const what = `The file is XML, but not ${format.format}: it begins with <${excerpt(xml.root.name)}>.`;
    return failed('not-readable', what, '', mend);
  }
  const points = format.points(xml.root);
  if (points.length === 0) return failed('no-sites', format.none, '', mend);
  if (points.length > LIST_RULES.sites.max) {
    const what = `There are ${points.length} ${noun}s; a trip holds ${LIST_RULES.sites.max} sites.`;
    return failed('too-many', what, '', `Save the ${noun}s of this trip alone.`);
  }
  const sites: SiteDraft[] = [];
  const troubles: Trouble<SiteTroubleKind>[] = [];
  points.forEach((point, index) => {
    const number = `${noun} ${index + 1}`;
    const read = format.siteOf(point, `${capital(noun)} ${index + 1}`);
    if ('site' in read) sites.push(read.site);
    else {
      const name = childText(point, 'name');
      const where = name === '' ? number : `${number} ("${excerpt(name)}")`;
      troubles.push({ kind: 'row', where, ...worded(read, words) });
    }
  });
  return { sites, troubles };
}

/** Names are compared without their prefix: it is the file's own choice. */
export function localName(name: string): string {
  return name.slice(name.indexOf(':') + 1);
}

/** What stands in the first child of a name; empty where there is none. */
export function childText(element: XmlElement, name: string): string {
  return element.children.find((child) => localName(child.name) === name)?.text ?? '';
}

/** The children of a name, however it is capitalised. @param name in small letters */
export function childrenNamed(element: XmlElement, name: string): readonly XmlElement[] {
  return element.children.filter((child) => localName(child.name).toLowerCase() === name);
}

/** A decimal as XML Schema writes it; anything else is no number rather than half of one. */
export function decimal(text: string | undefined): number {
  const plain = text?.trim() ?? '';
  return /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)$/.test(plain) ? Number(plain) : Number.NaN;
}

/** Whether a site may be that deep. */
export function isDepth(m: number): boolean {
  return numberTrouble('siteDepthM', m) === null;
}

/** What a height lets guess of a depth, metres above the sea; nothing from above it. Its digits past the tenth say nothing. */
export function suggestedBy(heightM: number): DepthSuggestion | null {
  const depthM = Math.ceil(-10 * heightM) / 10;
  return isDepth(depthM) ? { from: 'elevation', depthM } : null;
}
