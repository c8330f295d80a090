import { bag } from './place-in-trip';
import type { Trip } from './types';

const DIVE_KEYS = [
  'id',
  'siteId',
  'startsAt',
  'depthM',
  'bottomMin',
  'mix',
  'onBoard',
  'o2',
  'legs',
  'safetyStop',
  'divers',
  'turnShare',
  'loops',
  'asDived',
  'notDived',
  'added',
  'notes',
] as const;

const CYLINDER_KEYS = ['waterL', 'fillBar', 'reserveBar'] as const;

/** The order in which the keys of each object stand in a file: what a reader looks for first comes first. */
const KEY_ORDER: Readonly<Record<string, readonly string[]>> = {
  '': [
    '$schema',
    'format',
    'version',
    'id',
    'title',
    'place',
    'notes',
    'water',
    'settings',
    'party',
    'sites',
    'mixes',
    'currency',
    'dives',
    'flight',
    'events',
    'days',
    'emergency',
  ],
  water: ['density', 'altitudeM'],
  settings: [
    'descentMPerMin',
    'ascentMPerMin',
    'gasLaw',
    'analysisTolerance',
    'cabinAltitudeM',
    'scatter',
    'loops',
  ],
  scatter: ['depthM', 'bottomMin', 'startMin', 'rateShare', 'o2'],
  party: [
    'id',
    'name',
    'certification',
    'group',
    'surfaceRateLpm',
    'rates',
    'cylinder',
    'cylinderNo',
    'loop',
    'maxDepthM',
    'maxO2',
    'po2',
    'gradient',
    'arrivedAt',
    'before',
  ],
  cylinder: CYLINDER_KEYS,
  oxygenCylinder: CYLINDER_KEYS,
  diluentCylinder: CYLINDER_KEYS,
  loop: [
    'setpoints',
    'diluent',
    'oxygenCylinder',
    'diluentCylinder',
    'scrubberMin',
    'bailOut',
    'bailOutRateLpm',
  ],
  setpoints: ['lowBar', 'highBar', 'switchM'],
  bailOut: ['mix', 'cylinder'],
  loops: ['by', 'setpoints', 'diluent', 'freshScrubber', 'toleranceBar', 'oxygenLpm', 'volumeL'],
  po2: ['working', 'contingency'],
  gradient: ['low', 'high'],
  before: DIVE_KEYS,
  group: ['name', 'afterMin'],
  sites: ['id', 'name', 'depthM', 'levels', 'notes', 'briefing', 'planB', 'notFor', 'position', 'water'],
  levels: ['depthM', 'min'],
  notFor: ['depthLimitUnderM', 'certifications'],
  position: ['lat', 'lon'],
  mixes: ['id', 'o2', 'analysedO2', 'costPerFill'],
  dives: DIVE_KEYS,
  legs: ['depthM', 'min'],
  safetyStop: ['depthM', 'min'],
  asDived: ['by', 'startsAt', 'depthM', 'bottomMin', 'endBar', 'o2', 'samples'],
  notDived: ['by', 'reason'],
  rates: ['from', 'surfaceRateLpm'],
  events: ['id', 'title', 'from', 'to', 'altitudeM'],
  days: ['date', 'notes'],
  emergency: ['inCharge', 'oxygen', 'chamber', 'telephone', 'doctor', 'radio', 'position', 'wayOut'],
  flight: ['at'],
};

/** Two numbers in brackets, as a sample is: they stand on one line, or a recorded dive has thousands of them. */
const PAIR = /\[\n +([-\d.e+]+),\n +([-\d.e+]+)\n +\]/g;

/** A value with the keys this version knows in their order; what it does not know follows as it stood. */
function ordered(key: string, value: unknown): unknown {
  if (Array.isArray(value)) return value.map((item) => ordered(key, item));
  const order = KEY_ORDER[key];
  if (order === undefined || typeof value !== 'object' || value === null) return value;
  const object = bag(value);
  const known = order.filter((name) => object[name] !== undefined);
  const unknown = Object.keys(object).filter((name) => !order.includes(name));
  return Object.fromEntries([
    ...known.map((name) => [name, ordered(name, object[name])] as const),
    ...unknown.map((name) => [name, object[name]] as const),
  ]);
}

/**
 * The text of a trip file.
 * @param trip a document that `checkTrip` finds nothing wrong with
 * @returns UTF-8 JSON, two spaces of indent, keys in a fixed order, unknown keys kept, a line feed at the
 *   end: the same trip always gives the same text, so that files can be compared line by line
 * Source: the trip file of this project, version 3.
 */
export function writeTrip(trip: Trip): string {
  return `${JSON.stringify(ordered('', trip), null, 2).replaceAll(PAIR, '[$1, $2]')}\n`;
}
