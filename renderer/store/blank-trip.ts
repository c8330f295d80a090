import { SAFETY_STOP_BEYOND_M, USUAL_SAFETY_STOP } from '../../core/profile';
import type { Dive, Diver, Trip } from '../../core/document/types';
import { fromUnit, type System } from '../../core/words/quantity';

/**
 * What a new diver and a new trip begin with, round in what the window counts in: whoever counts in feet begins at
 * 100 ft and 3000 psi, not at 98 ft and 2901.
 * Source: the usual values of core/document, common practice.
 */
const GEAR = {
  metric: { surfaceRateLpm: 18, cylinder: { waterL: 12, fillBar: 200, reserveBar: 50 }, maxDepthM: 30 },
  imperial: {
    surfaceRateLpm: fromUnit(0.65, 'gas-rate', 'imperial'),
    cylinder: {
      waterL: fromUnit(80, 'volume', 'imperial') / fromUnit(3000, 'pressure', 'imperial'),
      fillBar: fromUnit(3000, 'pressure', 'imperial'),
      reserveBar: fromUnit(700, 'pressure', 'imperial'),
    },
    maxDepthM: fromUnit(100, 'depth', 'imperial'),
  },
} as const satisfies Record<System, Pick<Diver, 'surfaceRateLpm' | 'cylinder' | 'maxDepthM'>>;

const RATES = {
  metric: { descentMPerMin: 18, ascentMPerMin: 9 },
  imperial: {
    descentMPerMin: fromUnit(60, 'speed', 'imperial'),
    ascentMPerMin: fromUnit(30, 'speed', 'imperial'),
  },
} as const;

/** A diver as they stand before anything is known of them; the usual values, nothing guessed. */
export function newDiver(id: string, name: string, units: System): Diver {
  return {
    id,
    name,
    ...GEAR[units],
    maxO2: 0.4,
    po2: { working: 1.4, contingency: 1.6 },
    gradient: { low: 0.5, high: 0.8 },
  };
}

/** What a new dive says of its safety stop: in feet 15 ft, where a dive that says nothing makes it at 5 m. */
export function usualStop(units: System, depthM: number): Pick<Dive, 'safetyStop'> {
  return units === 'imperial' && depthM > SAFETY_STOP_BEYOND_M
    ? { safetyStop: { ...USUAL_SAFETY_STOP, depthM: fromUnit(15, 'depth', 'imperial') } }
    : {};
}

/** An empty trip to begin one's own with: a diver, air, and nothing else. */
export function blankTrip(units: System = 'metric'): Trip {
  return {
    format: 'carryover/trip',
    version: 3,
    title: 'New trip',
    place: '',
    notes: '',
    water: { density: 'gauge', altitudeM: 0 },
    settings: { ...RATES[units], gasLaw: 'ideal', analysisTolerance: 0 },
    party: [newDiver('diver-1', 'Diver 1', units)],
    sites: [],
    mixes: [{ id: 'air', o2: 0.21, costPerFill: 0 }],
    dives: [],
    flight: null,
  };
}
