import { said } from '../words/said';
import { bag, type Bag, type TripPath } from './place-in-trip';
import type { Found } from './reference-parts';
import { LIST_RULES, MOST_DIVES_TOGETHER, TRIP_LISTS } from './schema';
import { tooMany } from './schema-parts';

/** Lists of a dive, planned or brought to the trip. */
const LISTS_OF_DIVE = ['legs', 'onBoard', 'divers', 'loops', 'asDived', 'notDived'] as const;

/** The items of a list, or none: told where there are too many, and then not looked into. @param key of its rule */
function itemsWithin(
  holder: Bag,
  key: keyof typeof LIST_RULES,
  path: TripPath,
  found: Found[],
  name: string = key,
): readonly unknown[] {
  const value = holder[name];
  if (!Array.isArray(value)) return [];
  const rule = LIST_RULES[key];
  if (value.length <= rule.max) return value;
  found.push({ path: [...path, name], ...tooMany(rule, value.length) });
  return [];
}

function boundsOfDive(dive: Bag, path: TripPath, found: Found[]): void {
  for (const key of LISTS_OF_DIVE) itemsWithin(dive, key, path, found);
}

/**
 * Judges how long the lists of a document are, before anything is done with what is in them: so the work of
 * every other rule has an end, whatever the file. Works on any JSON.
 * @param document the trip, or what should have been one
 * @returns a trouble for each list that is too long, and one for more dives than are planned
 * Source: the lengths of `LIST_RULES`, this project's own.
 */
export function boundTroubles(document: Bag): readonly Found[] {
  const found: Found[] = [];
  const [party, sites, , dives] = TRIP_LISTS.map((key) => itemsWithin(document, key, [], found)) as [
    readonly unknown[],
    readonly unknown[],
    ...(readonly unknown[][]),
  ];
  itemsWithin(document, 'events', [], found);
  itemsWithin(document, 'days', [], found);
  sites.forEach((each, index) => {
    const site = bag(each);
    // The same list in another place: levels of a site are held to what levels of a dive are.
    itemsWithin(site, 'legs', ['sites', index], found, 'levels');
    itemsWithin(bag(site['notFor']), 'certifications', ['sites', index, 'notFor'], found);
  });
  let together = 0;
  party.forEach((each, index) => {
    const path = ['party', index];
    itemsWithin(bag(each), 'rates', path, found);
    itemsWithin(bag(bag(each)['loop']), 'bailOut', [...path, 'loop'], found);
    const before = itemsWithin(bag(each), 'before', path, found);
    together += before.length;
    before.forEach((dive, at) => boundsOfDive(bag(dive), [...path, 'before', at], found));
  });
  dives?.forEach((each, index) => {
    const dive = bag(each);
    boundsOfDive(dive, ['dives', index], found);
    together += Array.isArray(dive['divers']) ? dive['divers'].length : party.length;
  });
  if (found.length === 0 && together > MOST_DIVES_TOGETHER) {
    found.push({
      path: ['dives'],
      what: said`The divers make ${String(together)} dives together, those brought to the trip included; ${String(MOST_DIVES_TOGETHER)} are planned at most.`,
      mend: said`Split the trip by weeks or by boats, each in a file of its own.`,
    });
  }
  return found;
}
