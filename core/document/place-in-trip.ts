import { excerpt } from './texts';

/** A place in a document: keys and list positions from the top. */
export type TripPath = readonly (string | number)[];

/** An object of which nothing is known yet. */
export type Bag = Readonly<Record<string, unknown>>;

/** An object as a bag of keys; anything else as an empty one. */
export function bag(value: unknown): Bag {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Bag) : {};
}

/** What the lists of a trip hold, for naming an item by its id. */
const ITEM_NAMES: Readonly<Record<string, string>> = {
  party: 'diver',
  sites: 'site',
  mixes: 'mix',
  dives: 'dive',
  events: 'event',
  before: 'earlier dive',
};

function idOf(value: unknown): string | null {
  const id = bag(value)['id'];
  if (typeof id !== 'string') return null;
  const short = excerpt(id);
  return short.trim() === '' ? null : short;
}

/**
 * A path a person can follow: `dives[8].depthM (dive "d9")`.
 * @param document the JSON the path leads into, as far as it goes @param path keys and positions
 * @returns text, the ids of the items passed on the way in brackets; empty for the whole document
 * Source: form laid down in the style guide of this project.
 */
export function placeText(document: unknown, path: TripPath): string {
  let text = '';
  let at: unknown = document;
  const names: string[] = [];
  let listKey = '';
  for (const step of path) {
    if (typeof step === 'number') {
      text += `[${step}]`;
      at = Array.isArray(at) ? (at[step] as unknown) : undefined;
      const id = idOf(at);
      const name = ITEM_NAMES[listKey];
      if (id !== null && name !== undefined) names.push(`${name} "${id}"`);
    } else {
      text += text === '' ? step : `.${step}`;
      at = bag(at)[step];
      listKey = step;
    }
  }
  return names.length === 0 ? text : `${text} (${names.join(', ')})`;
}
