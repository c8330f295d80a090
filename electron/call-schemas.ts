/** What arguments each call accepts: nothing that comes from the window is trusted before these have seen it. */
import * as z from 'zod';
import { partial } from 'zod/mini';
import { LARGEST_MM, SMALLEST_MM } from '../core/slate/paper';
import { settingsSchema } from '../core/settings-schema';
import { MAX_TRIP_BYTES } from '../core/library';
import type { CallArguments, CallName } from './channels';

const token = z.string().regex(/^(library|file)-[0-9a-f]{32}$/);
// Longer than the limit may pass here, so that the answer can say by how much it is too long.
const tripText = z.string().max(MAX_TRIP_BYTES * 6);
const title = z.string().max(1000);
const stamp = z.iso.datetime({ precision: 3 });
const documentBytes = z.instanceof(Uint8Array).refine((bytes) => bytes.byteLength <= 100_000_000);
const mediaType = z
  .string()
  .max(100)
  .regex(/^[a-z]+\/[a-z0-9.+-]+$/);
/** Documents that a person opens in a reader; nothing that a system would run. */
const documentName = title.regex(/\.(pdf|csv|ics|gpx|uddf|zip|json|svg|txt)$/i);
/** Characters. Source: common practice, the longest that Windows takes. */
const LONGEST_PATH = 32_767;
/** A side of a paper that slates can be printed on; the runtime throws below 0.353 mm. */
const paperMm = z.number().min(SMALLEST_MM).max(LARGEST_MM);
const command = z.strictObject({
  id: z.string().min(1).max(100),
  label: z.string().min(1).max(300),
  group: z.enum(['Trip', 'Edit', 'Dive', 'Places', 'View', 'Help']),
  keys: z.string().max(60).optional(),
  enabled: z.boolean(),
});

export const CALL_SCHEMAS = {
  listTrips: z.tuple([]),
  readTrip: z.tuple([token]),
  writeTrip: z.tuple([token.nullable(), tripText, title, stamp.nullable()]),
  removeTrip: z.tuple([token]),
  listVersions: z.tuple([token]),
  readVersion: z.tuple([token, z.string().max(100)]),
  keepUnsaved: z.tuple([
    token.nullable(),
    z.strictObject({ text: tripText, savedAt: stamp.nullable() }),
    z.boolean(),
  ]),
  readUnsaved: z.tuple([token.nullable()]),
  dropUnsaved: z.tuple([token.nullable()]),
  openTrip: z.tuple([]),
  saveTripAs: z.tuple([tripText, title]),
  saveDocument: z.tuple([documentBytes, documentName, mediaType]),
  showSaved: z.tuple([]),
  printPages: z.tuple([z.strictObject({ widthMm: paperMm, heightMm: paperMm })]),
  openText: z.tuple([]),
  loadSettings: z.tuple([]),
  saveSettings: z.tuple([partial(settingsSchema)]),
  openSource: z.tuple([z.string().max(2000)]),
  about: z.tuple([]),
  offerCommands: z.tuple([z.array(command).max(200)]),
  openDroppedAt: z.tuple([z.string().max(LONGEST_PATH)]),
  reportTrip: z.tuple([z.strictObject({ token: token.nullable(), isEdited: z.boolean() })]),
  reportWork: z.tuple([z.number().min(0).max(1).nullable()]),
  awaitTrips: z.tuple([]),
  guardClose: z.tuple([z.boolean()]),
  closeAnswered: z.tuple([z.string().max(2000).nullable()]),
} satisfies { readonly [Name in CallName]: z.ZodType<unknown[]> };

/** Values of one call, all together; two hundred commands have twelve hundred. */
const MOST_VALUES = 5000;

/** A reason is for whoever mends the window, and is read in one look. */
const LONGEST_REASON = 500;

/**
 * Whether a call brings no more than lists, plain objects and what stands in them, in numbers that a schema can look
 * through: asked for its keys, a megabyte of bytes in the place of an object names a million.
 */
function isModest(name: CallName, given: readonly unknown[]): boolean {
  // The one call that brings bytes, as its first argument.
  const waiting: unknown[] = name === 'saveDocument' ? given.slice(1) : [...given];
  for (let seen = 0; waiting.length > 0; seen += 1) {
    if (seen + waiting.length > MOST_VALUES) return false;
    const value = waiting.pop();
    if (typeof value !== 'object' || value === null) continue;
    const kind = Object.prototype.toString.call(value);
    if (kind !== '[object Array]' && kind !== '[object Object]') return false;
    if (Array.isArray(value) && value.length > MOST_VALUES) return false;
    const held = Object.values(value);
    if (held.length > MOST_VALUES) return false;
    for (const each of held) waiting.push(each);
  }
  return true;
}

/** The arguments of a call as its schema read them, or what is wrong with them. */
export function readArguments<Name extends CallName>(
  name: Name,
  given: readonly unknown[],
):
  | { readonly ok: true; readonly args: CallArguments<Name> }
  | { readonly ok: false; readonly reason: string } {
  if (!isModest(name, given)) return { ok: false, reason: 'more, or other values, than any call brings' };
  const parsed = CALL_SCHEMAS[name].safeParse(given);
  return parsed.success
    ? { ok: true, args: parsed.data as CallArguments<Name> }
    : { ok: false, reason: z.prettifyError(parsed.error).slice(0, LONGEST_REASON) };
}
