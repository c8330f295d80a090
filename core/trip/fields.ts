import { Temporal } from 'temporal-polyfill';

/** What is wrong with a value and how to mend it; the place is known to whoever asked. */
export interface FieldTrouble {
  readonly what: string;
  readonly mend: string;
}

/** The range a number of the trip may lie in; nothing outside is ever bent into it. */
export interface NumberRule {
  readonly label: string;
  readonly min: number;
  readonly max: number;
  /** As printed after the number; empty for fractions and counts. */
  readonly unit: string;
  readonly mend: string;
}

/**
 * Every number of a trip file. The ranges hold what is physically sensible on open circuit, with room
 * around what is advisable: advice is for the cautions.
 * Source: common practice; depth: U.S. Navy Diving Manual Revision 7 (2016), air tables end at 300 fsw
 * (92 m); partial pressure: NOAA Diving Manual, normal exposure limits end at 1.6; altitude: the highest
 * lakes that are dived lie near 4 500 m.
 */
export const NUMBER_RULES = {
  densityKgM3: rule(
    'Water density',
    980,
    1250,
    'kg/m3',
    'Write "gauge", "salt", "fresh" or a density such as 1025.',
  ),
  altitudeM: rule(
    'Altitude',
    0,
    4500,
    'm',
    "Give the height of the water's surface above the sea; 0 at the sea.",
  ),
  descentMPerMin: rule(
    'Descent rate',
    3,
    30,
    'm/min',
    'Give the rate at which the party goes down; 18 is usual.',
  ),
  ascentMPerMin: rule(
    'Ascent rate',
    3,
    18,
    'm/min',
    'Give the rate at which the party comes up; 9 is usual.',
  ),
  analysisTolerance: rule('Analysis tolerance', 0, 0.05, '', 'Write it as a fraction: 0.01 for one percent.'),
  surfaceRateLpm: rule(
    'Surface gas rate',
    3,
    100,
    'L/min',
    'Give what the diver breathes at the surface; 15 to 20 is usual.',
  ),
  waterL: rule('Cylinder size', 1, 60, 'L', 'Give the water volume of the cylinder; 12 is usual.'),
  fillBar: rule('Fill pressure', 20, 350, 'bar', 'Give the gauge pressure of a full cylinder; 200 is usual.'),
  reserveBar: rule(
    'Reserve',
    0,
    200,
    'bar',
    'Give the pressure that has to be left at the surface; 50 is usual.',
  ),
  maxDepthM: rule(
    'Depth limit',
    1,
    100,
    'm',
    'Give the depth to which the diver may go by training and choice.',
  ),
  maxO2: rule('Oxygen ceiling', 0.21, 1, '', 'Write it as a fraction: 0.4 for 40 %.'),
  workingPo2: rule(
    'Working PO2',
    0.5,
    1.6,
    'bar',
    'Give the limit for the working part of a dive; 1.4 is usual.',
  ),
  contingencyPo2: rule('Contingency PO2', 0.5, 1.6, 'bar', 'Give the limit never to pass; 1.6 is usual.'),
  gradient: rule('Gradient factor', 0.1, 1, '', 'Write it as a fraction: 0.8 for 80 %.'),
  siteDepthM: rule('Depth of the site', 1, 100, 'm', 'Give the depth that is dived at this site.'),
  latitude: rule('Latitude', -90, 90, '', 'Give degrees, south negative.'),
  longitude: rule('Longitude', -180, 180, '', 'Give degrees, west negative.'),
  o2: rule('Oxygen', 0.2, 1, '', 'Write it as a fraction: 0.32 for 32 %, 0.21 for air.'),
  costPerFill: rule(
    'Cost of a fill',
    0,
    1_000_000,
    '',
    'Give the price of one fill; 0 where it costs nothing.',
  ),
  depthM: rule('Depth', 1, 100, 'm', 'Give the deepest point of the dive.'),
  bottomMin: rule(
    'Bottom time',
    1,
    720,
    'min',
    'Give the minutes from leaving the surface to leaving the bottom.',
  ),
  levelDepthM: rule('Depth of the level', 1, 100, 'm', 'Give the depth at which the level is dived.'),
  levelMin: rule(
    'Time of the level',
    0.5,
    720,
    'min',
    'Give the minutes, the travel to this level included.',
  ),
  stopDepthM: rule(
    'Depth of the safety stop',
    1,
    30,
    'm',
    'Give the depth of the stop, 5 is usual; or null for none.',
  ),
  stopMin: rule('Time of the safety stop', 0.5, 60, 'min', 'Give its minutes, 3 is usual; or null for none.'),
  turnShare: rule(
    'Turn share',
    0.05,
    1,
    '',
    'Write it as a fraction: 0.5 turns at half the gas above the minimum.',
  ),
} as const satisfies Record<string, NumberRule>;

export type NumberField = keyof typeof NUMBER_RULES;

function rule(label: string, min: number, max: number, unit: string, mend: string): NumberRule {
  return { label, min, max, unit, mend };
}

/** A value as a person would name it, short enough for a message. */
export function shown(value: unknown): string {
  if (value === undefined) return 'missing';
  if (value === null) return 'null';
  if (typeof value === 'string')
    return `the text "${value.length > 40 ? `${value.slice(0, 40)}...` : value}"`;
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : 'not a finite number';
  if (typeof value === 'boolean') return String(value);
  return Array.isArray(value) ? 'a list' : 'an object';
}

/**
 * Judges one number of the document, for the schema and for a field of the window alike.
 * @param field which number @param value anything at all
 * @returns null where it may stand; else what is wrong and how to mend it
 * Source: ranges as in `NUMBER_RULES`.
 */
export function numberTrouble(field: NumberField, value: unknown): FieldTrouble | null {
  const { label, min, max, unit, mend }: NumberRule = NUMBER_RULES[field];
  if (typeof value !== 'number') {
    const numeric = typeof value === 'string' && value.trim() !== '' && Number.isFinite(Number(value));
    return {
      what: value === undefined ? `${label} is missing.` : `${label} is ${shown(value)}, not a number.`,
      mend: numeric ? 'Write the number without quotation marks.' : mend,
    };
  }
  if (!Number.isFinite(value)) return { what: `${label} is not a finite number.`, mend };
  if (value >= min && value <= max) return null;
  const withUnit = unit === '' ? '' : ` ${unit}`;
  return { what: `${label} is ${value}${withUnit}; it can be ${min} to ${max}${withUnit}.`, mend };
}

const WALL_TIME = /^(\d{4})-\d\d-\d\dT\d\d:\d\d$/;

/** A minute that exists in every month: asked first, as each edit asks for every time of the trip. */
const IN_EVERY_MONTH = /-(0[1-9]|1[0-2])-(0[1-9]|1\d|2[0-8])T([01]\d|2[0-3]):[0-5]\d$/;

/** Years a trip may lie in; they keep minutes since 1970 small and catch slips of the pen. */
const FIRST_YEAR = 1970;
const LAST_YEAR = 2199;

/**
 * Judges wall-clock text.
 * @param label what the time is, "Start" @param value anything at all
 * @returns null for a minute that exists in the calendar; else what is wrong and how to mend it
 * Source: ISO 8601 calendar, through the calendar package.
 */
export function wallTimeTrouble(label: string, value: unknown): FieldTrouble | null {
  const mend = 'Write date and time at the trip\'s place as "2027-03-06T07:30".';
  if (value === undefined) return { what: `${label} is missing.`, mend };
  const match = typeof value === 'string' ? WALL_TIME.exec(value) : null;
  if (!match) return { what: `${label} is ${shown(value)}, not a date and time.`, mend };
  const year = Number(match[1]);
  if (year < FIRST_YEAR || year > LAST_YEAR) {
    return { what: `${label} is in the year ${year}; it can be ${FIRST_YEAR} to ${LAST_YEAR}.`, mend };
  }
  if (IN_EVERY_MONTH.test(match[0])) return null;
  try {
    Temporal.PlainDateTime.from(match[0], { overflow: 'reject' });
    return null;
  } catch {
    return { what: `${label} is ${match[0]}, which does not exist in the calendar.`, mend };
  }
}

/**
 * Judges a text by length.
 * @param label what the text is @param value anything at all @param max characters allowed
 * @param min 1 where something must be written
 * Source: lengths are ours: what slates and lists can hold.
 */
export function textTrouble(label: string, value: unknown, max: number, min: 0 | 1): FieldTrouble | null {
  if (typeof value !== 'string') {
    return {
      what: value === undefined ? `${label} is missing.` : `${label} is ${shown(value)}, not text.`,
      mend: 'Write it as text in quotation marks.',
    };
  }
  if (value.length > max) {
    return {
      what: `${label} has ${value.length} characters; it can have ${max}.`,
      mend: max > 1000 ? 'Shorten it.' : 'Shorten it; longer text fits into the notes.',
    };
  }
  if (min === 1 && value.trim() === '')
    return { what: `${label} is empty.`, mend: 'Write at least one letter.' };
  return null;
}
