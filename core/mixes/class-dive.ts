import type { Diver, Mix, Trip } from '../document/types';
import { newDivePlan } from '../ledger/dive-plan';
import { eadM, po2Bar } from '../gas';
import { surroundingsOf } from '../profile';
import { restTensions } from '../tissues/compartments';
import { ambientBar } from '../water';
import { nitrogenCurve, type NitrogenCurve } from './nitrogen-curve';
import { usableModM } from './richest';
import { mixOfShare } from './shares';

/** Who dives in class: a first dive, by the settings a new diver has. Source: common practice. */
export const CLASS_DIVER: Diver = {
  id: 'class',
  name: 'A diver',
  surfaceRateLpm: 20,
  cylinder: { waterL: 12, fillBar: 200, reserveBar: 50 },
  maxDepthM: 40,
  maxO2: 0.4,
  po2: { working: 1.4, contingency: 1.6 },
  gradient: { low: 0.5, high: 0.8 },
};

/** Depths that a class can look at, metres. Source: choice of this project; recreational diving ends at 40 m. */
export const CLASS_DEPTHS_M = [3, 42] as const;

/** How long the dive is whose oxygen and gas are worked out in class, minutes. Source: choice of this project. */
export const CLASS_MIN = 25;

/**
 * A trip of one dive for each of some mixes, each by a diver of its own: what the workings of a class are made of.
 * @param depthM metres @param percents whole percents of oxygen
 * @returns in gauge water at sea level; nothing of it is anybody's trip
 * Source: core/gas.ts and the settings a new trip has.
 */
export function classTrip(depthM: number, percents: readonly number[]): Trip {
  const mixes = percents.map((percent): Mix => mixOfShare(percent, []));
  return {
    format: 'carryover/trip',
    version: 3,
    title: 'In class',
    place: '',
    notes: '',
    water: { density: 'gauge', altitudeM: 0 },
    settings: { descentMPerMin: 18, ascentMPerMin: 9, gasLaw: 'ideal', analysisTolerance: 0 },
    party: mixes.map((mix) => ({ ...CLASS_DIVER, id: mix.id })),
    sites: [{ id: 'class', name: 'In class', depthM: Math.max(depthM, CLASS_DEPTHS_M[1]), notes: '' }],
    mixes,
    dives: mixes.map((mix) => ({
      id: mix.id,
      siteId: 'class',
      startsAt: '2027-03-06T09:00',
      depthM,
      bottomMin: CLASS_MIN,
      mix: mix.id,
      divers: [mix.id],
    })),
    flight: null,
  };
}

/** What a mix is at the depth of the class. */
export interface ClassMix {
  readonly mix: Mix;
  readonly po2Bar: number;
  readonly modM: number;
  readonly eadM: number;
  readonly isPastMod: boolean;
  /** Were the depth left after so many minutes of a first dive; meets the limit at the no-stop time. */
  readonly curve: NitrogenCurve;
}

/**
 * The mixes of a class at one depth.
 * @param trip from `classTrip`, of any depth @param depthM metres @param untilMin of the curves @param stepMin of them
 * @returns in order of the trip's mixes
 * Source: core/gas.ts; core/ascent/no-stop-limit.ts from rest.
 */
export function classMixes(
  trip: Trip,
  depthM: number,
  untilMin: number,
  stepMin: number,
): readonly ClassMix[] {
  const around = surroundingsOf(trip);
  // The last level goes on past whatever is planned: here not at all.
  const plan = newDivePlan({ depthM, bottomMin: depthM / around.descentMPerMin }, around);
  const before = restTensions(around.column.surfaceBar);
  return trip.mixes.map((mix) => {
    const mod = usableModM(mix, CLASS_DIVER, trip, around);
    return {
      mix,
      po2Bar: po2Bar(mix.o2, ambientBar(depthM, around.column)),
      modM: mod,
      eadM: eadM(mix.o2, depthM, around.column),
      isPastMod: depthM > mod + 1e-9,
      curve: nitrogenCurve(
        { plan, before, o2: mix.o2, gradientHigh: CLASS_DIVER.gradient.high },
        untilMin,
        stepMin,
      ),
    };
  });
}
