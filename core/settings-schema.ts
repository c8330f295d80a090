/** What settings are accepted from a store that anyone may have edited. */
import * as z from 'zod/mini';
import { DEFAULT_SETTINGS, type Settings } from './host';

// A strict content policy forbids the code that zod would otherwise generate.
z.config({ jitless: true });

const tokenText = z.string().check(z.minLength(1), z.maxLength(200));

/** Whole points, as mending takes them. */
const points = z.int().check(z.minimum(1), z.maximum(9999));

export const settingsSchema = z.strictObject({
  units: z.enum(['metric', 'imperial']),
  clock: z.enum(['24h', '12h']),
  dates: z.enum(['dmy', 'mdy', 'ymd']),
  look: z.enum(['light', 'cabin', 'system']),
  textScale: z.number().check(z.minimum(0.5), z.maximum(3)),
  place: z.enum(['days', 'sites', 'mixes', 'party', 'slates']),
  lastTrip: z.nullable(tokenText),
  cautionsAccepted: z.boolean(),
  paper: z.string().check(z.minLength(1), z.maxLength(40)),
  tables: z.enum(['system', 'commas', 'semicolons']),
  mendCosts: z.nullable(
    z.strictObject({
      later: points,
      shallower: points,
      shorter: points,
      mix: points,
      leaveOut: points,
      drop: points,
    }),
  ),
}) satisfies z.ZodMiniType<Settings>;

/**
 * Settings out of unknown stored data: each value that fits stays, each that does not is the default.
 * @param stored whatever a store held
 * @returns complete settings
 */
export function settingsFrom(stored: unknown): Settings {
  if (typeof stored !== 'object' || stored === null) return DEFAULT_SETTINGS;
  const given = stored as Record<string, unknown>;
  const fitting = Object.entries(settingsSchema.shape).flatMap(([key, schema]) => {
    const parsed = schema.safeParse(given[key]);
    return parsed.success ? [[key, parsed.data] as const] : [];
  });
  return { ...DEFAULT_SETTINGS, ...Object.fromEntries(fitting) };
}
