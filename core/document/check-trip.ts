import type { z } from 'zod';
import type { Trouble } from '../result';
import { fileWords, worded, type Words } from '../words/reader';
import { timeTroubles } from './dive-times';
import { bag, placeText, type Bag, type TripPath } from './place-in-trip';
import { referenceTroubles, type Found } from './references';
import {
  diverSchema,
  diveSchema,
  LIMITS,
  messageParts,
  settingsSchema,
  tripSchema,
  waterSchema,
} from './schema';
import type { Dive, Diver, Trip } from './types';

/** What the rules made of a document: the trip with its defaults, or every trouble. */
export type Judgement =
  | { readonly trip: Trip; readonly troubles: readonly [] }
  | { readonly trip: null; readonly troubles: readonly [Trouble<'invalid'>, ...Trouble<'invalid'>[]] };

function trouble(document: unknown, found: Found, words: Words): Trouble<'invalid'> {
  return { kind: 'invalid', where: placeText(document, found.path), ...worded(found, words) };
}

function shapeTroubles(error: z.ZodError): readonly Found[] {
  return error.issues.map((issue) => ({ ...messageParts(issue.message), path: issue.path as TripPath }));
}

/** The items of a list that are sound by themselves, with their defaults; null in place of the others. */
function soundItems<T>(list: unknown, schema: z.ZodType<T>): readonly (T | null)[] | null {
  if (!Array.isArray(list)) return null;
  return list.map((item) => {
    const parsed = schema.safeParse(item);
    return parsed.success ? parsed.data : null;
  });
}

function holes(list: readonly unknown[]): ReadonlySet<number> {
  return new Set(list.flatMap((item, index) => (item === null ? [index] : [])));
}

/** Times of what is sound in a broken document, so that its other mistakes do not hide theirs. */
function timesAmongTheSound(document: Bag, shape: readonly Found[]): readonly Found[] {
  const water = waterSchema.safeParse(document['water'] ?? {});
  const settings = settingsSchema.safeParse(document['settings'] ?? {});
  const dives = soundItems<Dive>(document['dives'], diveSchema);
  const party = soundItems<Diver>(document['party'], diverSchema);
  // Without water, rates or a list there is no time under water to judge; what is missing is told already.
  if (!water.success || !settings.success || dives === null || party === null) return [];
  if (shape.some(({ path }) => path.length === 1 && (path[0] === 'dives' || path[0] === 'party'))) return [];
  const isFlightBroken = shape.some(({ path }) => path[0] === 'flight');
  const trip = {
    ...document,
    water: water.data,
    settings: settings.data,
    // Holes are never looked into: their positions stand in `unsound`.
    party: party as readonly Diver[],
    dives: dives as readonly Dive[],
  } as unknown as Trip;
  return timeTroubles({
    trip,
    unsound: { dives: holes(dives), divers: holes(party), flight: isFlightBroken },
  });
}

/**
 * Judges a document of version 1 by every rule at once.
 * @param document any JSON object @param words of whoever reads the troubles
 * @returns the trip with defaults filled in and unknown keys kept, or every trouble: first those of shape
 *   and range, then references, then times
 * Source: the trip file of this project, version 1.
 */
export function judgeTrip(document: Bag, words: Words = fileWords): Judgement {
  const parsed = tripSchema.safeParse(document);
  const shape = parsed.success ? [] : shapeTroubles(parsed.error);
  const references = referenceTroubles(document);
  const times = parsed.success
    ? timeTroubles({ trip: parsed.data, unsound: null })
    : timesAmongTheSound(document, shape);
  const [first, ...rest] = [...shape, ...references, ...times].map((found) =>
    trouble(document, found, words),
  );
  if (first) return { trip: null, troubles: [first, ...rest] };
  return { trip: (parsed as { data: Trip }).data, troubles: [] };
}

/** Parts of trips that passed before: an edit makes new objects of what it changes, and of nothing else. */
const passed = new WeakSet<object>();

/** What is new of a list; its first stays, as a list without items is a fault of its own. */
function unknownOf<T extends object>(list: readonly T[]): readonly T[] {
  return list.filter((item, i) => i === 0 || !passed.has(item));
}

/**
 * Judges a trip in memory by the rules of a file, so that an edit is refused where a file would be.
 * @param trip the document after the edit @param words of whoever made it
 * @returns every trouble; empty where it may stand
 * Source: as `judgeTrip`.
 */
export function checkTrip(trip: Trip, words: Words = fileWords): readonly Trouble<'invalid'>[] {
  const document = bag(trip);
  const { dives, party, sites, mixes } = trip;
  const isTooLong = (['dives', 'party', 'sites', 'mixes'] as const).some(
    (list) => trip[list].length > LIMITS[list],
  );
  const parsed = tripSchema.safeParse({
    ...document,
    dives: unknownOf(dives),
    party: unknownOf(party),
    sites: unknownOf(sites),
    mixes: unknownOf(mixes),
  });
  if (isTooLong || !parsed.success) return judgeTrip(document, words).troubles;
  for (const item of [...dives, ...party, ...sites, ...mixes]) passed.add(item);
  // The trip itself rather than the parsed copy: what is known of its dives is kept by identity.
  return [...referenceTroubles(document), ...timeTroubles({ trip, unsound: null })].map((found) =>
    trouble(document, found, words),
  );
}
