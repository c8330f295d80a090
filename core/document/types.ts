/**
 * The trip document, version 3. Plain, immutable data as it stands in the file, with its defaults
 * filled in by `readTrip`; keys this version does not know travel along untouched.
 * Units are in the names; fractions run from 0 to 1; times are wall-clock text at the trip's place.
 */

import type { Gradient } from '../ascent/tolerated';
import type { Level, ProfileShape, Rates, Sample } from '../profile';
import type { GasLaw } from '../supply';
import type { Water } from '../water';
import type { WallTime } from '../words/calendar';

export type Id = string;

export interface Trip {
  readonly format: 'carryover/trip';
  readonly version: 3;
  /** What other programs know this trip by, whatever it is called; left out: nobody was told of it. */
  readonly id?: Id;
  readonly title: string;
  readonly place: string;
  readonly notes: string;
  readonly water: Water;
  readonly settings: TripSettings;
  readonly party: readonly Diver[];
  readonly sites: readonly Site[];
  readonly mixes: readonly Mix[];
  /** What prices are in, a sign or letters: "€", "EUR"; left out: not said. */
  readonly currency?: string;
  /** In order of planned start; no two dives of one diver overlap. */
  readonly dives: readonly Dive[];
  readonly flight: Flight | null;
  /** Stays of the party at another height than the trip's water, in order; none of them overlap. */
  readonly events?: readonly TripEvent[];
  /** What is noted of a day; a day of which nothing is noted is left out. */
  readonly days?: readonly DayNotes[];
  /** What is to be known in an emergency; what is left out is a line to write on. */
  readonly emergency?: Emergency;
}

/** The party is at another height for a while: a road over a pass, a lake between days at sea. */
export interface TripEvent {
  readonly id: Id;
  readonly title: string;
  /** When the party is up there, and down again. */
  readonly from: WallTime;
  readonly to: WallTime;
  /** The highest it comes to, metres above the sea. */
  readonly altitudeM: number;
}

/** Whom and what an emergency asks for, in words of the trip's leader. */
export interface Emergency {
  readonly inCharge?: string;
  /** Where it is kept. */
  readonly oxygen?: string;
  readonly chamber?: string;
  readonly telephone?: string;
  readonly doctor?: string;
  /** Channel and call sign. */
  readonly radio?: string;
  readonly position?: string;
  /** How one gets to the chamber, and how long that takes. */
  readonly wayOut?: string;
}

/** A calendar day at the trip's place, "2027-03-06". */
export type DayDate = string;

export interface DayNotes {
  readonly date: DayDate;
  readonly notes: string;
}

/** What changes figures travels with the trip, so that window and command agree. */
export interface TripSettings extends Rates {
  readonly gasLaw: GasLaw;
  /** How far a filled mix may miss its label when the richest mix is chosen, as a fraction: 0 or 0.01. */
  readonly analysisTolerance: number;
  /** Altitude that the cabin of the flight home stands for, metres; left out: 8 000 ft. */
  readonly cabinAltitudeM?: number;
  /** How dives scatter about the plan where that is asked; an amount left out is the usual one. */
  readonly scatter?: Partial<Scatter>;
  /** What holds for every breathing loop; an amount left out is the usual one. */
  readonly loops?: Partial<LoopSettings>;
}

export interface LoopSettings {
  /** How far a loop may stray from its setpoint, bar: nitrogen is reckoned below it by so much, the clocks above it. */
  readonly toleranceBar: number;
  /** Oxygen that a diver on a loop uses up, litres a minute at 1 bar, at any depth. */
  readonly oxygenLpm: number;
  /** Gas in a loop and the lungs on it, litres: what a descent has to fill up. */
  readonly volumeL: number;
}

/** How far what happens lies from what was planned: standard deviations. */
export interface Scatter {
  /** Depth of a dive, all its levels alike. */
  readonly depthM: number;
  /** Bottom time of a dive, at its last level. */
  readonly bottomMin: number;
  readonly startMin: number;
  /** Gas rate of a diver on a dive, as a share of what is planned. */
  readonly rateShare: number;
  /** Oxygen fraction in a diver's cylinder. */
  readonly o2: number;
}

export interface Diver {
  readonly id: Id;
  readonly name: string;
  /** Surface gas rate (RMV), litres a minute at 1 bar. */
  readonly surfaceRateLpm: number;
  /** Rates that hold from a later day on, in order of their days; before the first of them `surfaceRateLpm` does. */
  readonly rates?: readonly RateFrom[];
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
  /** What the diver is trained to, in words of their own: the limits above are what counts. */
  readonly certification?: string;
  /** Number on the diver's cylinder. */
  readonly cylinderNo?: string;
  /** With whom the diver dives; left out: with the party. */
  readonly group?: Group;
  /** The diver's breathing loop, for the dives that say it is taken; left out: open circuit alone. */
  readonly loop?: LoopGear;
}

/** A breathing loop (rebreather) as a diver sets it up, with what is taken along beside it. */
export interface LoopGear {
  readonly setpoints: Setpoints;
  /** A mix of the trip. */
  readonly diluent: Id;
  readonly oxygenCylinder: Cylinder;
  readonly diluentCylinder: Cylinder;
  /** How long a fresh scrubber lasts. */
  readonly scrubberMin: number;
  /** Open-circuit gas for a way up without the loop; each is breathed as deep as its MOD allows, the richest first. */
  readonly bailOut: readonly BailOut[];
  /** Surface gas rate on bail-out; left out: the diver's own. */
  readonly bailOutRateLpm?: number;
}

/** Oxygen pressures that a loop is set to, bar as its cells read them. */
export interface Setpoints {
  /** Above the switch depth. */
  readonly lowBar: number;
  /** At the switch depth and below it. */
  readonly highBar: number;
  readonly switchM: number;
}

export interface BailOut {
  readonly mix: Id;
  readonly cylinder: Cylinder;
}

/** A diver who makes a dive on a loop: what is left out is as the diver's loop has it. */
export interface OnLoop {
  readonly by: Id;
  readonly setpoints?: Setpoints;
  readonly diluent?: Id;
  /** The scrubber is packed afresh before this dive; left out: it goes on from the dive before on the loop. */
  readonly freshScrubber?: boolean;
}

/** Divers of one name dive together, and enter so many minutes after the dive's start. */
export interface Group {
  readonly name: string;
  readonly afterMin: number;
}

/** A gas rate and the first day it holds for: never applied backwards. */
export interface RateFrom {
  readonly from: DayDate;
  readonly surfaceRateLpm: number;
}

export interface Cylinder {
  readonly waterL: number;
  /** Gauge pressures. */
  readonly fillBar: number;
  readonly reserveBar: number;
}

export interface Site {
  readonly id: Id;
  readonly name: string;
  readonly depthM: number;
  readonly notes: string;
  /** How it is usually dived, in the order of the dive; left out: at its depth. */
  readonly levels?: readonly Level[];
  /** Where to go instead when it cannot be dived. */
  readonly planB?: string;
  /** What is to be said of it before the dive. */
  readonly briefing?: string;
  /** Who may not dive it; left out: nobody. */
  readonly notFor?: NotFor;
  readonly position?: { readonly lat: number; readonly lon: number } | null;
  /** What of its water is not as the trip's; left out: nothing. */
  readonly water?: Partial<Water>;
}

/** Divers who may not dive a site. */
export interface NotFor {
  /** Those whose depth limit is less. */
  readonly depthLimitUnderM?: number;
  /** Those with one of these among what they are trained to. */
  readonly certifications?: readonly string[];
}

export interface Mix {
  readonly id: Id;
  /** Oxygen fraction on the label. */
  readonly o2: number;
  /** In the trip's money. */
  readonly costPerFill: number;
  /** Oxygen fraction as analysed; overrides the label everywhere. */
  readonly analysedO2?: number;
}

/** What every dive has, planned or done before the trip. */
export interface DiveShape extends ProfileShape {
  readonly id: Id;
  readonly startsAt: WallTime;
  /** "auto": for each diver the richest of the trip's mixes that can be used there. */
  readonly mix: 'auto' | Id;
  /** The mixes on board that day, which "auto" chooses among; left out: all of the trip's. */
  readonly onBoard?: readonly Id[];
}

export interface Dive extends DiveShape {
  readonly siteId: Id;
  /** Left out: the whole party. */
  readonly divers?: readonly Id[];
  /** Share of the gas above the minimum after which the party turns; left out: a half. */
  readonly turnShare?: number;
  /** Who makes it on a breathing loop; everybody else is on open circuit. */
  readonly loops?: readonly OnLoop[];
  readonly asDived?: readonly AsDived[];
  readonly notDived?: readonly NotDived[];
  /** It was dived without having been planned. */
  readonly added?: boolean;
  readonly notes?: string;
}

export interface EarlierDive extends DiveShape {
  readonly siteId?: Id;
  /** Oxygen fraction that was breathed, where the mix is none of the trip's. */
  readonly o2?: number;
}

/**
 * What really happened, overriding the plan of the dive; what is left out went as planned, and with nothing in it all
 * did. An analysis alone (`o2` and nothing else) was made before the dive and leaves it planned.
 */
export interface AsDived {
  /** The diver it holds for; left out: everybody on the dive. */
  readonly by?: Id;
  readonly startsAt?: WallTime;
  readonly depthM?: number;
  readonly bottomMin?: number;
  /** Gauge pressure left in the cylinder at the surface. */
  readonly endBar?: number;
  /** Oxygen fraction as analysed from the cylinder. */
  readonly o2?: number;
  /** As a computer recorded it, from the surface to the surface; `depthM` is then the deepest of them. */
  readonly samples?: readonly Sample[];
}

/** Who did not make a dive that was planned: it leaves their ledger and stays in the trip. */
export interface NotDived {
  /** Left out: nobody made it. */
  readonly by?: Id;
  readonly reason?: string;
}

export interface Flight {
  readonly at: WallTime;
}
