import { assert } from '../result';
import { bag, type Bag } from './place-in-trip';

/** The version this code reads and writes. Source: the trip file of this project. */
export const CURRENT_VERSION = 3;

/**
 * A step upwards from one version of the file to the next, over unknown JSON: types of today would change
 * beneath it. Defaults a step needs are written into the step.
 */
export interface Migration {
  /** The version it makes. */
  readonly to: number;
  /** Number and purpose, `2-add-as-dived`. */
  readonly name: string;
  readonly up: (document: Bag) => Bag;
}

/** What version 1 could say in a record of what was dived, beside whom it is of. */
const OVERRIDES_OF_1 = ['startsAt', 'depthM', 'bottomMin', 'o2'] as const;

/**
 * In version 2 a record without overrides says that the dive was made as planned. In version 1 it said nothing, and
 * nobody may be taken to have dived because of it.
 */
const emptyRecordsOut: Migration = {
  to: 2,
  name: '2-empty-records-out',
  up: (document) => {
    const dives = document['dives'];
    if (!Array.isArray(dives)) return document;
    return { ...document, dives: dives.map(withoutEmptyRecords) };
  },
};

function withoutEmptyRecords(dive: unknown): unknown {
  const { asDived, ...rest } = bag(dive);
  if (!Array.isArray(asDived)) return dive;
  // What is no record at all stays for the schema to tell.
  const records = asDived.filter((record: unknown) => {
    const isRecord = typeof record === 'object' && record !== null && !Array.isArray(record);
    return !isRecord || OVERRIDES_OF_1.some((key) => key in record);
  });
  return records.length === 0 && asDived.length > 0 ? rest : { ...rest, asDived: records };
}

/**
 * Version 3 adds fields that an older program would keep without heeding them, and so reckon another dive than is
 * meant. What version 2 said means the same.
 */
const loopsAndHeights: Migration = { to: 3, name: '3-loops-and-heights', up: (document) => document };

/** Every step there is, in order. */
export const MIGRATIONS: readonly Migration[] = [emptyRecordsOut, loopsAndHeights];

/**
 * Holds a list of steps to its form: from version 2 to the current one, without gaps, named by number.
 * @throws our fault where it has none of that
 * Source: form laid down in the style guide of this project.
 */
export function assertNoGaps(migrations: readonly Migration[], currentVersion: number): void {
  assert(
    migrations.length === currentVersion - 1,
    `version ${currentVersion} of the trip file needs ${currentVersion - 1} migrations, there are ${migrations.length}`,
  );
  migrations.forEach(({ to, name }, index) => {
    assert(to === index + 2, `migration "${name}" makes version ${to} where ${index + 2} is due`);
    assert(name.startsWith(`${to}-`), `migration "${name}" is not named after version ${to}`);
  });
}

assertNoGaps(MIGRATIONS, CURRENT_VERSION);

/**
 * Brings a document up to the current version.
 * @param document as read @param from its version, 1 to the current one
 * @param migrations the steps; all there are unless a test brings its own
 * @returns the document of the current version, or the name of the step that failed
 * Source: the trip file of this project.
 */
export function migrated(
  document: Bag,
  from: number,
  migrations: readonly Migration[] = MIGRATIONS,
): { readonly document: Bag } | { readonly failed: string } {
  let current = document;
  for (const migration of migrations) {
    if (migration.to <= from) continue;
    try {
      current = { ...migration.up(current), version: migration.to };
    } catch {
      return { failed: migration.name };
    }
  }
  return { document: current };
}
