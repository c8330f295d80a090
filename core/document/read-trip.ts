import { failure, failures, success, type Result } from '../result';
import { rounded } from '../words/quantity';
import { fileWords } from '../words/reader';
import { said } from '../words/said';
import { judgeTrip } from './check-trip';
import { shown } from './fields';
import { doubledKey, jsonBreak, jsonBuild, keysOf } from './json-place';
import { CURRENT_VERSION, migrated } from './migrations';
import { bag } from './place-in-trip';
import { excerpt } from './texts';
import type { Trip } from './types';

export type ReadTroubleKind =
  | 'too-large'
  | 'not-json'
  | 'not-a-trip'
  | 'newer-version'
  | 'migration-failed'
  | 'invalid';

/** Largest file that is read, in characters (and for whoever opens it, in bytes): a hundred times any trip. */
export const LARGEST_FILE = 5_000_000;

/** Keys of one object; a dive has thirteen, and what is not known travels along. */
const MOST_KEYS = 1000;

/** Brackets that may be open at once; a trip needs six. */
const DEEPEST_NESTING = 100;

/** What a file that is too large is told, here and by whoever saw its size before reading it. */
export function tooLarge(size: number): ReturnType<typeof failure<ReadTroubleKind>> {
  return failure<ReadTroubleKind>({
    kind: 'too-large',
    what: `The file has ${rounded(size / 1e6, 1, 'up')} MB; a trip can have ${LARGEST_FILE / 1e6} MB.`,
    where: '',
    mend: 'Check that it is a trip file, or shorten its notes.',
  });
}

function notJson(text: string): Result<Trip, ReadTroubleKind> {
  const place = jsonBreak(text);
  if (text.trim() === '') {
    return failure<ReadTroubleKind>({
      kind: 'not-json',
      what: 'The file is empty.',
      where: '',
      mend: 'Choose a trip file, or save the trip again.',
    });
  }
  const isWordForNumber = place !== null && /^-?(NaN|Infinity)/.test(place.found);
  return failure<ReadTroubleKind>({
    kind: 'not-json',
    what:
      place === null || place.found === ''
        ? 'The file is not JSON: it ends too early.'
        : `The file is not JSON: ${JSON.stringify(place.found)} does not belong there.`,
    where: place === null ? '' : `line ${place.line}, column ${place.column}`,
    mend: isWordForNumber
      ? 'JSON knows only finite numbers: write one.'
      : 'Mend that place in a text editor (a comma, quotation mark or bracket often lacks just before it).',
  });
}

/**
 * Reads a trip file: JSON, format and version, migrations, then every rule at once.
 * @param text the whole file; a byte-order mark at its start is passed over
 * @returns the trip, its defaults filled in and unknown keys kept (all but "__proto__", which would reach
 *   into the language), or every trouble found; never half of each. A trip without dives is one: it can be opened and filled.
 * Source: the trip file of this project, version 3; RFC 8259.
 */
export function readTrip(text: string): Result<Trip, ReadTroubleKind> {
  if (text.length > LARGEST_FILE) return tooLarge(text.length);
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text;
  // Before anything is made of it: brackets by the million take longer to refuse than to count.
  const { deepest, keys } = jsonBuild(body);
  if (deepest > DEEPEST_NESTING) {
    return failure<ReadTroubleKind>({
      kind: 'invalid',
      what: `Brackets are nested deeper than ${DEEPEST_NESTING}.`,
      where: '',
      mend: 'Take out what does not belong to the trip.',
    });
  }
  let json: unknown;
  try {
    json = JSON.parse(body);
  } catch {
    return notJson(body);
  }
  const document = bag(json);
  if (document['format'] !== 'carryover/trip') {
    return failure<ReadTroubleKind>({
      kind: 'not-a-trip',
      what:
        document['format'] === 'carryover/ledger'
          ? 'This is a ledger that was computed from a trip, not a trip.'
          : 'This is JSON, but not a trip.',
      where: 'format',
      mend: 'A trip file says "format": "carryover/trip".',
    });
  }
  const { version } = document;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    return failure<ReadTroubleKind>({
      kind: 'invalid',
      what: fileWords(said`Version is ${shown(version)}.`),
      where: 'version',
      mend: `Write the version the file was made in; the newest is ${CURRENT_VERSION}.`,
    });
  }
  if (version > CURRENT_VERSION) {
    return failure<ReadTroubleKind>({
      kind: 'newer-version',
      what: `The file is version ${version}; this Carryover reads up to version ${CURRENT_VERSION}.`,
      where: 'version',
      mend: 'Open it with a newer Carryover. The file was not touched.',
    });
  }
  const { count, most } = keysOf(json);
  if (most.length > MOST_KEYS) {
    return failure<ReadTroubleKind>({
      kind: 'invalid',
      what: `The object that begins with the key "${excerpt(most[0]!)}" has ${most.length} keys; there can be ${MOST_KEYS}.`,
      where: '',
      mend: 'Take out what does not belong to the trip.',
    });
  }
  // Which key it is takes ten times the counting, and is asked of a file in which one is.
  const doubled = count === keys ? null : doubledKey(body);
  if (doubled !== null) {
    return failure<ReadTroubleKind>({
      kind: 'invalid',
      what: `The key "${excerpt(doubled.key)}" stands twice in one object, so which value holds is unknown.`,
      where: `line ${doubled.place.line}, column ${doubled.place.column}`,
      mend: 'Keep one of the two.',
    });
  }
  const step = migrated(document, version);
  if ('failed' in step) {
    return failure<ReadTroubleKind>({
      kind: 'migration-failed',
      what: `The file of version ${version} could not be brought up to date (step ${step.failed}).`,
      where: '',
      mend: 'Open it with the Carryover that wrote it and save it there again. The file was not touched.',
    });
  }
  const { trip, troubles } = judgeTrip(step.document);
  return trip === null ? failures<ReadTroubleKind>(troubles) : success(trip);
}
