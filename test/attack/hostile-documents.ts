import { LARGEST_FILE, readTrip } from '../../core/document/read-trip';
import { peekTrip } from '../../core/library';
import { bigTrip } from '../bench/big-trip';
import { tenDives, type Loose } from '../support/trip-documents';
import { hostileAttack, type Hostile } from './hostile';

function listOf<T>(count: number, itemOf: (index: number) => T): readonly T[] {
  return Array.from({ length: Math.max(1, Math.floor(count)) }, (_, index) => itemOf(index));
}

/** A trip with one thing spoilt until it is as long as asked. */
function spoilt(
  what: string,
  perItem: number,
  spoil: (trip: Loose, count: number) => void,
  isBounded = false,
): Hostile {
  return {
    what,
    isBounded,
    textOf: (length) => {
      const trip = tenDives();
      spoil(trip, length / perItem);
      return JSON.stringify(trip);
    },
  };
}

/** A text that begins as a trip does and goes on with whatever it is filled with. */
function filled(what: string, head: string, fill: string, tail = ''): Hostile {
  return { what, textOf: (length) => head + fill.repeat(Math.floor(length / fill.length)) + tail };
}

const START = '{"format": "carryover/trip", "version": 1, "x": ';

/** As wrong as lists within their bounds can be: every level, diver and mix of every dive. */
function wrongWithin(trip: Loose, count: number): void {
  const many = listOf(60, () => 0);
  const dive = { legs: listOf(20, () => 0), onBoard: many, divers: listOf(5, () => 0), asDived: many };
  trip.dives = listOf(Math.min(300, count), () => dive);
  trip.party = listOf(Math.min(60, count / 20), () => ({ before: listOf(20, () => dive) }));
}

/** Dives of which every diver made something of their own, all of them into the next one. */
function clashing(trip: Loose, count: number): void {
  trip.party = listOf(60, (i) => ({ ...trip.party[0], id: `p${i}`, name: `${'Guest '.repeat(12)}${i}` }));
  trip.dives = listOf(Math.min(50, count), (i) => ({
    ...trip.dives[0],
    id: `d${i}`,
    legs: listOf(20, (level) => ({ depthM: 30 - level, min: 30 })),
    depthM: 30,
    bottomMin: 600,
    asDived: trip.party.map(({ id }: Loose, at: number) => ({ by: id, bottomMin: 100 + i + at / 100 })),
  }));
}

export const HOSTILE_DOCUMENTS: readonly Hostile[] = [
  spoilt('dives', 110, (trip, count) => {
    trip.dives = listOf(count, (i) => ({ ...trip.dives[0], id: `d${i}`, siteId: `x${i}` }));
  }),
  spoilt('sites that no dive knows', 40, (trip, count) => {
    trip.sites = listOf(count, (i) => ({ id: `s${i}`, name: 'n', depthM: 20 }));
    for (const dive of trip.dives) dive.siteId = 'elsewhere';
  }),
  spoilt('zeros for divers', 2, (trip, count) => (trip.party = listOf(count, () => 0))),
  spoilt('zeros for sites', 2, (trip, count) => (trip.sites = listOf(count, () => 0))),
  spoilt('zeros for dives', 2, (trip, count) => (trip.dives = listOf(count, () => 0))),
  spoilt('zeros for earlier dives', 2, (trip, count) => (trip.party[0].before = listOf(count, () => 0))),
  spoilt('levels of a dive', 24, (trip, count) => {
    trip.dives[0].legs = listOf(count, () => ({ depthM: 20, min: 1 }));
    delete trip.dives[0].depthM;
  }),
  spoilt('divers of a dive', 11, (trip, count) => (trip.dives[0].divers = listOf(count, (i) => `p${i}`))),
  spoilt('mixes on board', 11, (trip, count) => (trip.dives[0].onBoard = listOf(count, (i) => `m${i}`))),
  spoilt('records of a dive', 18, (trip, count) => {
    trip.dives[0].asDived = listOf(count, (i) => ({ by: `p${i}` }));
  }),
  spoilt('mistakes within the bounds', 16_000, wrongWithin, true),
  spoilt('dives that all run into the next', 100_000, clashing, true),
  spoilt(
    'the same mistake in every dive',
    5000,
    (trip, count) => {
      const dive = { ...trip.dives[0], siteId: 'x'.repeat(4000), mix: 'y'.repeat(900) };
      trip.dives = listOf(Math.min(400, count), (i) => ({ ...dive, id: `d${i}` }));
    },
    true,
  ),
  spoilt('who missed a dive', 18, (trip, count) => {
    trip.dives[0].notDived = listOf(count, (i) => ({ by: `p${i}` }));
  }),
  spoilt('days', 36, (trip, count) => {
    trip.days = listOf(count, () => ({ date: '2027-03-06', notes: 'x' }));
  }),
  spoilt('gas rates of a diver', 44, (trip, count) => {
    trip.party[0].rates = listOf(count, () => ({ from: '2027-03-06', surfaceRateLpm: 15 }));
  }),
  spoilt('levels of a site', 24, (trip, count) => {
    trip.sites[0].levels = listOf(count, () => ({ depthM: 20, min: 1 }));
  }),
  spoilt('certifications that a site is not for', 4, (trip, count) => {
    trip.sites[0].notFor = { certifications: listOf(count, () => 'x') };
  }),
  spoilt('keys that nobody knows, of the trip', 12, (trip, count) => {
    for (const key of listOf(count, (i) => `k${i}`)) trip[key] = 0;
  }),
  spoilt('keys that nobody knows, of sites', 12, (trip, count) => {
    trip.sites = listOf(Math.min(500, count / 800), (i) => ({
      ...Object.fromEntries(listOf(800, (k) => [`k${k}`, 0])),
      id: `s${i}`,
      name: 'n',
      depthM: 20,
    }));
    for (const dive of trip.dives) dive.siteId = 's0';
  }),
  spoilt('objects that nobody knows', 8, (trip, count) => (trip.x = listOf(count, () => ({ a: 0 })))),
  spoilt('zeros that nobody knows', 2, (trip, count) => (trip.x = listOf(count, () => 0))),
  spoilt('a long title', 1, (trip, count) => (trip.title = 'x'.repeat(count))),
  spoilt('a title of blanks', 1, (trip, count) => (trip.title = ' '.repeat(count))),
  spoilt('long ids', 22, (trip, count) => {
    for (const dive of trip.dives) dive.id = dive.siteId = ' '.repeat(count);
  }),
  spoilt('a number of many digits as text', 1, (trip, count) => (trip.dives[0].depthM = '1'.repeat(count))),
  spoilt('a time of many digits', 1, (trip, count) => (trip.dives[0].startsAt = '2'.repeat(count))),
  filled('notes of escapes', `${START}"`, '\\u0041', '"}'),
  filled('backslashes', `${START}"`, '\\\\', '"}'),
  filled('a text without an end', `${START}"`, 'a'),
  filled('a number of many digits', START, '1', '}'),
  filled('a number with a long exponent', `${START}1e`, '1', '}'),
  filled('brackets that open', START, '['),
  filled('brackets that close again', `${START}[0`, ',[]', ']}'),
  filled('objects in objects', START, '{"a":'),
  filled('line breaks before a mistake', START, '\n', 'x}'),
  filled('blanks', '', ' '),
  filled('commas', `${START}[0`, ',0'),
  filled('the same key', `${START}{`, '"a":1,', '"b":1}}'),
  {
    what: 'brackets deep in one another',
    textOf: (length) => {
      const depth = Math.floor(length / 2);
      return `${START}${'['.repeat(depth)}${']'.repeat(depth)}}`;
    },
  },
  {
    what: 'a key given twice behind many',
    textOf: (length) => {
      const keys = listOf(length / 18, (i) => `"k${i % 900}":{"a":1}`);
      const objects = listOf(keys.length / 900, (i) => `{${keys.slice(i * 900, i * 900 + 900).join()}}`);
      return `${START}[${objects.join()}], "x": 0}`;
    },
  },
  {
    what: 'a whole trip with notes as long as can be',
    isBounded: true,
    textOf: (length) => {
      const trip: Loose = structuredClone(bigTrip(50, 60));
      trip.sites = listOf(Math.min(500, length / 4200), (i) => ({
        id: `s${i}`,
        name: `Site ${i}`,
        depthM: 20,
        notes: 'ö'.repeat(4000),
      }));
      trip.notes = 'é\n'.repeat(Math.min(10_000, length / 2));
      for (const dive of trip.dives) dive.siteId = 's0';
      return JSON.stringify(trip);
    },
  },
];

export const hostileDocumentAttack = hostileAttack(
  'Trip documents made to be slow',
  HOSTILE_DOCUMENTS,
  (text) => {
    // Lists of trips tell what a file is before anybody opens it.
    peekTrip(text);
    return readTrip(text);
  },
  LARGEST_FILE - 10_000,
);
