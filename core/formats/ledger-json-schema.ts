import * as z from 'zod/mini';
import { schemaHead, type JsonSchema } from '../document/trip-json-schema';
import type { ledgerDocument } from './ledger-document';

/** A ledger as the types of its writer have it, but for what is kept from being changed. */
type Written = Changeable<ReturnType<typeof ledgerDocument>>;
type Changeable<T> = T extends object ? { -readonly [Key in keyof T]: Changeable<T[Key]> } : T;

const number = z.number();
const orNull = z.nullable(number);
const text = z.string();
const textOrNull = z.nullable(text);
const id = text;
const time = z.string().check(z.regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d$/));
const date = z.string().check(z.regex(/^\d{4}-\d\d-\d\d$/));
const limit = z.nullable(
  z.enum([
    'no-stop',
    'mod',
    'po2',
    'cns',
    'cns-day',
    'gas',
    'oxygen',
    'scrubber',
    'bail-out',
    'diver-depth',
    'interval',
  ]),
);
const compartments = z.array(number).check(z.length(16));

const level = z.strictObject({
  depthM: number,
  min: number,
  noStopMin: orNull,
  unlimited: z.exactOptional(z.boolean()),
});

const loopGas = z.strictObject({ usedL: number, leftBar: orNull });

const loop = z.strictObject({
  setpoints: z.strictObject({ lowBar: number, highBar: number, switchM: number }),
  toleranceBar: number,
  diluent: z.strictObject({ mixId: id, o2: number, modM: number }),
  oxygen: loopGas,
  diluentGas: loopGas,
  scrubber: z.strictObject({ usedMin: number, leftMin: number }),
  bailOut: z.nullable(
    z.strictObject({
      atMin: number,
      fromM: number,
      stops: z.array(z.strictObject({ depthM: number, min: number })),
      runtimeMin: number,
      mixes: z.array(
        z.strictObject({ mixId: id, o2: number, modM: number, neededL: number, holdsL: number }),
      ),
    }),
  ),
});

const entry = z.strictObject({
  diveId: id,
  siteId: id,
  startsAt: time,
  surfacesAt: z.nullable(time),
  intervalMin: orNull,
  asDived: z.boolean(),
  asPlanned: z.boolean(),
  mix: z.nullable(z.strictObject({ id, o2: orNull, analysed: z.boolean() })),
  /** Of the water dived. */
  altitudeM: number,
  depthM: number,
  bottomMin: number,
  modM: orNull,
  po2Bar: orNull,
  eadM: orNull,
  gasDensityGL: orNull,
  noStopMin: orNull,
  unlimited: z.exactOptional(z.boolean()),
  levels: z.array(level),
  room: z.strictObject({
    min: orNull,
    minLimit: limit,
    m: orNull,
    mLimit: limit,
    earlierMin: orNull,
    earlierLimit: limit,
  }),
  stops: z.nullable(z.array(z.strictObject({ depthM: number, min: number }))),
  tensionsBefore: compartments,
  tensionsAfter: compartments,
  leading: z.strictObject({ compartment: number, fractionOfLimit: number }),
  cns: z.strictObject({ before: orNull, after: orNull, day: orNull }),
  otu: z.strictObject({ dive: orNull, day: number, trip: number }),
  esot: z.strictObject({ dive: orNull, day: number }),
  gas: z.strictObject({
    usedL: orNull,
    endBar: orNull,
    endRead: z.boolean(),
    breathedLpm: orNull,
    turnBar: orNull,
    minimumBar: orNull,
  }),
  loop: z.exactOptional(loop),
  secondOpinion: z.strictObject({
    procedure: z.literal('usn-rev7-air'),
    limitMin: orNull,
    unlimited: z.exactOptional(z.boolean()),
    residualMin: orNull,
    groupBefore: textOrNull,
    groupAfter: textOrNull,
    agrees: z.nullable(z.boolean()),
    reason: textOrNull,
  }),
});

const diver = z.strictObject({
  id,
  name: text,
  entries: z.array(entry),
  notDived: z.array(z.strictObject({ diveId: id, reason: text })),
  days: z.array(
    z.strictObject({
      date,
      dives: number,
      bottomMin: number,
      otu: number,
      otuAllowed: number,
      cnsDayPeak: orNull,
      esot: number,
    }),
  ),
  flyAfter: z.nullable(time),
  flight: z.nullable(
    z.strictObject({
      latest: z.enum(['guideline', 'table', 'model']),
      guideline: z.nullable(time),
      table: z.nullable(time),
      model: z.nullable(time),
    }),
  ),
  climbs: z.array(
    z.strictObject({
      eventId: textOrNull,
      diveId: textOrNull,
      at: time,
      fromM: number,
      toM: number,
      latest: z.nullable(z.enum(['guideline', 'table', 'model'])),
      clear: time,
      guideline: z.nullable(time),
      table: z.nullable(time),
      model: z.nullable(time),
    }),
  ),
  clearAt: z.nullable(time),
});

const ledgerSchema = z.strictObject({
  format: z.literal('carryover/ledger'),
  version: z.literal(1),
  title: text,
  divers: z.array(diver),
  cautions: z.array(
    z.strictObject({
      code: text,
      severity: z.enum(['stop', 'change', 'know']),
      diverId: z.nullable(id),
      diveId: z.nullable(id),
      message: text,
      source: text,
    }),
  ),
});

/** What the writer makes fits the schema, or this does not compile. */
type Fits = Written extends z.input<typeof ledgerSchema> ? true : never;
const FITS: Fits = true;

/**
 * The schema of a ledger file.
 * @returns JSON Schema, draft 2020-12
 * Source: JSON Schema, draft 2020-12; CONVENTIONS, "The ledger file".
 */
export function ledgerJsonSchema(): JsonSchema {
  const { $schema: _, ...rest } = z.toJSONSchema(ledgerSchema, { io: 'input' }) as JsonSchema;
  return { ...schemaHead('ledger', FITS ? 1 : 0, SAYS), ...rest };
}

const SAYS =
  'What follows from a trip, diver by diver: metres, bar, litres, minutes and fractions, unrounded; null where a figure does not exist.';
