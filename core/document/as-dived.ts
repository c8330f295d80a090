import { wallMin, type WallMin } from '../words/calendar';
import type { ProfileShape } from '../profile';
import type { AsDived, Dive, Diver, Id, Mix } from './types';

/** What a diver did or will do on a dive: the plan, or what really happened where that is known. */
export interface EffectiveDive {
  readonly shape: ProfileShape;
  readonly startMin: WallMin;
  /** Oxygen fraction analysed from the cylinder of this dive. */
  readonly analysedO2: number | null;
  /** What was analysed as a mix of its own, for a dive on which none of the trip's may be taken. */
  readonly analysedMix: Mix | null;
  /** Depth, time or start were really dived; an analysis alone leaves a dive planned. */
  readonly isAsDived: boolean;
}

/** Whether a diver takes part. */
export function isOnDive(dive: Dive, diverId: Id): boolean {
  return dive.divers === undefined || dive.divers.includes(diverId);
}

/** A mix known from its cylinder alone. */
export function asAnalysed(o2: number): Mix {
  return { id: 'as analysed', o2, costPerFill: 0, analysedO2: o2 };
}

function overridden(dive: Dive, records: readonly AsDived[]): EffectiveDive {
  // A diver's own record stands over the one for everybody, field by field.
  const record = records.reduce<AsDived>((sum, each) => ({ ...sum, ...each }), {});
  const isSquare = record.depthM !== undefined || record.bottomMin !== undefined;
  const stop = dive.safetyStop === undefined ? {} : { safetyStop: dive.safetyStop };
  return {
    // Levels were a plan; of what was dived only depth and time are known, and a square profile at the
    // deepest point is the careful reading of those.
    shape: isSquare
      ? { depthM: record.depthM ?? dive.depthM, bottomMin: record.bottomMin ?? dive.bottomMin, ...stop }
      : dive,
    startMin: wallMin(record.startsAt ?? dive.startsAt),
    analysedO2: record.o2 ?? null,
    analysedMix: record.o2 === undefined ? null : asAnalysed(record.o2),
    isAsDived: isSquare || record.startsAt !== undefined,
  };
}

/** Divers without a record of their own share one effective dive, and through it one profile and its map. */
const known = new WeakMap<Dive, Map<Id | null, EffectiveDive>>();

/**
 * A dive as it counts for one diver.
 * @returns plan and as-dived records merged; the same object for the same dive and kind of record
 * Source: CONVENTIONS, "A dive": what was dived and what is analysed rules.
 */
export function effectiveDive(dive: Dive, diver: Pick<Diver, 'id'>): EffectiveDive {
  const everybody = dive.asDived?.filter((record) => record.by === undefined) ?? [];
  const own = dive.asDived?.filter((record) => record.by === diver.id) ?? [];
  const key = own.length > 0 ? diver.id : null;
  let byDiver = known.get(dive);
  if (!byDiver) known.set(dive, (byDiver = new Map()));
  let effective = byDiver.get(key);
  if (!effective) byDiver.set(key, (effective = overridden(dive, [...everybody, ...own])));
  return effective;
}
