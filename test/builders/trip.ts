/** Small trips for tests, as plain documents: one diver, one site, air and two enriched mixes, gauge water. */
import { ledger } from '../../core/ledger/ledger';
import type { Ledger } from '../../core/ledger/ledger-types';
import type { Dive, Diver, Mix, Trip } from '../../core/document/types';

export const AIR: Mix = { id: 'air', o2: 0.21, costPerFill: 0 };
export const LEAN: Mix = { id: 'lean', o2: 0.28, costPerFill: 0 };
export const RICH: Mix = { id: 'rich', o2: 0.36, costPerFill: 0 };

/** A diver with gas for anything within reach, so that a test of another rule stays silent about it. */
export function aDiver(change: Partial<Diver> = {}): Diver {
  return {
    id: 'guest-1',
    name: 'Guest 1',
    surfaceRateLpm: 12,
    cylinder: { waterL: 24, fillBar: 230, reserveBar: 50 },
    maxDepthM: 40,
    maxO2: 0.4,
    po2: { working: 1.4, contingency: 1.6 },
    gradient: { low: 0.5, high: 0.8 },
    ...change,
  };
}

let count = 0;

/** A dive to 20 m for 20 minutes on air, the morning of the first day. */
export function aDive(change: Partial<Dive> = {}): Dive {
  count += 1;
  return {
    id: `dive-${count}`,
    siteId: 'wall',
    startsAt: '2027-03-06T08:00',
    depthM: 20,
    bottomMin: 20,
    mix: 'air',
    ...change,
  };
}

/** A trip of these dives. */
export function aTrip(dives: readonly Dive[], change: Partial<Trip> = {}): Trip {
  return {
    format: 'carryover/trip',
    version: 3,
    title: 'A test trip',
    place: '',
    notes: '',
    water: { density: 'gauge', altitudeM: 0 },
    settings: { descentMPerMin: 18, ascentMPerMin: 9, gasLaw: 'ideal', analysisTolerance: 0 },
    party: [aDiver()],
    sites: [{ id: 'wall', name: 'Wall', depthM: 40, notes: '' }],
    mixes: [AIR, LEAN, RICH],
    dives,
    flight: null,
    ...change,
  };
}

/** The ledger of a trip of these dives. */
export function aLedger(dives: readonly Dive[], change: Partial<Trip> = {}): Ledger {
  return ledger(aTrip(dives, change));
}
