import type * as z from 'zod/mini';
import { MOST_TROUBLES, type Trouble } from '../result';
import { fileWords, worded, type Words } from '../words/reader';
import { said } from '../words/said';
import { boundTroubles } from './bounds';
import { timeTroubles } from './dive-times';
import { bag, placeText, type Bag, type TripPath } from './place-in-trip';
import { isEnough, type Found } from './reference-parts';
import { referenceTroubles } from './references';
import { frameSchema, ITEM_SCHEMAS, TRIP_KEYS, TRIP_LISTS, type TripList } from './schema';
import { messageParts } from './schema-parts';
import type { Trip } from './types';

/** What the rules made of a document: the trip with its defaults, or every trouble. */
export type Judgement =
  | { readonly trip: Trip; readonly troubles: readonly [] }
  | { readonly trip: null; readonly troubles: readonly [Trouble<'invalid'>, ...Trouble<'invalid'>[]] };

function trouble(document: unknown, found: Found, words: Words): Trouble<'invalid'> {
  return { kind: 'invalid', where: placeText(document, found.path), ...worded(found, words) };
}

/** In words, so many of them; beyond that a file has one cause for most. */
function troubles(document: unknown, found: readonly Found[], words: Words): readonly Trouble<'invalid'>[] {
  const told = found.slice(0, MOST_TROUBLES).map((each) => trouble(document, each, words));
  if (found.length <= MOST_TROUBLES) return told;
  const more: Found = {
    path: [],
    what: said`There is more to mend than these ${String(MOST_TROUBLES)}; the rest was not looked at.`,
    mend: said`Mend these first, or look for the program that wrote the file.`,
  };
  return [...told, trouble(document, more, words)];
}

function addShape(error: z.core.$ZodError, path: TripPath, found: Found[]): void {
  for (const { message, path: at } of error.issues) {
    found.push({ ...messageParts(message), path: [...path, ...(at as TripPath)] });
  }
}

/** Judged by themselves; null in place of an item that is not sound. */
type Judged = { readonly [Key in TripList]: readonly unknown[] | null };

interface Shape {
  /** null: something about the trip itself is wrong. */
  readonly frame: z.infer<typeof frameSchema> | null;
  readonly lists: Judged;
  readonly found: readonly Found[];
}

/** The place of what was found among the keys of a trip. */
function keyAt({ path }: Found): number {
  return TRIP_KEYS.indexOf(String(path[0]));
}

/** Judges shape and range, item by item, until there is enough to tell. */
function shapeOf(document: Bag): Shape {
  const found: Found[] = [];
  const parsed = frameSchema.safeParse(document);
  if (!parsed.success) addShape(parsed.error, [], found);
  const lists = Object.fromEntries(TRIP_LISTS.map((key) => [key, judgedItems(document, key, found)]));
  return {
    frame: parsed.success ? parsed.data : null,
    lists: lists as unknown as Judged,
    found: found.toSorted((one, other) => keyAt(one) - keyAt(other)),
  };
}

function judgedItems(document: Bag, key: TripList, found: Found[]): readonly unknown[] | null {
  const list = document[key];
  if (!Array.isArray(list)) return null;
  return list.map((item: unknown, index) => {
    if (isEnough(found)) return null;
    const parsed = ITEM_SCHEMAS[key].safeParse(item);
    if (parsed.success) return parsed.data;
    addShape(parsed.error, [key, index], found);
    return null;
  });
}

function holes(list: readonly unknown[]): ReadonlySet<number> {
  return new Set(list.flatMap((item, index) => (item === null ? [index] : [])));
}

/** Times of what is sound in a broken document, so that its other mistakes do not hide theirs. */
function timesAmongTheSound(document: Bag, { lists, found }: Shape): readonly Found[] {
  const { dives, party } = lists;
  const water = frameSchema.shape.water.safeParse(document['water'] ?? {});
  const settings = frameSchema.shape.settings.safeParse(document['settings'] ?? {});
  // Without water, rates or a list there is no time under water to judge; what is missing is told already.
  if (!water.success || !settings.success || dives === null || party === null) return [];
  if (found.some(({ path }) => path.length === 1 && (path[0] === 'dives' || path[0] === 'party'))) return [];
  const isFlightBroken = found.some(({ path }) => path[0] === 'flight');
  const trip = {
    ...document,
    water: water.data,
    settings: settings.data,
    // Holes are never looked into: their positions stand in `unsound`.
    party,
    dives,
  } as unknown as Trip;
  return timeTroubles({
    trip,
    unsound: { dives: holes(dives), divers: holes(party), flight: isFlightBroken },
  });
}

/**
 * Judges a document of version 3 by every rule at once.
 * @param document any JSON object @param words of whoever reads the troubles
 * @returns the trip with defaults filled in and unknown keys kept, or what is wrong with it: lists that are too
 *   long by themselves, as nothing in them is looked at; else first troubles of shape and range, then
 *   references, then times. After a hundred a last one says that there are more
 * Source: the trip file of this project, version 3.
 */
export function judgeTrip(document: Bag, words: Words = fileWords): Judgement {
  const bounds = boundTroubles(document);
  if (bounds.length > 0) return refused(document, bounds, words);
  const shape = shapeOf(document);
  if (isEnough(shape.found)) return refused(document, shape.found, words);
  const trip =
    shape.frame !== null && shape.found.length === 0
      ? ({ ...shape.frame, ...shape.lists } as unknown as Trip)
      : null;
  const times = trip === null ? timesAmongTheSound(document, shape) : timeTroubles({ trip, unsound: null });
  const found = [...shape.found, ...referenceTroubles(document), ...times];
  if (trip !== null && found.length === 0) return { trip, troubles: [] };
  return refused(document, found, words);
}

function refused(document: Bag, found: readonly Found[], words: Words): Judgement {
  return { trip: null, troubles: troubles(document, found, words) as [Trouble<'invalid'>] };
}

/** Parts of trips that passed before: an edit makes new objects of what it changes, and of nothing else. */
const passed = new WeakSet<object>();

/** Whether all that is new in a trip has the shape it must have. */
function isShaped(document: Bag, trip: Trip): boolean {
  if (!frameSchema.safeParse(document).success) return false;
  return TRIP_LISTS.every((key) =>
    trip[key].every((item) => passed.has(item) || ITEM_SCHEMAS[key].safeParse(item).success),
  );
}

/**
 * Judges a trip in memory by the rules of a file, so that an edit is refused where a file would be.
 * @param trip the document after the edit @param words of whoever made it
 * @returns what is wrong; empty where it may stand
 * Source: as `judgeTrip`.
 */
export function checkTrip(trip: Trip, words: Words = fileWords): readonly Trouble<'invalid'>[] {
  const document = bag(trip);
  if (boundTroubles(document).length > 0 || !isShaped(document, trip))
    return judgeTrip(document, words).troubles;
  for (const key of TRIP_LISTS) for (const item of trip[key]) passed.add(item);
  // The trip itself rather than the parsed copy: what is known of its dives is kept by identity.
  const found = [...referenceTroubles(document), ...timeTroubles({ trip, unsound: null })];
  return troubles(document, found, words);
}
