import * as z from 'zod/mini';
import { _default as byDefault } from 'zod/mini';
import { greatest } from '../numeric';
import { said } from '../words/said';
import { NUMBER_RULES, numberTrouble, shown } from './fields';
import {
  date,
  flag,
  judged,
  list,
  type ListRule,
  number,
  oneOf,
  readyFor,
  record,
  text,
  time,
} from './schema-parts';
import { EMERGENCY_FIELDS, type EmergencyField } from './emergency';
import { samplesTrouble } from './samples';
import type { Trip } from './types';
import type { Sample } from '../profile';

const MOST_DIVERS = 60;
const SPLIT = said`Split the trip in two files.`;

/**
 * Every list of a trip file: far longer than on any trip, so that a broken file cannot stall the window.
 * Source: this project's own.
 */
export const LIST_RULES = {
  party: { label: said`Party`, min: 1, max: MOST_DIVERS, mend: SPLIT },
  sites: { label: said`Sites`, min: 0, max: 500, mend: said`Take out the sites that no dive is at.` },
  mixes: { label: said`Mixes`, min: 0, max: 60, mend: said`Take out the mixes that nobody breathes.` },
  dives: { label: said`Dives`, min: 0, max: 400, mend: SPLIT },
  before: { label: said`Earlier dives`, min: 0, max: 60, mend: said`Keep those of the last days.` },
  legs: { label: said`Levels`, min: 1, max: 20, mend: said`Join levels that are nearly as deep.` },
  certifications: { label: said`Certifications`, min: 1, max: 20, mend: said`Name each once.` },
  onBoard: { label: said`Mixes on board`, min: 1, max: 60, mend: said`Name each mix once.` },
  divers: { label: said`Divers of the dive`, min: 1, max: MOST_DIVERS, mend: said`Name each diver once.` },
  rates: { label: said`Gas rates`, min: 0, max: 366, mend: said`Keep the days on which the rate changed.` },
  events: {
    label: said`Events`,
    min: 0,
    max: 60,
    mend: said`Join those that follow each other at one height.`,
  },
  days: { label: said`Days`, min: 0, max: 366, mend: said`Keep the days of the trip.` },
  loops: { label: said`Loops of the dive`, min: 0, max: MOST_DIVERS, mend: said`Name each diver once.` },
  bailOut: { label: said`Bail-out`, min: 1, max: 5, mend: said`Keep the cylinders that are taken along.` },
  notDived: {
    label: said`Not dived`,
    min: 0,
    max: MOST_DIVERS + 1,
    mend: said`Name each diver once.`,
  },
  asDived: {
    label: said`As dived`,
    min: 0,
    max: MOST_DIVERS + 1,
    mend: said`Keep one record for each diver, and one for the others.`,
  },
} as const satisfies Record<string, ListRule>;

/**
 * Dives of all divers together, those brought to the trip included: forty on board for two weeks of four dives a
 * day make 2,240. A week of a fleet is planned boat by boat.
 * Source: this project's own, by what the window can still reckon anew at every edit.
 */
export const MOST_DIVES_TOGETHER = 3000;

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

const id = text('id');

const density = judged<'gauge' | 'salt' | 'fresh' | number>({ is: 'density' }, (value) =>
  value === 'gauge' || value === 'salt' || value === 'fresh'
    ? null
    : typeof value === 'string'
      ? { what: said`Water density is ${shown(value)}.`, mend: NUMBER_RULES.densityKgM3.mend }
      : numberTrouble('densityKgM3', value),
);

const waterSchema = record(said`Water`, {
  density: byDefault(density, 'gauge'),
  altitudeM: byDefault(number('altitudeM'), 0),
});

/** What of a site's water is not as the trip's. */
const siteWater = record(said`Water of the site`, {
  density: z.exactOptional(density),
  altitudeM: z.exactOptional(number('altitudeM')),
});

const event = record(said`Event`, {
  id,
  title: text('eventTitle'),
  from: time(said`Beginning of the event`),
  to: time(said`End of the event`),
  altitudeM: number('eventAltitudeM'),
});

const scatterSchema = record(said`Scatter`, {
  depthM: z.exactOptional(number('scatterDepthM')),
  bottomMin: z.exactOptional(number('scatterBottomMin')),
  startMin: z.exactOptional(number('scatterStartMin')),
  rateShare: z.exactOptional(number('scatterRateShare')),
  o2: z.exactOptional(number('scatterO2')),
});

const settingsSchema = record(said`Settings`, {
  descentMPerMin: byDefault(number('descentMPerMin'), DEFAULTS.descentMPerMin),
  ascentMPerMin: byDefault(number('ascentMPerMin'), DEFAULTS.ascentMPerMin),
  gasLaw: byDefault(oneOf(said`Gas law`, ['ideal', 'real']), 'ideal'),
  analysisTolerance: byDefault(number('analysisTolerance'), 0),
  cabinAltitudeM: z.exactOptional(number('cabinAltitudeM')),
  scatter: z.exactOptional(scatterSchema),
  loops: z.exactOptional(
    record(said`Loops`, {
      toleranceBar: z.exactOptional(number('setpointToleranceBar')),
      oxygenLpm: z.exactOptional(number('oxygenLpm')),
      volumeL: z.exactOptional(number('loopVolumeL')),
    }),
  ),
});

const cylinder = record(said`Cylinder`, {
  waterL: number('waterL'),
  fillBar: number('fillBar'),
  reserveBar: number('reserveBar'),
});

const setpoints = record(said`Setpoints`, {
  lowBar: number('setpointLowBar'),
  highBar: number('setpointHighBar'),
  switchM: number('setpointSwitchM'),
});

const loop = record(said`Loop`, {
  setpoints,
  diluent: text('id', said`Diluent`),
  oxygenCylinder: cylinder,
  diluentCylinder: cylinder,
  scrubberMin: number('scrubberMin'),
  bailOut: list(LIST_RULES.bailOut, record(said`Bail-out`, { mix: text('id', said`Mix`), cylinder })),
  bailOutRateLpm: z.exactOptional(number('surfaceRateLpm')),
});

const onLoop = record(said`Loop of the dive`, {
  by: id,
  setpoints: z.exactOptional(setpoints),
  diluent: z.exactOptional(text('id', said`Diluent`)),
  freshScrubber: z.exactOptional(flag(said`Fresh scrubber`)),
});

const level = record(said`Level`, { depthM: number('levelDepthM'), min: number('levelMin') });

const safetyStop = record(said`Safety stop`, { depthM: number('stopDepthM'), min: number('stopMin') });

const diveShape = {
  id,
  startsAt: time(said`Start`),
  depthM: number('depthM'),
  bottomMin: number('bottomMin'),
  mix: text('id', said`Mix`),
  onBoard: z.exactOptional(list(LIST_RULES.onBoard, id)),
  legs: z.exactOptional(list(LIST_RULES.legs, level)),
  safetyStop: z.exactOptional(z.nullable(safetyStop)),
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
  by: z.exactOptional(id),
  startsAt: z.exactOptional(time(said`Start as dived`)),
  depthM: z.exactOptional(number('depthM')),
  bottomMin: z.exactOptional(number('bottomMin')),
  endBar: z.exactOptional(number('endBar')),
  o2: z.exactOptional(number('o2')),
  samples: z.exactOptional(judged<readonly Sample[]>({ is: 'samples' }, samplesTrouble)),
});

const notDived = record(said`Not dived`, {
  by: z.exactOptional(id),
  reason: z.exactOptional(text('reason')),
});

const diveSchema = readyFor(
  filledFromLegs,
  record(said`Dive`, {
    ...diveShape,
    siteId: id,
    divers: z.exactOptional(list(LIST_RULES.divers, id)),
    turnShare: z.exactOptional(number('turnShare')),
    loops: z.exactOptional(list(LIST_RULES.loops, onLoop)),
    asDived: z.exactOptional(list(LIST_RULES.asDived, asDived)),
    notDived: z.exactOptional(list(LIST_RULES.notDived, notDived)),
    added: z.exactOptional(flag(said`Added`)),
    notes: z.exactOptional(text('notes')),
  }),
);

const earlierDive = readyFor(
  filledFromOxygen,
  record(said`Earlier dive`, {
    ...diveShape,
    siteId: z.exactOptional(id),
    o2: z.exactOptional(number('o2')),
  }),
);

const diverSchema = record(said`Diver`, {
  id,
  name: text('name'),
  surfaceRateLpm: number('surfaceRateLpm'),
  rates: z.exactOptional(
    list(
      LIST_RULES.rates,
      record(said`Gas rate`, {
        from: date(said`First day of the gas rate`),
        surfaceRateLpm: number('surfaceRateLpm'),
      }),
    ),
  ),
  cylinder,
  maxDepthM: number('maxDepthM'),
  maxO2: byDefault(number('maxO2'), DEFAULTS.maxO2),
  po2: z.prefault(
    record(said`PO2 limits`, {
      working: byDefault(number('workingPo2'), DEFAULTS.workingPo2),
      contingency: byDefault(number('contingencyPo2'), DEFAULTS.contingencyPo2),
    }),
    {},
  ),
  gradient: z.prefault(
    record(said`Gradient`, {
      low: byDefault(number('gradient'), DEFAULTS.gradientLow),
      high: byDefault(number('gradient'), DEFAULTS.gradientHigh),
    }),
    {},
  ),
  before: z.exactOptional(list(LIST_RULES.before, earlierDive)),
  arrivedAt: z.exactOptional(time(said`Arrival at altitude`)),
  certification: z.exactOptional(text('certification')),
  cylinderNo: z.exactOptional(text('cylinderNo')),
  group: z.exactOptional(
    record(said`Group`, {
      name: text('groupName'),
      afterMin: byDefault(number('afterMin'), 0),
    }),
  ),
  loop: z.exactOptional(loop),
});

const site = record(said`Site`, {
  id,
  name: text('name'),
  depthM: number('siteDepthM'),
  notes: byDefault(text('siteNotes'), ''),
  levels: z.exactOptional(list(LIST_RULES.legs, level)),
  planB: z.exactOptional(text('planB')),
  briefing: z.exactOptional(text('briefing')),
  notFor: z.exactOptional(
    record(said`Who may not dive it`, {
      depthLimitUnderM: z.exactOptional(number('notForUnderM')),
      certifications: z.exactOptional(list(LIST_RULES.certifications, text('certification'))),
    }),
  ),
  position: z.exactOptional(
    z.nullable(record(said`Position`, { lat: number('latitude'), lon: number('longitude') })),
  ),
  water: z.exactOptional(siteWater),
});

const mixSchema = record(said`Mix`, {
  id,
  o2: number('o2'),
  costPerFill: byDefault(number('costPerFill'), 0),
  analysedO2: z.exactOptional(number('o2')),
});

/** A text of the box of a briefing. */
function emergencyText(field: EmergencyField) {
  return z.exactOptional(text('emergency', EMERGENCY_FIELDS[field]));
}

const emergency = record(said`Emergency`, {
  inCharge: emergencyText('inCharge'),
  oxygen: emergencyText('oxygen'),
  chamber: emergencyText('chamber'),
  telephone: emergencyText('telephone'),
  doctor: emergencyText('doctor'),
  radio: emergencyText('radio'),
  position: emergencyText('position'),
  wayOut: emergencyText('wayOut'),
});

/**
 * The trip document, version 3: shapes, types and ranges of every field, defaults filled in, unknown keys
 * kept. References and times are judged by `references.ts` and `dive-times.ts`.
 * Source: the trip file of this project, version 3.
 */
export const tripSchema = record(said`Trip`, {
  format: oneOf(said`Format`, ['carryover/trip']),
  version: judged<3>({ is: 'words', words: [3] }, (value) =>
    value === 3 ? null : { what: said`Version is ${shown(value)}.`, mend: said`Write 3.` },
  ),
  id: z.exactOptional(text('id', said`Id of the trip`)),
  title: text('title'),
  place: byDefault(text('place'), ''),
  notes: byDefault(text('notes'), ''),
  water: z.prefault(waterSchema, {}),
  settings: z.prefault(settingsSchema, {}),
  party: list(LIST_RULES.party, diverSchema),
  sites: list(LIST_RULES.sites, site),
  mixes: list(LIST_RULES.mixes, mixSchema),
  currency: z.exactOptional(text('currency')),
  dives: list(LIST_RULES.dives, diveSchema),
  flight: byDefault(z.nullable(record(said`Flight`, { at: time(said`Flight`) })), null),
  events: z.exactOptional(list(LIST_RULES.events, event)),
  days: z.exactOptional(
    list(LIST_RULES.days, record(said`Day`, { date: date(said`Day`), notes: text('notes') })),
  ),
  emergency: z.exactOptional(emergency),
}) satisfies z.ZodMiniType<Trip>;

/** The lists whose items are judged one by one, in the order of the file. */
export const TRIP_LISTS = ['party', 'sites', 'mixes', 'dives'] as const;

export type TripList = (typeof TRIP_LISTS)[number];

/** The keys of a trip in the order of the file. */
export const TRIP_KEYS: readonly string[] = Object.keys(tripSchema.shape);

/** The trip but for what is in its lists. */
export const frameSchema = z.extend(tripSchema, {
  party: list(LIST_RULES.party, z.unknown()),
  sites: list(LIST_RULES.sites, z.unknown()),
  mixes: list(LIST_RULES.mixes, z.unknown()),
  dives: list(LIST_RULES.dives, z.unknown()),
});

/** An item of each list. */
export const ITEM_SCHEMAS = {
  party: diverSchema,
  sites: site,
  mixes: mixSchema,
  dives: diveSchema,
} as const satisfies Record<TripList, z.ZodMiniType>;
