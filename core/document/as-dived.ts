import { wallMin, type WallMin } from '../words/calendar';
import { deepestOf, leavesBottomMin, type ProfileShape } from '../profile';
import type { AsDived, Dive, Diver, Id, Mix, NotDived } from './types';

/** What a diver did or will do on a dive: the plan, or what really happened where that is known. */
export interface EffectiveDive {
  readonly shape: ProfileShape;
  readonly startMin: WallMin;
  /** Oxygen fraction analysed from the cylinder of this dive. */
  readonly analysedO2: number | null;
  /** What was analysed as a mix of its own, for a dive on which none of the trip's may be taken. */
  readonly analysedMix: Mix | null;
  /** It was made, as planned or otherwise; an analysis alone leaves a dive planned. */
  readonly isAsDived: boolean;
  /** It was made, and start, depth and time as planned. */
  readonly isAsPlanned: boolean;
  /** Gauge pressure left at the surface; null where it was not read. */
  readonly endBar: number | null;
}

/** Whether a dive is planned for a diver. */
export function isOnDive(dive: Pick<Dive, 'divers'>, diverId: Id): boolean {
  return dive.divers === undefined || dive.divers.includes(diverId);
}

/**
 * Who missed a dive that was planned for a diver, as far as it is the diver.
 * @returns the diver's own line, else the one for everybody; null where the diver made the dive or still may
 */
export function missedDive(dive: Pick<Dive, 'divers' | 'notDived'>, diverId: Id): NotDived | null {
  if (dive.notDived === undefined || !isOnDive(dive, diverId)) return null;
  const own = dive.notDived.find(({ by }) => by === diverId);
  return own ?? dive.notDived.find(({ by }) => by === undefined) ?? null;
}

/** Whether a diver makes a dive, or made it: it is planned for them, and they did not miss it. */
export function makesDive(dive: Pick<Dive, 'divers' | 'notDived'>, diverId: Id): boolean {
  return isOnDive(dive, diverId) && missedDive(dive, diverId) === null;
}

/**
 * Whether a record says that a dive was made. An analysis alone does not: a cylinder is analysed before it is dived.
 * Source: README, "File formats".
 */
export function saysDived(record: { readonly [Key in keyof AsDived]?: unknown }): boolean {
  const { startsAt, depthM, bottomMin, endBar, o2, samples } = record;
  return (
    [startsAt, depthM, bottomMin, endBar, samples].some((each) => each !== undefined) || o2 === undefined
  );
}

/** A mix known from its cylinder alone. */
export function asAnalysed(o2: number): Mix {
  return { id: 'as analysed', o2, costPerFill: 0, analysedO2: o2 };
}

function withoutProfile(record: AsDived): AsDived {
  const rest: { -readonly [Key in keyof AsDived]: AsDived[Key] } = { ...record };
  delete rest.samples;
  return rest;
}

/** A dive as its record has it. */
function recordedShape(
  samples: NonNullable<AsDived['samples']>,
  bottomMin: number | undefined,
  stop: Pick<ProfileShape, 'safetyStop'>,
): ProfileShape {
  return { depthM: deepestOf(samples), bottomMin: bottomMin ?? leavesBottomMin(samples), samples, ...stop };
}

function overridden(dive: Dive, records: readonly AsDived[], afterMin: number): EffectiveDive {
  // A diver's own record stands over the one for everybody, field by field; but a depth or a time of one's own says that
  // the profile of everybody was another.
  const record = records.reduce<AsDived>((sum, each) => {
    const isOther = each.samples === undefined && (each.depthM !== undefined || each.bottomMin !== undefined);
    return { ...(isOther ? withoutProfile(sum) : sum), ...each };
  }, {});
  const isAsDived = records.some(saysDived);
  const isSquare = record.depthM !== undefined || record.bottomMin !== undefined;
  const stop = dive.safetyStop === undefined ? {} : { safetyStop: dive.safetyStop };
  return {
    // Levels were a plan; of what was dived only depth and time are known, and a square profile at the
    // deepest point is the careful reading of those.
    shape: record.samples
      ? recordedShape(record.samples, record.bottomMin, stop)
      : isSquare
        ? { depthM: record.depthM ?? dive.depthM, bottomMin: record.bottomMin ?? dive.bottomMin, ...stop }
        : dive,
    // A start that was written down is the diver's own; a planned one is that of the first group in.
    startMin: record.startsAt === undefined ? wallMin(dive.startsAt) + afterMin : wallMin(record.startsAt),
    analysedO2: record.o2 ?? null,
    analysedMix: record.o2 === undefined ? null : asAnalysed(record.o2),
    isAsDived,
    isAsPlanned:
      isAsDived &&
      record.samples === undefined &&
      (record.startsAt ?? dive.startsAt) === dive.startsAt &&
      (record.depthM ?? dive.depthM) === dive.depthM &&
      (record.bottomMin ?? dive.bottomMin) === dive.bottomMin,
    endBar: record.endBar ?? null,
  };
}

/**
 * Divers without a record of their own who enter together share one effective dive, and through it one profile and its
 * map: they are known by their minutes after the start, the others by their id too.
 */
const known = new WeakMap<Dive, Map<string | number, EffectiveDive>>();

/**
 * A dive as it counts for one diver.
 * @returns plan and as-dived records merged; the same object for the same dive and kind of record
 * Source: CONVENTIONS, "A dive": what was dived and what is analysed rules.
 */
export function effectiveDive(dive: Dive, diver: Pick<Diver, 'id' | 'group'>): EffectiveDive {
  const afterMin = diver.group?.afterMin ?? 0;
  const hasOwn = dive.asDived?.some(({ by }) => by === diver.id) === true;
  const key = hasOwn ? `${afterMin} ${diver.id}` : afterMin;
  let byDiver = known.get(dive);
  if (!byDiver) known.set(dive, (byDiver = new Map()));
  let effective = byDiver.get(key);
  if (!effective) {
    const records = dive.asDived ?? [];
    const everybody = records.filter(({ by }) => by === undefined);
    const own = records.filter(({ by }) => by === diver.id);
    byDiver.set(key, (effective = overridden(dive, [...everybody, ...own], afterMin)));
  }
  return effective;
}
