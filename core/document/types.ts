/**
 * The trip document, version 1. Plain, immutable data as it stands in the file, with the defaults that
 * NUMBERS lays down filled in by `readTrip`; keys this version does not know travel along untouched.
 * Units are in the names; fractions run from 0 to 1; times are wall-clock text at the trip's place.
 */

import type { WallTime } from '../words/calendar';

export type Id = string;

export type { WallTime };

export interface Trip {
  readonly format: 'carryover/trip';
  readonly version: 1;
  readonly title: string;
  readonly place: string;
  readonly notes: string;
  readonly water: TripWater;
  readonly settings: TripSettings;
  readonly party: readonly Diver[];
  readonly sites: readonly Site[];
  readonly mixes: readonly Mix[];
  /** In order of planned start; no two dives of one diver overlap. */
  readonly dives: readonly Dive[];
  readonly flight: Flight | null;
}

export interface TripWater {
  /** "gauge" 1019.7 kg/m3 (EN 13319), "salt" 1025, "fresh" 1000, or a density in kg/m3. */
  readonly density: 'gauge' | 'salt' | 'fresh' | number;
  /** Altitude of the water's surface above sea level. */
  readonly altitudeM: number;
}

/** What changes figures travels with the trip, so that window and command agree. */
export interface TripSettings {
  readonly descentMPerMin: number;
  readonly ascentMPerMin: number;
  /** "ideal": content = volume x pressure; "real": with compressibility at 20 degrees Celsius. */
  readonly gasLaw: 'ideal' | 'real';
  /** How far a filled mix may miss its label when the richest mix is chosen, as a fraction: 0 or 0.01. */
  readonly analysisTolerance: number;
}

export interface Diver {
  readonly id: Id;
  readonly name: string;
  /** Surface gas rate (RMV), litres a minute at 1 bar. */
  readonly surfaceRateLpm: number;
  readonly cylinder: Cylinder;
  readonly maxDepthM: number;
  /** Richest oxygen fraction this diver may breathe. */
  readonly maxO2: number;
  readonly po2: { readonly working: number; readonly contingency: number };
  readonly gradient: Gradient;
  /** Dives already done on arrival: same shape as a dive, the site may be left out. */
  readonly before?: readonly EarlierDive[];
  /** When the diver came up to the trip's altitude from sea level; left out: long ago. */
  readonly arrivedAt?: WallTime;
}

export interface Cylinder {
  readonly waterL: number;
  /** Gauge pressures. */
  readonly fillBar: number;
  readonly reserveBar: number;
}

/** Gradient factors: `low` holds at the first stop, `high` at the surface. */
export interface Gradient {
  readonly low: number;
  readonly high: number;
}

export interface Site {
  readonly id: Id;
  readonly name: string;
  readonly depthM: number;
  readonly notes: string;
  readonly position?: { readonly lat: number; readonly lon: number } | null;
}

export interface Mix {
  readonly id: Id;
  /** Oxygen fraction on the label. */
  readonly o2: number;
  readonly costPerFill: number;
  /** Oxygen fraction as analysed; overrides the label everywhere. */
  readonly analysedO2?: number;
}

export interface Level {
  readonly depthM: number;
  /** Minutes, the travel to this level included. */
  readonly min: number;
}

export interface SafetyStop {
  readonly depthM: number;
  readonly min: number;
}

/** What every dive has, planned or done before the trip. */
export interface DiveShape {
  readonly id: Id;
  readonly startsAt: WallTime;
  /** Deepest point; with `legs`, the deepest of them. */
  readonly depthM: number;
  /** From leaving the surface to leaving the bottom; with `legs`, their sum. */
  readonly bottomMin: number;
  /** "auto": for each diver the richest of the trip's mixes that may go there. */
  readonly mix: 'auto' | Id;
  /** The mixes on board that day, which "auto" chooses among; left out: all of the trip's. */
  readonly onBoard?: readonly Id[];
  readonly legs?: readonly Level[];
  /** null: none. Left out: 3 min at 5 m on a dive deeper than 10 m. */
  readonly safetyStop?: SafetyStop | null;
}

export interface Dive extends DiveShape {
  readonly siteId: Id;
  /** Left out: the whole party. */
  readonly divers?: readonly Id[];
  /** Share of the gas above the minimum after which the party turns; left out: a half. */
  readonly turnShare?: number;
  readonly asDived?: readonly AsDived[];
}

export interface EarlierDive extends DiveShape {
  readonly siteId?: Id;
  /** Oxygen fraction that was breathed, where the mix is none of the trip's. */
  readonly o2?: number;
}

/** What really happened, overriding the plan of the dive; what is left out went as planned. */
export interface AsDived {
  /** The diver it holds for; left out: everybody on the dive. */
  readonly by?: Id;
  readonly startsAt?: WallTime;
  readonly depthM?: number;
  readonly bottomMin?: number;
  /** Oxygen fraction as analysed from the cylinder. */
  readonly o2?: number;
}

export interface Flight {
  readonly at: WallTime;
}
