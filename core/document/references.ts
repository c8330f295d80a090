import { either, said, typed } from '../words/said';
import { saysDived } from './as-dived';
import { bag, type Bag, type TripPath } from './place-in-trip';
import { loopsOfDiveTroubles, loopTroubles } from './loop-references';
import {
  diverCalled,
  inOrder,
  isEnough,
  items,
  reserveTroubles,
  unknownId,
  type Found,
} from './reference-parts';
import { recordTroubles } from './samples';
import { AUTO_MIX, DEFAULTS } from './schema';
import { excerpt } from './texts';

/** The texts among some values. */
function texts(values: readonly unknown[]): readonly string[] {
  return values.filter((value) => typeof value === 'string');
}

/** The ids of a list, doubled ones told; null where there is no list to look into. */
function idsOf(list: readonly Bag[] | null, path: TripPath, found: Found[]): ReadonlySet<string> | null {
  if (list === null) return null;
  const first = new Map<string, number>();
  list.forEach(({ id }, index) => {
    if (typeof id !== 'string') return;
    const earlier = first.get(id);
    if (earlier === undefined) first.set(id, index);
    else {
      found.push({
        path: [...path, index, 'id'],
        what: said`The id "${excerpt(id)}" is taken already by ${`${path[path.length - 1]}[${earlier}]`}.`,
        mend: said`Give each its own id.`,
      });
    }
  });
  return new Set(first.keys());
}

/** More left in a cylinder than it was filled with. */
function pressureTroubles(dive: Bag, party: readonly Bag[], path: TripPath, found: Found[]): void {
  const records = items(dive['asDived']) ?? [];
  const onDive = Array.isArray(dive['divers']) ? new Set(texts(dive['divers'])) : null;
  const ownRead = new Set(records.filter(({ endBar }) => endBar !== undefined).map(({ by }) => by));
  records.forEach(({ by, endBar }, index) => {
    if (typeof endBar !== 'number') return;
    const over = party.find(({ id, cylinder }) => {
      const isTheirs = by === undefined ? !ownRead.has(id) && onDive?.has(String(id)) !== false : by === id;
      const fillBar = bag(cylinder)['fillBar'];
      return isTheirs && typeof id === 'string' && typeof fillBar === 'number' && endBar > fillBar;
    });
    if (over === undefined) return;
    const fillBar = bag(over['cylinder'])['fillBar'] as number;
    found.push({
      path: [...path, 'asDived', index, 'endBar'],
      what: said`${typed('pressure', endBar, 'near')} are left, more than the fill of ${typed('pressure', fillBar, 'near')} of ${diverCalled(over['id'] as string)}.`,
      mend: said`Give what the gauge showed after the dive, or the fill the diver started with.`,
    });
  });
}

function asDivedTroubles(
  dive: Bag,
  divers: ReadonlySet<string> | null,
  path: TripPath,
  found: Found[],
): void {
  const onDive = Array.isArray(dive['divers']) ? new Set(texts(dive['divers'])) : divers;
  const seen = new Set<unknown>();
  items(dive['asDived'])?.forEach((record, index) => {
    const { by } = record;
    const at = [...path, 'asDived', index, 'by'];
    if (seen.has(by)) {
      found.push({
        path: at,
        what:
          typeof by === 'string'
            ? said`There are two records by ${diverCalled(by)}.`
            : said`There are two records for everybody.`,
        mend: said`Keep one record for each diver, and at most one without "by" for the others.`,
      });
    }
    seen.add(by);
    for (const { key, what, mend } of recordTroubles(record)) {
      found.push({ path: [...path, 'asDived', index, key], what, mend });
    }
    if (typeof by === 'string' && onDive !== null && divers?.has(by) === true && !onDive.has(by)) {
      found.push({
        path: at,
        what: said`${diverCalled(by)} is not on this dive, but has a record of it.`,
        mend: said`${either(
          said`Add the diver to "divers", or remove the record.`,
          said`Take back what was logged for them first.`,
        )}`,
      });
    } else unknownId('diver', by, divers, at, found);
  });
}

/** Who did not dive, against who is on the dive and has a record of it. */
function notDivedTroubles(
  dive: Bag,
  divers: ReadonlySet<string> | null,
  path: TripPath,
  found: Found[],
): void {
  const onDive = Array.isArray(dive['divers']) ? new Set(texts(dive['divers'])) : divers;
  const dived = new Set((items(dive['asDived']) ?? []).filter(saysDived).map(({ by }) => by));
  const seen = new Set<unknown>();
  items(dive['notDived'])?.forEach(({ by }, index) => {
    const at = [...path, 'notDived', index, 'by'];
    if (seen.has(by)) {
      found.push({
        path: at,
        what: said`It is said twice who did not dive it.`,
        mend: said`Name each diver once, and nobody at most once for all.`,
      });
    }
    seen.add(by);
    if (by === undefined ? dived.size > 0 : dived.has(by)) {
      found.push({
        path: at,
        what:
          typeof by === 'string'
            ? said`${diverCalled(by)} did not make this dive, but has a record of it.`
            : said`Nobody made this dive, but there is a record of it.`,
        mend: said`Keep one of the two.`,
      });
    } else if (typeof by === 'string' && onDive !== null && divers?.has(by) === true && !onDive.has(by)) {
      found.push({
        path: at,
        what: said`${diverCalled(by)} was not on this dive, so cannot have missed it.`,
        mend: said`${either(said`Add the diver to "divers", or remove the line.`, said`Put the diver on the dive first.`)}`,
      });
    } else unknownId('diver', by, divers, at, found);
  });
}

function diverTroubles(diver: Bag, path: TripPath, found: Found[]): void {
  const gradient = bag(diver['gradient']);
  if (!inOrder(gradient['low'] ?? DEFAULTS.gradientLow, gradient['high'] ?? DEFAULTS.gradientHigh)) {
    found.push({
      path: [...path, 'gradient'],
      what: said`The low gradient factor is above the high one.`,
      mend: said`Give a low one that is at most the high one, e.g. ${typed('share', 0.5)} and ${typed('share', 0.8)}.`,
    });
  }
  const po2 = bag(diver['po2']);
  if (!inOrder(po2['working'] ?? DEFAULTS.workingPo2, po2['contingency'] ?? DEFAULTS.contingencyPo2)) {
    found.push({
      path: [...path, 'po2'],
      what: said`The working PO2 is above the contingency PO2.`,
      mend: said`Give a working limit that is at most the contingency limit, e.g. ${typed('po2', 1.4)} and ${typed('po2', 1.6)}.`,
    });
  }
  let last = '';
  items(diver['rates'])?.forEach(({ from }, index) => {
    if (typeof from !== 'string') return;
    if (from <= last) {
      found.push({
        path: [...path, 'rates', index, 'from'],
        what: said`The gas rate from ${excerpt(from)} stands after one from ${excerpt(last)}.`,
        mend: said`Give each day one rate, in the order of the days.`,
      });
    }
    last = from;
  });
  reserveTroubles(diver['cylinder'], [...path, 'cylinder'], found);
}

/** One group enters at one time. */
function groupTroubles(party: readonly Bag[], found: Found[]): void {
  const first = new Map<string, unknown>();
  party.forEach((diver, index) => {
    const { name, afterMin = 0 } = bag(diver['group']);
    if (typeof name !== 'string') return;
    if (!first.has(name)) first.set(name, afterMin);
    else if (first.get(name) !== afterMin) {
      found.push({
        path: ['party', index, 'group', 'afterMin'],
        what: said`The group "${excerpt(name)}" enters at two times.`,
        mend: said`Give all of a group the same minutes after the start.`,
      });
    }
  });
}

/** A level below the site it belongs to. */
function levelTroubles(site: Bag, path: TripPath, found: Found[]): void {
  const { depthM } = site;
  if (typeof depthM !== 'number') return;
  items(site['levels'])?.forEach((level, index) => {
    const levelM = level['depthM'];
    if (typeof levelM !== 'number' || levelM <= depthM) return;
    found.push({
      path: [...path, 'levels', index, 'depthM'],
      what: said`The level at ${typed('depth', levelM, 'near')} is deeper than its site, ${typed('depth', depthM, 'near')}.`,
      mend: said`Give the site the depth of its deepest level, or raise the level.`,
    });
  });
}

/**
 * Judges what the schema cannot see: ids doubled or standing for nothing, and pairs of numbers that
 * contradict each other. Works on any JSON, so that the mistakes of a file are told together.
 * @param document the trip, or what should have been one
 * @returns every trouble found, in the order of the file
 * Source: the trip file of this project, version 3.
 */
export function referenceTroubles(document: Bag): readonly Found[] {
  const found: Found[] = [];
  const party = items(document['party']);
  const mixes = items(document['mixes']);
  const dives = items(document['dives']);
  // Of an empty party the schema has spoken; each name would only say it again.
  const divers = party?.length === 0 ? null : idsOf(party, ['party'], found);
  const stock = idsOf(mixes, ['mixes'], found);
  party?.forEach((diver, index) => {
    diverTroubles(diver, ['party', index], found);
    if (diver['loop'] !== undefined) loopTroubles(diver['loop'], stock, ['party', index, 'loop'], found);
  });
  groupTroubles(party ?? [], found);
  const siteList = items(document['sites']);
  const sites = idsOf(siteList, ['sites'], found);
  siteList?.forEach((site, index) => levelTroubles(site, ['sites', index], found));
  mixes?.forEach(({ id }, index) => {
    if (id !== AUTO_MIX) return;
    found.push({
      path: ['mixes', index, 'id'],
      what: said`"auto" stands for the choice of a mix and cannot be one.`,
      mend: said`Give the mix another id, e.g. "ean32".`,
    });
  });
  if (mixes?.length === 0 && dives !== null && dives.length > 0) {
    found.push({
      path: ['mixes'],
      what: said`There are dives, but nothing to breathe.`,
      mend: said`${either(
        said`Add a mix, e.g. air: { "id": "air", "o2": 0.21 }.`,
        said`Put a mix on board first.`,
      )}`,
    });
  }
  const mixesKnown = ({ mix, onBoard }: Bag, path: TripPath): void => {
    const ids = mixes?.length === 0 ? null : stock;
    if (mix !== AUTO_MIX) unknownId('mix', mix, ids, [...path, 'mix'], found);
    if (!Array.isArray(onBoard)) return;
    onBoard.forEach((each: unknown, at) => unknownId('mix', each, ids, [...path, 'onBoard', at], found));
  };
  party?.forEach((diver, index) => {
    if (isEnough(found)) return;
    const path = ['party', index, 'before'];
    const before = items(diver['before']);
    idsOf(before, path, found);
    before?.forEach((dive, at) => {
      unknownId('site', dive['siteId'], sites, [...path, at, 'siteId'], found);
      mixesKnown(dive, [...path, at]);
    });
  });
  idsOf(items(document['events']), ['events'], found);
  const days = new Map<string, number>();
  items(document['days'])?.forEach(({ date }, index) => {
    if (typeof date !== 'string') return;
    if (days.has(date)) {
      found.push({
        path: ['days', index, 'date'],
        what: said`The day ${excerpt(date)} is there twice.`,
        mend: said`Keep one of the two.`,
      });
    }
    days.set(date, index);
  });
  idsOf(dives, ['dives'], found);
  dives?.forEach((dive, index) => {
    if (isEnough(found)) return;
    const path = ['dives', index];
    unknownId('site', dive['siteId'], sites, [...path, 'siteId'], found);
    mixesKnown(dive, path);
    const seen = new Set<string>();
    if (Array.isArray(dive['divers'])) {
      dive['divers'].forEach((diver: unknown, at) => {
        if (typeof diver !== 'string') return;
        if (seen.has(diver))
          found.push({
            path: [...path, 'divers', at],
            what: said`${diverCalled(diver)} is listed twice.`,
            mend: said`Name each diver once.`,
          });
        seen.add(diver);
        unknownId('diver', diver, divers, [...path, 'divers', at], found);
      });
    }
    if (dive['asDived'] !== undefined) {
      asDivedTroubles(dive, divers, path, found);
      pressureTroubles(dive, party ?? [], path, found);
    }
    if (dive['notDived'] !== undefined) notDivedTroubles(dive, divers, path, found);
    if (dive['loops'] !== undefined) loopsOfDiveTroubles(dive, party ?? [], divers, stock, path, found);
  });
  return found;
}
