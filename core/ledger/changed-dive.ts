import { effectiveDive, type EffectiveDive } from '../document/as-dived';
import type { Trip } from '../document/types';
import { surroundingsAt } from '../document/waters';
import { surroundingsOf, type ProfileShape, type Sample } from '../profile';
import { atSurface } from './at-surface';
import { divePlan, newDivePlan } from './dive-plan';
import { step } from './entry';
import type { FoldContext } from './fold-context';
import type { Entry } from './ledger-types';

/** The shape of an entry's dive, as dived where that is known. */
export function shapeOf({ dive, diver }: Pick<Entry, 'dive' | 'diver'>): ProfileShape {
  return effectiveDive(dive, diver).shape;
}

function contextOf(trip: Trip, { diver }: Entry): FoldContext {
  return { trip, diver, surface: atSurface(trip, surroundingsOf(trip).column.surfaceBar) };
}

/** The same dive with another profile, as its entry in the same ledger. */
export function entryWith(trip: Trip, entry: Entry, shape: ProfileShape): Entry {
  const effective: EffectiveDive = { ...effectiveDive(entry.dive, entry.diver), shape };
  const plan = divePlan(shape, surroundingsAt(trip, entry.dive));
  const context = contextOf(trip, entry);
  return step(context, entry.from, entry.dive, effective, entry.mix, plan);
}

/** The same dive begun so many minutes sooner, as its entry after the same dives; negative is later. */
export function entrySooner(trip: Trip, entry: Entry, byMin: number): Entry {
  const effective = effectiveDive(entry.dive, entry.diver);
  const moved: EffectiveDive = { ...effective, startMin: entry.startMin - byMin };
  const plan = newDivePlan(effective.shape, surroundingsAt(trip, entry.dive));
  const context = contextOf(trip, entry);
  return step(context, entry.from, entry.dive, moved, entry.mix, plan);
}

/**
 * A recorded dive that stayed so much longer where it left the bottom, or where no way up can be told from its bottom
 * time, at its last depth under water.
 */
function longerRecord(shape: ProfileShape, samples: readonly Sample[], byMin: number): ProfileShape {
  const found = samples.findIndex(([min]) => min > shape.bottomMin);
  const at = found < 0 ? samples.findLastIndex(([, depthM]) => depthM > 0) + 1 : found;
  const [before, after] = [samples[at - 1]!, samples[at]!];
  const leftMin = found < 0 ? before[0] : shape.bottomMin;
  const share = (leftMin - before[0]) / (after[0] - before[0]);
  const leftM = before[1] + share * (after[1] - before[1]);
  const wayUp = samples.slice(at).map(([min, depthM]): Sample => [min + byMin, depthM]);
  const bottom = samples.slice(0, before[0] === leftMin ? at - 1 : at);
  const stay: readonly Sample[] = [
    [leftMin, leftM],
    [leftMin + byMin, leftM],
  ];
  return { ...shape, bottomMin: shape.bottomMin + byMin, samples: [...bottom, ...stay, ...wayUp] };
}

/** The shape with its last level longer. */
export function longer(shape: ProfileShape, byMin: number): ProfileShape {
  const stop = shape.safetyStop === undefined ? {} : { safetyStop: shape.safetyStop };
  const { legs, samples } = shape;
  if (samples) return longerRecord(shape, samples, byMin);
  if (legs === undefined) return { depthM: shape.depthM, bottomMin: shape.bottomMin + byMin, ...stop };
  const last = legs[legs.length - 1]!;
  return {
    depthM: shape.depthM,
    bottomMin: shape.bottomMin + byMin,
    legs: [...legs.slice(0, -1), { depthM: last.depthM, min: last.min + byMin }],
    ...stop,
  };
}

/** What was at the surface stays there, and nothing rises above it. */
function deeperSample([min, depthM]: Sample, byM: number): Sample {
  return [min, depthM === 0 ? 0 : Math.max(0, depthM + byM)];
}

/** The shape with every level deeper by the same. */
export function deeper(shape: ProfileShape, byM: number): ProfileShape {
  const stop = shape.safetyStop === undefined ? {} : { safetyStop: shape.safetyStop };
  return {
    depthM: shape.depthM + byM,
    bottomMin: shape.bottomMin,
    ...(shape.samples && { samples: shape.samples.map((sample) => deeperSample(sample, byM)) }),
    ...(shape.legs && { legs: shape.legs.map((leg) => ({ depthM: leg.depthM + byM, min: leg.min })) }),
    ...stop,
  };
}
