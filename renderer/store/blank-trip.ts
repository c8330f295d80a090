import type { Diver, Trip } from '../../core/document/types';

/** A diver as they stand before anything is known of them; the usual values of core/document, nothing guessed. */
export function newDiver(id: string, name: string): Diver {
  return {
    id,
    name,
    surfaceRateLpm: 18,
    cylinder: { waterL: 12, fillBar: 200, reserveBar: 50 },
    maxDepthM: 30,
    maxO2: 0.4,
    po2: { working: 1.4, contingency: 1.6 },
    gradient: { low: 0.5, high: 0.8 },
  };
}

/** An empty trip to begin one's own with: a diver, air, and nothing else. */
export function blankTrip(): Trip {
  return {
    format: 'carryover/trip',
    version: 2,
    title: 'New trip',
    place: '',
    notes: '',
    water: { density: 'gauge', altitudeM: 0 },
    settings: { descentMPerMin: 18, ascentMPerMin: 9, gasLaw: 'ideal', analysisTolerance: 0 },
    party: [newDiver('diver-1', 'Diver 1')],
    sites: [],
    mixes: [{ id: 'air', o2: 0.21, costPerFill: 0 }],
    dives: [],
    flight: null,
  };
}
