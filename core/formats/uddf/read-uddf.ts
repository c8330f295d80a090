/** Reading dives from UDDF, the Universal Dive Data Format. */
import { worded, fileWords, type Words } from '../../words/reader';
import { numberTrouble } from '../../document/fields';
import { excerpt } from '../../document/texts';
import { deepestOf, leavesBottomMin } from '../../profile';
import type { Trouble } from '../../result';
import { wallMinIfReal, type WallTime } from '../../words/calendar';
import {
  MOST_DIVES,
  nothingRead,
  recordTooLarge,
  soundSamples,
  type RawSample,
  type RecordedDive,
  type RecordedReading,
  type RecordedTroubleKind,
} from '../recorded/recorded-dive';
import { readXml, type XmlElement } from '../xml';

const PASCAL_PER_BAR = 100_000;

/** Tank pressures outside are in another unit, most often bar. Source: UDDF 3.2, units; bounds of this project. */
const TANK_PA = { least: 10_000, most: 50_000_000 } as const;

/** More argon than this is no air. Source: choice of this project; dry air has 0.0093. */
const MOST_ARGON = 0.01;

/** So many waypoints of one dive are read. */
const MOST_WAYPOINTS = 200_000;

const SAVE_AS_UDDF = 'Save the dives as UDDF 3.2 and choose that file.';

interface Waypoint extends RawSample {
  /** What is breathed from here on, by the id of a mix; empty: as before. */
  readonly mix: string;
  readonly tankPa: number | null;
  readonly isLoop: boolean;
}

/** A dive and the waypoints that stood in it. */
interface DiveElement {
  readonly element: XmlElement;
  readonly waypoints: readonly Waypoint[];
}

/** Names are compared without their prefix: it is the file's own choice, and old files have no namespace. */
function localName(name: string): string {
  return name.slice(name.indexOf(':') + 1);
}

function childNamed(element: XmlElement | undefined, name: string): XmlElement | undefined {
  return element?.children.find((child) => localName(child.name) === name);
}

function childrenNamed(element: XmlElement | undefined, name: string): readonly XmlElement[] {
  return element?.children.filter((child) => localName(child.name) === name) ?? [];
}

function textOf(element: XmlElement | undefined, name: string): string {
  return childNamed(element, name)?.text ?? '';
}

/** A number as XML Schema writes it, but neither NaN nor INF: anything else is no number rather than half of one. */
function numberOf(text: string): number {
  return /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,3})?$/.test(text) ? Number(text) : Number.NaN;
}

function waypointOf(element: XmlElement): Waypoint {
  const tank = textOf(element, 'tankpressure');
  const mode = childNamed(element, 'divemode')?.attributes['type'] ?? '';
  return {
    min: numberOf(textOf(element, 'divetime')) / 60,
    depthM: numberOf(textOf(element, 'depth')),
    line: element.line,
    mix: childNamed(element, 'switchmix')?.attributes['ref'] ?? '',
    tankPa: tank === '' ? null : numberOf(tank),
    isLoop: /closedcircuit$/i.test(mode),
  };
}

/** A mix as the file defines it, or why it is none that can be reckoned with. */
type FileMix =
  | { readonly o2: number }
  | { readonly what: string; readonly where: string; readonly mend: string };

function fraction(mix: XmlElement, name: string, otherwise: number): number {
  const text = textOf(mix, name);
  return text === '' ? otherwise : numberOf(text);
}

function mixOf(mix: XmlElement): FileMix {
  const where = `line ${mix.line}`;
  const name = excerpt(textOf(mix, 'name') || (mix.attributes['id'] ?? ''));
  const o2 = fraction(mix, 'o2', 0.21);
  if (o2 > 1) {
    return {
      what: `The mix "${name}" has an oxygen fraction of ${o2}: UDDF has fractions from 0 to 1.`,
      where,
      mend: 'Where it is a percentage, divide it by 100 in the file.',
    };
  }
  const others = [fraction(mix, 'he', 0), fraction(mix, 'h2', 0), fraction(mix, 'ar', 0) - MOST_ARGON];
  if (others.some((share) => !(share <= 0))) {
    return {
      what: `The mix "${name}" has more in it than oxygen and nitrogen.`,
      where,
      mend: 'Such a dive cannot be calculated here; log its depth and time by hand where that is careful enough.',
    };
  }
  const trouble = numberTrouble('o2', o2);
  return trouble ? { ...worded(trouble, fileWords), where } : { o2 };
}

const DATE_TIME =
  /^(\d{4})-?(\d\d)-?(\d\d)[T ]?(\d\d):?(\d\d)(?::?\d\d(?:[.,]\d{1,9})?)?\s?(Z|[+-]\d\d(?::?\d\d)?)?$/;

/** The moment of a dive as the file's wall clock has it; null where there is none. */
export function fileTime(text: string): { readonly startsAt: WallTime; readonly zone: string } | null {
  const match = DATE_TIME.exec(text.trim());
  if (match === null) return null;
  const [, year, month, day, hour, minute, zone] = match;
  const startsAt = `${year}-${month}-${day}T${hour}:${minute}`;
  return wallMinIfReal(startsAt) === null ? null : { startsAt, zone: zone ?? '' };
}

/** What the whole file says that its dives refer to. */
interface FileFrame {
  readonly diver: string;
  readonly sites: ReadonlyMap<string, string>;
  readonly mixes: ReadonlyMap<string, FileMix>;
}

function byId<T>(elements: readonly XmlElement[], made: (element: XmlElement) => T): ReadonlyMap<string, T> {
  return new Map(elements.map((element) => [element.attributes['id'] ?? '', made(element)]));
}

function frameOf(root: XmlElement): FileFrame {
  const personal = childNamed(childNamed(childNamed(root, 'diver'), 'owner'), 'personal');
  const diver = `${textOf(personal, 'firstname')} ${textOf(personal, 'lastname')}`.trim();
  const sites = childrenNamed(childNamed(root, 'divesite'), 'site');
  const mixes = childrenNamed(childNamed(root, 'gasdefinitions'), 'mix');
  return { diver, sites: byId(sites, (site) => textOf(site, 'name')), mixes: byId(mixes, mixOf) };
}

/** What was breathed: the one mix of all waypoints, else of the tanks. */
function oxygenOf(
  { element, waypoints }: DiveElement,
  { mixes }: FileFrame,
): { readonly o2: number | null; readonly remark: string | null } | Exclude<FileMix, { o2: number }> {
  const switched = waypoints.flatMap(({ mix }) => (mix === '' ? [] : [mix]));
  const linked = childrenNamed(element, 'tankdata').flatMap((tank) =>
    childrenNamed(tank, 'link').flatMap(({ attributes }) =>
      mixes.has(attributes['ref'] ?? '') ? [attributes['ref']!] : [],
    ),
  );
  const ids = new Set(switched.length > 0 ? switched : linked);
  const shares = new Set<number>();
  for (const id of ids) {
    const mix = mixes.get(id);
    if (mix === undefined) continue;
    if ('what' in mix) return mix;
    shares.add(mix.o2);
  }
  // Air is what a profile begins with that says nothing, and then changes.
  if (switched.length > 0 && waypoints[0]!.mix === '') shares.add(0.21);
  if (shares.size === 0) return { o2: null, remark: null };
  const [o2] = shares;
  if (shares.size === 1) return { o2: o2!, remark: null };
  return {
    o2: null,
    remark: 'It was made on more than one mix; the oxygen is not taken from it.',
  };
}

/** Pressure left, from the tank or the last waypoint that has one. */
function endOf({ element, waypoints }: DiveElement): {
  readonly endBar: number | null;
  readonly remark: string | null;
} {
  const tanks = childrenNamed(element, 'tankdata');
  if (tanks.length > 1) {
    return { endBar: null, remark: 'It has several tanks; no pressure left is taken from it.' };
  }
  const said = textOf(tanks[0], 'tankpressureend');
  const last = waypoints.findLast(({ tankPa }) => tankPa !== null)?.tankPa ?? null;
  const pascal = said === '' ? last : numberOf(said);
  if (pascal === null) return { endBar: null, remark: null };
  if (!(pascal === 0 || (pascal >= TANK_PA.least && pascal <= TANK_PA.most))) {
    return {
      endBar: null,
      remark: `The pressure left is given as ${pascal} Pa, which looks like bar; it is not taken.`,
    };
  }
  const endBar = pascal / PASCAL_PER_BAR;
  return numberTrouble('endBar', endBar) === null
    ? { endBar, remark: null }
    : { endBar: null, remark: `The pressure left of ${endBar} bar is out of range; it is not taken.` };
}

type Refusal = Omit<Trouble<RecordedTroubleKind>, 'kind'>;

function diveOf(
  found: DiveElement,
  frame: FileFrame,
  place: string,
  ascentMPerMin: number,
  words: Words,
): RecordedDive | Refusal {
  const { element, waypoints } = found;
  const at = (where: string): string => (where === '' ? place : `${place}, ${where}`);
  const before = childNamed(element, 'informationbeforedive');
  const when = textOf(before, 'datetime');
  const time = fileTime(when);
  if (time === null) {
    return {
      what: when === '' ? 'It has no date and time.' : `"${excerpt(when)}" is no date and time.`,
      where: at(`line ${(before ?? element).line}`),
      mend: 'Write the start as 2027-03-05T09:30:00.',
    };
  }
  if (waypoints.some(({ isLoop }) => isLoop)) {
    return {
      what: 'It was made on a loop: dives are brought in from files on open circuit alone.',
      where: at(`line ${element.line}`),
      mend: 'Leave this dive out, or plan it on the diver’s loop and log its depth and time by hand.',
    };
  }
  if (waypoints.length === 0) {
    return {
      what: 'It has no recorded samples; a planned profile is none.',
      where: at(`line ${element.line}`),
      mend: 'Log its depth and time by hand.',
    };
  }
  const oxygen = oxygenOf(found, frame);
  if ('what' in oxygen) return { ...oxygen, where: at(oxygen.where) };
  const sound = soundSamples(waypoints, ascentMPerMin, words);
  if ('what' in sound) return { what: sound.what, mend: sound.mend, where: at(sound.where) };
  const end = endOf(found);
  const links = childrenNamed(before, 'link').map(
    ({ attributes }) => frame.sites.get(attributes['ref'] ?? '') ?? '',
  );
  return {
    diver: frame.diver,
    site: links.find((name) => name !== '') ?? '',
    ...time,
    samples: sound.samples,
    depthM: deepestOf(sound.samples),
    bottomMin: leavesBottomMin(sound.samples),
    o2: oxygen.o2,
    endBar: end.endBar,
    where: place,
    remarks: [...sound.remarks, oxygen.remark, end.remark].filter((each) => each !== null),
  };
}

/**
 * Dives from a UDDF file, with their samples. Elements are matched by local name, so that files of 3.0 to 3.3 are read
 * with their namespace and without. What a planner wrote as a planned profile is none that was dived.
 * @param text the document @param ascentMPerMin at which a record that ends under water is brought up
 * @param words of whoever reads the troubles
 * @returns the dives that can be taken, and a trouble for each that cannot
 * Source: UDDF 3.2, documentation and schema 3.2.2 at streit.cc; what is refused beyond them is this project's own.
 */
export function readUddf(text: string, ascentMPerMin: number, words: Words = fileWords): RecordedReading {
  const tooLarge = recordTooLarge(text);
  if (tooLarge) return tooLarge;
  const dives: DiveElement[] = [];
  let samples: Waypoint[] = [];
  const overflow: number[] = [];
  const xml = readXml(text, (element, parents) => {
    const parent = localName(parents[parents.length - 1]!);
    switch (localName(element.name)) {
      case 'waypoint':
        if (parent === 'samples') {
          if (samples.length < MOST_WAYPOINTS) samples.push(waypointOf(element));
          else if (overflow.length === 0) overflow.push(element.line);
        }
        return true;
      case 'dive':
        if (parent !== 'repetitiongroup') return false;
        dives.push({ element, waypoints: samples });
        samples = [];
        return true;
      default:
        return false;
    }
  });
  if (!xml.ok) return nothingRead('not-readable', xml.what, `line ${xml.line}`, SAVE_AS_UDDF);
  if (localName(xml.root.name) !== 'uddf') {
    const what = `The file is XML, but not UDDF: it begins with <${excerpt(xml.root.name)}>.`;
    return nothingRead('not-readable', what, '', SAVE_AS_UDDF);
  }
  if (overflow.length > 0) {
    const what = `A dive has more than ${MOST_WAYPOINTS} samples.`;
    return nothingRead('too-large', what, `line ${overflow[0]}`, 'Save the dives with fewer samples.');
  }
  if (dives.length === 0) return nothingRead('no-dives', 'There is no dive in this file.', '', SAVE_AS_UDDF);
  if (dives.length > MOST_DIVES) {
    const what = `There are ${dives.length} dives; ${MOST_DIVES} are read of one file.`;
    return nothingRead('too-large', what, '', 'Save the dives of this trip alone.');
  }
  const frame = frameOf(xml.root);
  const read: RecordedDive[] = [];
  const troubles: Trouble<RecordedTroubleKind>[] = [];
  dives.forEach((found, index) => {
    const dive = diveOf(found, frame, `dive ${index + 1}`, ascentMPerMin, words);
    if ('samples' in dive) read.push(dive);
    else troubles.push({ kind: 'dive', ...dive });
  });
  return { dives: read, troubles };
}
