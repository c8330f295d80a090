import {
  either,
  NOTHING,
  range,
  said,
  typed,
  usual,
  type Piece,
  type Said,
  type SaidTrouble,
  type Typed,
  type Usual,
} from '../words/said';

/** In a file a dive says by null that it has no stop; the window has a choice for it. */
const OR_NULL = either(said`; or null for none`, NOTHING);

function usualShare(share: number): Usual {
  return usual('share', [share], [share]);
}

/** Shares are fractions in a file and percentages in the window. */
function shareMend(example: Said, inWindow: Said): Said {
  return said`${either(said`Write it as a fraction: ${example}.`, inWindow)}`;
}

/** The range a number of the trip may lie in; nothing outside is ever bent into it. */
export interface NumberRule {
  readonly label: Said;
  readonly min: number;
  readonly max: number;
  readonly kind: Typed['kind'];
  readonly mend: Said;
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
    said`Water density`,
    'water-density',
    980,
    1250,
    said`${either(
      said`Write "gauge", "salt", "fresh" or a density such as 1025.`,
      said`Sea water has about 1025, fresh water 1000.`,
    )}`,
  ),
  altitudeM: rule(
    said`Altitude`,
    'depth',
    0,
    4500,
    said`Give the height of the water’s surface above the sea; 0 at the sea.`,
  ),
  eventAltitudeM: rule(
    said`Height of the event`,
    'depth',
    0,
    6000,
    said`Give how high the party comes, above the sea: of a road its highest point.`,
  ),
  cabinAltitudeM: rule(
    said`Cabin altitude`,
    'depth',
    0,
    4600,
    said`Give the height that the cabin’s pressure stands for; ${usual('depth', [2438], [8000])} is what an airliner may have.`,
  ),
  descentMPerMin: rule(
    said`Descent rate`,
    'speed',
    3,
    30,
    said`Give the rate at which the party goes down; ${usual('speed', [18], [60])} is usual.`,
  ),
  ascentMPerMin: rule(
    said`Ascent rate`,
    'speed',
    3,
    18,
    said`Give the rate at which the party comes up; ${usual('speed', [9], [30])} is usual.`,
  ),
  analysisTolerance: rule(
    said`Analysis tolerance`,
    'share',
    0,
    0.05,
    shareMend(said`0.01 for one percent`, said`${usualShare(0.01)} is usual.`),
  ),
  scatterDepthM: rule(
    said`Scatter of depth`,
    'depth',
    0,
    4,
    said`Give the standard deviation of a dive’s depth; ${usual('depth', [1], [3])} is taken where none is given.`,
  ),
  scatterBottomMin: rule(
    said`Scatter of bottom time`,
    'minutes',
    0,
    15,
    said`Give the standard deviation of a dive’s bottom time, in minutes; 2 are taken where none is given.`,
  ),
  scatterStartMin: rule(
    said`Scatter of the start`,
    'minutes',
    0,
    120,
    said`Give the standard deviation of a dive’s start, in minutes; 10 are taken where none is given.`,
  ),
  scatterRateShare: rule(
    said`Scatter of the gas rate`,
    'share',
    0,
    0.2,
    shareMend(said`0.1 for ten percent`, said`${usualShare(0.1)} is taken where none is given.`),
  ),
  scatterO2: rule(
    said`Scatter of the analysis`,
    'share',
    0,
    0.02,
    shareMend(said`0.005 for half a percent`, said`${usualShare(0.005)} is taken where none is given.`),
  ),
  surfaceRateLpm: rule(
    said`Surface gas rate (RMV)`,
    'gas-rate',
    3,
    100,
    said`Give what the diver breathes at the surface; ${usual('gas-rate', [15, 20], [0.5, 0.7])} is usual.`,
  ),
  waterL: rule(
    said`Cylinder size`,
    'cylinder',
    1,
    60,
    said`Give the ${either(said`water volume`, said`size`)} of the cylinder; ${usual('cylinder', [12], [80])} is usual.`,
  ),
  fillBar: rule(
    said`Fill pressure`,
    'pressure',
    20,
    350,
    said`Give the gauge pressure of a full cylinder; ${usual('pressure', [200], [3000])} is usual.`,
  ),
  reserveBar: rule(
    said`Reserve`,
    'pressure',
    0,
    200,
    said`Give the pressure that has to be left at the surface; ${usual('pressure', [50], [700])} is usual.`,
  ),
  endBar: rule(
    said`Pressure left`,
    'pressure',
    0,
    350,
    said`Give the gauge pressure at the surface after the dive.`,
  ),
  maxDepthM: rule(
    said`Depth limit`,
    'depth',
    1,
    100,
    said`Give the depth to which the diver may go by training and choice.`,
  ),
  afterMin: rule(
    said`Entry after the first`,
    'minutes',
    0,
    240,
    said`Give how long after the start of a dive the group enters; 0 with the first.`,
  ),
  notForUnderM: rule(
    said`Least depth limit`,
    'depth',
    1,
    100,
    said`Give the depth limit that a diver needs at least for this site.`,
  ),
  maxO2: rule(
    said`Oxygen ceiling`,
    'share',
    0.21,
    1,
    shareMend(
      said`0.4 for 40 %`,
      said`Give the richest mix the diver may breathe; ${usualShare(0.4)} is usual.`,
    ),
  ),
  workingPo2: rule(
    said`Working PO2`,
    'po2',
    0.5,
    1.6,
    said`Give the limit for the working part of a dive; ${usual('po2', [1.4], [1.4])} is usual.`,
  ),
  contingencyPo2: rule(
    said`Contingency PO2`,
    'po2',
    0.5,
    1.6,
    said`Give the limit never to pass; ${usual('po2', [1.6], [1.6])} is usual.`,
  ),
  gradient: rule(
    said`Gradient factor`,
    'share',
    0.1,
    1,
    shareMend(
      said`0.8 for 80 %`,
      said`${usual('share', [0.5], [0.5])} at the first stop and ${usualShare(0.8)} at the surface is usual.`,
    ),
  ),
  siteDepthM: rule(
    said`Depth of the site`,
    'depth',
    1,
    100,
    said`Give the depth that is dived at this site.`,
  ),
  latitude: rule(said`Latitude`, 'plain', -90, 90, said`Give degrees, south negative.`),
  longitude: rule(said`Longitude`, 'plain', -180, 180, said`Give degrees, west negative.`),
  o2: rule(
    said`Oxygen`,
    'share',
    0.2,
    1,
    shareMend(
      said`0.32 for 32 %, 0.21 for air`,
      said`Give the share of oxygen in the mix; air has ${usualShare(0.21)}.`,
    ),
  ),
  costPerFill: rule(
    said`Cost of a fill`,
    'plain',
    0,
    1_000_000,
    said`Give the price of one fill; 0 where it costs nothing.`,
  ),
  depthM: rule(said`Depth`, 'depth', 1, 100, said`Give the deepest point of the dive.`),
  bottomMin: rule(
    said`Bottom time`,
    'minutes',
    1,
    720,
    said`Give the minutes from leaving the surface to leaving the bottom.`,
  ),
  levelDepthM: rule(
    said`Depth of the level`,
    'depth',
    1,
    100,
    said`Give the depth at which the level is dived.`,
  ),
  levelMin: rule(
    said`Time of the level`,
    'minutes',
    0.5,
    720,
    said`Give the minutes, the travel to this level included.`,
  ),
  stopDepthM: rule(
    said`Depth of the safety stop`,
    'depth',
    1,
    30,
    said`Give the depth of the stop, ${usual('depth', [5], [15])} is usual${OR_NULL}.`,
  ),
  stopMin: rule(
    said`Time of the safety stop`,
    'minutes',
    0.5,
    60,
    said`Give its minutes, ${usual('minutes', [3], [3])} is usual${OR_NULL}.`,
  ),
  turnShare: rule(
    said`Turn share`,
    'share',
    0.05,
    1,
    shareMend(
      said`0.5 turns at half the gas above the minimum`,
      said`${usualShare(0.5)} turns at half the gas above the minimum.`,
    ),
  ),
  setpointToleranceBar: rule(
    said`Tolerance of the setpoint`,
    'po2',
    0,
    0.2,
    said`Give how far a loop may stray from its setpoint; ${usual('po2', [0.05], [0.05])} is taken where none is given.`,
  ),
  oxygenLpm: rule(
    said`Oxygen used on a loop`,
    'oxygen-rate',
    0.3,
    5,
    said`Give the oxygen that a diver uses up; ${usual('oxygen-rate', [1], [1])} is taken where none is given.`,
  ),
  loopVolumeL: rule(
    said`Gas in a loop`,
    'loop-volume',
    2,
    15,
    said`Give the gas in the loop and the lungs on it; ${usual('loop-volume', [6], [6])} is taken where none is given.`,
  ),
  setpointLowBar: rule(
    said`Low setpoint`,
    'po2',
    0.4,
    1.6,
    said`Give the oxygen pressure held above the switch depth; ${usual('po2', [0.7], [0.7])} is usual.`,
  ),
  setpointHighBar: rule(
    said`High setpoint`,
    'po2',
    0.4,
    1.6,
    said`Give the oxygen pressure held at the switch depth and below; ${usual('po2', [1.2, 1.3], [1.2, 1.3])} is usual.`,
  ),
  setpointSwitchM: rule(
    said`Depth of the switch`,
    'depth',
    0,
    100,
    said`Give the depth from which the high setpoint holds; ${usual('depth', [6], [20])} is usual.`,
  ),
  scrubberMin: rule(
    said`Scrubber`,
    'minutes',
    10,
    720,
    said`Give the minutes that a fresh scrubber lasts, as its maker says for the water it is used in.`,
  ),
} as const satisfies Record<string, NumberRule>;

export type NumberField = keyof typeof NUMBER_RULES;

function rule(label: Said, kind: Typed['kind'], min: number, max: number, mend: Said): NumberRule {
  return { label, min, max, kind, mend };
}

/** A value as a person would name it, short enough for a message. */
export function shown(value: unknown): Piece {
  if (value === undefined) return said`missing`;
  if (value === null) return 'null';
  if (typeof value === 'string')
    return said`the text "${value.length > 40 ? `${value.slice(0, 40)}...` : value}"`;
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : said`not a finite number`;
  if (typeof value === 'boolean') return String(value);
  return Array.isArray(value) ? said`a list` : said`an object`;
}

/**
 * Judges one number of the document, for the schema and for a field of the window alike.
 * @param field which number @param value anything at all
 * @returns null where it may stand; else what is wrong and how to mend it
 * Source: ranges as in `NUMBER_RULES`.
 */
export function numberTrouble(field: NumberField, value: unknown): SaidTrouble | null {
  const { label, min, max, kind, mend }: NumberRule = NUMBER_RULES[field];
  if (typeof value !== 'number') {
    const numeric = typeof value === 'string' && value.trim() !== '' && Number.isFinite(Number(value));
    return {
      what:
        value === undefined ? said`${label} is missing.` : said`${label} is ${shown(value)}, not a number.`,
      mend: numeric ? said`Write the number without quotation marks.` : mend,
    };
  }
  if (!Number.isFinite(value)) return { what: said`${label} is not a finite number.`, mend };
  if (value >= min && value <= max) return null;
  return {
    what: said`${label} is ${typed(kind, value)}; it can be ${range(kind, min, max)}.`,
    mend,
  };
}
