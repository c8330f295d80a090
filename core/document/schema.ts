import { z } from 'zod';
import { greatest } from '../numeric';
import { listed, said, type Said, type SaidTrouble } from '../words/said';
import { NUMBER_RULES, type NumberField, numberTrouble, shown, wallTimeTrouble } from './fields';
import { textTrouble, type TextField } from './texts';
import type { Trip } from './types';

// Compiled validators need eval, which the window's content policy refuses.
z.config({ jitless: true });

/**
 * How many of each a trip can hold: far above any trip, so that a broken file cannot stall the window.
 * Source: this project's own.
 */
export const LIMITS = { party: 60, sites: 500, mixes: 60, dives: 400, levels: 20, before: 60 } as const;

/**
 * What holds where a file is silent. Frozen: another default is another version of the file.
 * Source: rates: common practice (9 m/min is the 30 ft/min of the U.S. Navy Diving Manual Revision 7, 2016);
 * working PO2: NOAA Diving Program, 2015; contingency PO2 and oxygen ceiling: common practice; gradient
 * factors: chosen on the careful side of common practice.
 */
export const DEFAULTS = {
  descentMPerMin: 18,
  ascentMPerMin: 9,
  maxO2: 0.4,
  workingPo2: 1.4,
  contingencyPo2: 1.6,
  gradientLow: 0.5,
  gradientHigh: 0.8,
} as const;

/** Mix ids that mean something else. */
export const AUTO_MIX = 'auto';

/** A message of the schema carries what and mend, yet to be worded, as JSON: zod passes on text alone. */
function message(trouble: SaidTrouble): string {
  return JSON.stringify(trouble);
}

/** What and mend of a schema message. */
export function messageParts(json: string): SaidTrouble {
  return JSON.parse(json) as SaidTrouble;
}

/** A leaf judged by one of our own rules, the same that the fields of the window ask. */
function judged<T>(trouble: (value: unknown) => SaidTrouble | null) {
  return z.custom<T>((value) => trouble(value) === null, {
    error: (issue) => message(trouble(issue.input)!),
  });
}

function number(field: NumberField) {
  return judged<number>((value) => numberTrouble(field, value));
}

function text(field: TextField, label?: Said) {
  return judged<string>((value) => textTrouble(field, value, label));
}

function time(label: Said) {
  return judged<string>((value) => wallTimeTrouble(label, value));
}

function oneOf<T extends string>(label: Said, words: readonly T[]) {
  return judged<T>((value) =>
    (words as readonly unknown[]).includes(value)
      ? null
      : {
          what: said`${label} is ${shown(value)}.`,
          mend: said`Write ${listed(
            words.map((word) => `"${word}"`),
            'or',
          )}.`,
        },
  );
}

/** An object whose unknown keys travel along. */
function record<Shape extends z.core.$ZodLooseShape>(label: Said, shape: Shape) {
  const keys = Object.keys(shape).join(', ');
  return z.looseObject(shape, {
    error: (issue) =>
      message({
        what: said`${label} is ${shown(issue.input)}.`,
        mend: said`Give it as an object { ${keys} }.`,
      }),
  });
}

function list<Item extends z.ZodType>(label: Said, item: Item, max: number, min = 0) {
  return z
    .array(item, {
      error: ({ input }) =>
        message({
          what:
            input === undefined
              ? said`${label}: the list is missing.`
              : said`${label} is ${shown(input)}, not a list.`,
          mend: said`Give a list [ ... ].`,
        }),
    })
    .min(min, {
      error: message({ what: said`${label}: the list is empty.`, mend: said`Give at least one.` }),
    })
    .max(max, {
      error: (issue) =>
        message({
          what: said`${label}: ${String((issue.input as readonly unknown[]).length)} are given; there can be ${String(max)}.`,
          mend: said`Split the trip in two files.`,
        }),
    });
}

const id = text('id');
const ids = (label: Said) => list(label, id, LIMITS.party, 1);

export const waterSchema = record(said`Water`, {
  density: judged<'gauge' | 'salt' | 'fresh' | number>((value) =>
    value === 'gauge' || value === 'salt' || value === 'fresh'
      ? null
      : typeof value === 'string'
        ? { what: said`Water density is ${shown(value)}.`, mend: NUMBER_RULES.densityKgM3.mend }
        : numberTrouble('densityKgM3', value),
  ).default('gauge'),
  altitudeM: number('altitudeM').default(0),
});

export const settingsSchema = record(said`Settings`, {
  descentMPerMin: number('descentMPerMin').default(DEFAULTS.descentMPerMin),
  ascentMPerMin: number('ascentMPerMin').default(DEFAULTS.ascentMPerMin),
  gasLaw: oneOf(said`Gas law`, ['ideal', 'real']).default('ideal'),
  analysisTolerance: number('analysisTolerance').default(0),
});

const level = record(said`Level`, { depthM: number('levelDepthM'), min: number('levelMin') });

const safetyStop = record(said`Safety stop`, { depthM: number('stopDepthM'), min: number('stopMin') });

const diveShape = {
  id,
  startsAt: time(said`Start`),
  depthM: number('depthM'),
  bottomMin: number('bottomMin'),
  mix: text('id', said`Mix`),
  onBoard: list(said`Mixes on board`, id, LIMITS.mixes, 1).exactOptional(),
  legs: list(said`Levels`, level, LIMITS.levels, 1).exactOptional(),
  safetyStop: safetyStop.nullable().exactOptional(),
};

/** Depth and bottom time left out beside levels are the deepest and the sum, as the format says. */
function filledFromLegs(raw: unknown): unknown {
  const dive = raw as { legs?: unknown; depthM?: unknown; bottomMin?: unknown } | null | undefined;
  if (!dive || !Array.isArray(dive.legs) || (dive.depthM !== undefined && dive.bottomMin !== undefined))
    return raw;
  const levels = dive.legs as readonly { depthM?: unknown; min?: unknown }[];
  if (!levels.every((each) => typeof each?.depthM === 'number' && typeof each.min === 'number')) return raw;
  return {
    depthM: greatest(levels.map((each) => each.depthM as number)),
    bottomMin: levels.reduce((sum, each) => sum + (each.min as number), 0),
    ...dive,
  };
}

/** Of an earlier dive the oxygen breathed may be given instead of a mix of the trip. */
function filledFromOxygen(raw: unknown): unknown {
  const dive = filledFromLegs(raw) as { o2?: unknown; mix?: unknown } | null | undefined;
  return dive && dive.mix === undefined && dive.o2 !== undefined ? { ...dive, mix: AUTO_MIX } : dive;
}

const asDived = record(said`As dived`, {
  by: id.exactOptional(),
  startsAt: time(said`Start as dived`).exactOptional(),
  depthM: number('depthM').exactOptional(),
  bottomMin: number('bottomMin').exactOptional(),
  o2: number('o2').exactOptional(),
});

export const diveSchema = z.preprocess(
  filledFromLegs,
  record(said`Dive`, {
    ...diveShape,
    siteId: id,
    divers: ids(said`Divers of the dive`).exactOptional(),
    turnShare: number('turnShare').exactOptional(),
    asDived: list(said`As dived`, asDived, LIMITS.party + 1).exactOptional(),
  }),
);

const earlierDive = z.preprocess(
  filledFromOxygen,
  record(said`Earlier dive`, { ...diveShape, siteId: id.exactOptional(), o2: number('o2').exactOptional() }),
);

export const diverSchema = record(said`Diver`, {
  id,
  name: text('name'),
  surfaceRateLpm: number('surfaceRateLpm'),
  cylinder: record(said`Cylinder`, {
    waterL: number('waterL'),
    fillBar: number('fillBar'),
    reserveBar: number('reserveBar'),
  }),
  maxDepthM: number('maxDepthM'),
  maxO2: number('maxO2').default(DEFAULTS.maxO2),
  po2: record(said`PO2 limits`, {
    working: number('workingPo2').default(DEFAULTS.workingPo2),
    contingency: number('contingencyPo2').default(DEFAULTS.contingencyPo2),
  }).prefault({}),
  gradient: record(said`Gradient`, {
    low: number('gradient').default(DEFAULTS.gradientLow),
    high: number('gradient').default(DEFAULTS.gradientHigh),
  }).prefault({}),
  before: list(said`Earlier dives`, earlierDive, LIMITS.before).exactOptional(),
  arrivedAt: time(said`Arrival at altitude`).exactOptional(),
});

const site = record(said`Site`, {
  id,
  name: text('name'),
  depthM: number('siteDepthM'),
  notes: text('siteNotes').default(''),
  position: record(said`Position`, { lat: number('latitude'), lon: number('longitude') })
    .nullable()
    .exactOptional(),
});

export const mixSchema = record(said`Mix`, {
  id,
  o2: number('o2'),
  costPerFill: number('costPerFill').default(0),
  analysedO2: number('o2').exactOptional(),
});

/**
 * The trip document, version 1: shapes, types and ranges of every field, defaults filled in, unknown keys
 * kept. References and times are judged by `references.ts` and `dive-times.ts`.
 */
export const tripSchema = record(said`Trip`, {
  format: oneOf(said`Format`, ['carryover/trip']),
  version: judged<1>((value) =>
    value === 1 ? null : { what: said`Version is ${shown(value)}.`, mend: said`Write 1.` },
  ),
  title: text('title'),
  place: text('place').default(''),
  notes: text('notes').default(''),
  water: waterSchema.prefault({}),
  settings: settingsSchema.prefault({}),
  party: list(said`Party`, diverSchema, LIMITS.party, 1),
  sites: list(said`Sites`, site, LIMITS.sites),
  mixes: list(said`Mixes`, mixSchema, LIMITS.mixes),
  dives: list(said`Dives`, diveSchema, LIMITS.dives),
  flight: record(said`Flight`, { at: time(said`Flight`) })
    .nullable()
    .default(null),
}) satisfies z.ZodType<Trip>;
