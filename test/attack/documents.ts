/**
 * Random documents against the reader and all that computes from a trip: never an exception, never a figure
 * that is no number, never slow.
 */
import fc from 'fast-check';
import { cautionsOf } from '../../core/cautions/all';
import { ledger } from '../../core/ledger/ledger';
import { ledgerDocument } from '../../core/formats/ledger-document';
import { readTrip } from '../../core/document/read-trip';
import { peekTrip } from '../../core/library';
import { fixture, tenDives, type Loose } from '../support/trip-documents';
import type { Attack } from './attack';
import { fuzz } from './fuzz';

/** Longest that a small document may take, reading and computing together. */
const LONGEST_MS = 50;

const fourDives = tenDives();
fourDives.dives.length = 4;

/** A lake, a road over a pass, a dive as a computer recorded it, and one on a loop: what came after the frozen files. */
const upAndRecorded = tenDives();
upAndRecorded.dives.length = 3;
Object.assign(upAndRecorded.dives[0], {
  asDived: [
    {
      by: 'a',
      startsAt: '2027-03-06T07:36',
      samples: [
        [0, 0],
        [2, 17.5],
        [30, 12],
        [38, 0],
      ],
    },
  ],
});
Object.assign(upAndRecorded.sites[0], { water: { density: 'fresh', altitudeM: 400 } });
Object.assign(upAndRecorded.party[0], { arrivedAt: '2027-03-05T18:00' });
Object.assign(upAndRecorded.party[1], {
  loop: {
    setpoints: { lowBar: 0.7, highBar: 1.2, switchM: 6 },
    diluent: 'm',
    oxygenCylinder: { waterL: 3, fillBar: 200, reserveBar: 30 },
    diluentCylinder: { waterL: 3, fillBar: 200, reserveBar: 30 },
    scrubberMin: 180,
    bailOut: [{ mix: 'm', cylinder: { waterL: 11, fillBar: 200, reserveBar: 20 } }],
    bailOutRateLpm: 40,
  },
});
for (const dive of upAndRecorded.dives.slice(0, 2)) {
  dive.loops = [{ by: 'b', setpoints: { lowBar: 0.6, highBar: 1.1, switchM: 8 }, freshScrubber: true }];
}
upAndRecorded.events = [
  { id: 'pass', title: 'Over the pass', from: '2027-03-06T17:00', to: '2027-03-06T18:30', altitudeM: 900 },
];
upAndRecorded.settings = {
  scatter: { depthM: 1.5, bottomMin: 3 },
  cabinAltitudeM: 2000,
  loops: { oxygenLpm: 1.2 },
};

/** Small trips: each costs a few milliseconds, so that a busy machine is not taken for a slow document. */
const SEEDS = [
  fixture('v3-full'),
  fixture('v2-full'),
  fixture('v1-full'),
  fixture('v1-minimal'),
  fourDives,
  upAndRecorded,
] as const;

/** Every place in a document, as keys from the top. */
function placesOf(value: unknown, path: readonly (string | number)[] = []): (readonly (string | number)[])[] {
  if (typeof value !== 'object' || value === null) return [path];
  return [
    path,
    ...Object.keys(value).flatMap((key) =>
      placesOf((value as Loose)[key], [...path, Array.isArray(value) ? Number(key) : key]),
    ),
  ];
}

const PLACES = SEEDS.map((seed) => placesOf(seed).filter((path) => path.length > 0));

const NUMBER_PLACES = SEEDS.map((seed, index) =>
  PLACES[index]!.filter((path) => typeof holder(seed, path)[path.at(-1)!] === 'number'),
);

const numbers = fc.oneof(
  fc.constantFrom(0, -0, -1, 1, 0.5, 1e-300, 1e300, 5e-324, 1e21, 4500, 100, 0.21, 1.6, 1 / 3),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.double({ min: 0, max: 60, noNaN: true }),
  fc.integer({ min: 0, max: 120 }),
);

const values = fc.oneof(
  { weight: 5, arbitrary: numbers },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      null,
      true,
      '',
      ' ',
      'auto',
      'd1',
      'guide',
      'air',
      'm',
      '__proto__',
      'a\u001B[2Jb',
      'x'.repeat(500),
      'salt',
      'real',
    ),
  },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      '2027-03-06T07:30',
      '2027-03-06T09:00',
      '2027-02-29T10:00',
      '1969-01-01T00:00',
      '2027-05-02T09:20',
    ),
  },
  { weight: 1, arbitrary: fc.jsonValue({ maxDepth: 2 }) },
  { weight: 1, arbitrary: fc.string({ maxLength: 5 }) },
);

type Change =
  | { readonly kind: 'scale'; readonly at: number; readonly by: number }
  | { readonly kind: 'set'; readonly at: number; readonly value: unknown }
  | { readonly kind: 'drop' | 'copy' | 'swap'; readonly at: number; readonly other: number };

/** Numbers that are still thinkable reach what computes; wilder ones are turned away at the door. */
const thinkable: fc.Arbitrary<Change> = fc.record({
  kind: fc.constant('scale' as const),
  at: fc.nat(),
  by: fc.oneof(fc.double({ min: 0.3, max: 3, noNaN: true }), fc.double({ min: 0.9, max: 1.1, noNaN: true })),
});

const changes: fc.Arbitrary<Change> = fc.oneof(
  { weight: 4, arbitrary: thinkable },
  { weight: 6, arbitrary: fc.record({ kind: fc.constant('set' as const), at: fc.nat(), value: values }) },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constantFrom('drop' as const, 'copy' as const, 'swap' as const),
      at: fc.nat(),
      other: fc.nat(),
    }),
  },
);

function holder(document: Loose, path: readonly (string | number)[]): Loose {
  return path.slice(0, -1).reduce((at, key) => at?.[key], document);
}

/** A list that an earlier change put in the place of something has "at" too, and functions are no JSON. */
function own(parent: Loose, key: string | number): unknown {
  return Object.hasOwn(parent, key) ? parent[key] : undefined;
}

function changed(seed: number, list: readonly Change[]): Loose {
  const document = structuredClone(SEEDS[seed]);
  const places = PLACES[seed]!;
  for (const change of list) {
    const among = change.kind === 'scale' ? NUMBER_PLACES[seed]! : places;
    const path = among[change.at % among.length]!;
    const key = path[path.length - 1]!;
    const parent = holder(document, path);
    if (typeof parent !== 'object' || parent === null) continue;
    if (change.kind === 'scale') parent[key] *= change.by;
    else if (change.kind === 'set') parent[key] = change.value;
    else if (change.kind === 'drop') delete parent[key];
    else {
      const otherPath = places[change.other % places.length]!;
      const other = holder(document, otherPath);
      if (typeof other !== 'object' || other === null) continue;
      const otherKey = otherPath[otherPath.length - 1]!;
      const moved = structuredClone(own(other, otherKey));
      if (change.kind === 'swap') other[otherKey] = own(parent, key);
      parent[key] = moved;
    }
  }
  return document;
}

/** The path to a number that is none; what is no JSON would be null in the ledger file without a word. */
function noNumberAt(value: unknown, path = 'ledger'): string | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : `${path} is ${value}`;
  if (typeof value !== 'object' || value === null) return null;
  for (const [key, each] of Object.entries(value)) {
    const found = noNumberAt(each, `${path}.${key}`);
    if (found !== null) return found;
  }
  return null;
}

/** What a list of trips must not show: it would break a line, or be one of any length. */
const UNSAFE = /[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\u202D\u202E]|^.{121}/u;

/** Tells what a document is, as lists of trips do, reads it and computes all there is to it. */
function answer(text: string): 'read' | 'refused' {
  const peek = peekTrip(text);
  const read = readTrip(text);
  if (read.ok && !(peek.ok && peek.title === read.value.title)) throw new Error('a trip is not told as one');
  if (peek.ok && UNSAFE.test(peek.title)) throw new Error(`told as "${peek.title}"`);
  if (!read.ok) {
    for (const { what, mend } of read.troubles) {
      if (what === '' || mend === '' || /undefined|NaN /.test(what)) throw new Error(`said "${what}"`);
    }
    return 'refused';
  }
  const whole = ledger(read.value);
  const wrong = noNumberAt(ledgerDocument(whole, cautionsOf(whole)));
  if (wrong !== null) throw new Error(wrong);
  return 'read';
}

const seeds = fc.nat({ max: SEEDS.length - 1 });

/** Texts that are trips, nearly are, or never were. */
export const documents = fc.oneof(
  { weight: 1, arbitrary: fc.jsonValue({ maxDepth: 4 }).map((value) => JSON.stringify(value)) },
  { weight: 1, arbitrary: fc.string() },
  {
    weight: 12,
    arbitrary: fc
      .tuple(seeds, fc.array(thinkable, { minLength: 1, maxLength: 2 }))
      .map(([seed, list]) => JSON.stringify(changed(seed, list))),
  },
  {
    weight: 12,
    arbitrary: fc
      .tuple(seeds, fc.array(changes, { minLength: 1, maxLength: 4 }))
      .map(([seed, list]) => JSON.stringify(changed(seed, list))),
  },
);

export const documentAttack: Attack = {
  title: 'Random trip documents',
  whole: 100_000,
  quick: 5000,
  run: (times) =>
    fuzz(
      {
        inputs: documents,
        sizeOf: (text) => text.length,
        answer,
        longestMs: () => LONGEST_MS,
        steepest: 1.5,
        warmUp: SEEDS.map((seed) => JSON.stringify(seed)),
      },
      times,
    ),
};
