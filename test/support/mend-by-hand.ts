/*
 * What mending looks for, worked out plan by plan from DEVELOPERS.md, "What mending looks for", alone: of
 * core/proposal/mend nothing is used but types. Figures of dives and cautions are the ledger's.
 */
import { cautionsOf } from '../../core/cautions/all';
import type { Dive, Trip } from '../../core/document/types';
import { ledger } from '../../core/ledger/ledger';
import type { Ledger } from '../../core/ledger/ledger-types';
import { roomMinutes } from '../../core/ledger/room';
import { safetyStopOf, surroundingsOf, travelMin } from '../../core/profile';
import type { MendRequest } from '../../core/proposal/mend/request';
import type { Treatment } from '../../core/proposal/mend/moves';

/** A way to treat a dive, and the dive it makes. */
interface Choice {
  readonly treatment: Treatment;
  readonly points: number;
  readonly dive: Dive | null;
}

export interface ByHand {
  /** By dive ahead; null: no plan will do. */
  readonly plan: readonly Treatment[] | null;
  readonly cost: number;
  readonly tried: number;
}

function everyPart<T>(list: readonly T[]): readonly (readonly T[])[] {
  return list.reduce<readonly (readonly T[])[]>(
    (parts, each) => [...parts, ...parts.map((part) => [...part, each])],
    [[]],
  );
}

function upTo(most: number): readonly number[] {
  return Array.from({ length: most + 1 }, (_, i) => i);
}

/** "2027-03-06T08:00" later on the same day; null where it would be another. */
function laterOnDay(startsAt: string, byMin: number): string | null {
  const min = Number(startsAt.slice(11, 13)) * 60 + Number(startsAt.slice(14, 16)) + byMin;
  if (min >= 1440) return null;
  const two = (n: number) => String(n).padStart(2, '0');
  return `${startsAt.slice(0, 11)}${two(Math.floor(min / 60))}:${two(min % 60)}`;
}

/** Whether a diver is on a dive and does not miss it. */
function makes({ divers, notDived = [] }: Dive, id: string): boolean {
  return (divers?.includes(id) ?? true) && !notDived.some(({ by }) => by === undefined || by === id);
}

/** The dive with the moves made; null where they cannot be. */
function moved(trip: Trip, dive: Dive, treatment: Treatment, request: MendRequest): Dive | null {
  const { steps } = request;
  const { later, shallower, shorter, level, mix, leftOut } = treatment;
  const planned = dive.legs ?? [{ depthM: dive.depthM, min: dive.bottomMin }];
  const levels = planned.map(({ depthM, min }, at) => ({
    depthM: depthM - shallower * steps.shallowerM,
    min: at === level ? min - shorter * steps.shorterMin : min,
  }));
  if (shallower > 0 && planned.some((each, at) => levels[at]!.depthM < Math.min(5, each.depthM) - 1e-9))
    return null;
  const bottomMin = dive.bottomMin - shorter * steps.shorterMin;
  if (shorter > 0 && bottomMin < 5) return null;
  const around = surroundingsOf(trip);
  const isReached = levels.every(
    ({ depthM, min }, at) => travelMin(at === 0 ? 0 : levels[at - 1]!.depthM, depthM, around) <= min,
  );
  const startsAt = laterOnDay(dive.startsAt, later * steps.laterMin);
  if (!isReached || startsAt === null) return null;
  const before = dive.divers ?? trip.party.map(({ id }) => id);
  const makers = before.filter((id) => makes(dive, id));
  // Everybody's entry stays on its day as well.
  const staysOnDay = makers.every((id) => {
    const afterMin = trip.party.find((diver) => diver.id === id)!.group?.afterMin ?? 0;
    const entersAt = laterOnDay(dive.startsAt, afterMin);
    return entersAt === null || laterOnDay(dive.startsAt, afterMin + later * steps.laterMin) !== null;
  });
  if (!staysOnDay) return null;
  const out = leftOut.map((place) => trip.party[place]!.id);
  const divers = before.filter((id) => !out.includes(id));
  if (out.length > 0 && makers.length - out.length < Math.min(2, makers.length)) return null;
  const depthM = Math.max(...levels.map((each) => each.depthM));
  const made: Dive = {
    ...dive,
    startsAt,
    depthM,
    bottomMin,
    mix: mix ?? dive.mix,
    ...(dive.legs && { legs: levels }),
    ...(out.length > 0 && {
      divers,
      asDived: (dive.asDived ?? []).filter(({ by }) => !out.includes(by ?? '')),
      loops: (dive.loops ?? []).filter(({ by }) => !out.includes(by)),
    }),
  };
  return dive.safetyStop && safetyStopOf(made) === null ? null : made;
}

const AS_PLANNED: Treatment = {
  isDropped: false,
  later: 0,
  shallower: 0,
  level: 0,
  shorter: 0,
  mix: null,
  leftOut: [],
};

function asPlanned(dive: Dive): Choice {
  return { treatment: AS_PLANNED, points: 0, dive };
}

/** Everything that can be done with a dive. */
function choicesOf(trip: Trip, dive: Dive, request: MendRequest): readonly Choice[] {
  const { reach, costs } = request;
  const analysed = dive.asDived?.some(({ o2 }) => o2 !== undefined) ?? false;
  const others = trip.mixes
    .map(({ id }) => id)
    .filter((id) => id !== dive.mix && (dive.onBoard === undefined || dive.onBoard.includes(id)));
  const places = trip.party.flatMap(({ id }, at) => (makes(dive, id) ? [at] : []));
  if (places.length === 0) return [asPlanned(dive)];
  const choices: Choice[] = [];
  if (reach.drop)
    choices.push({ treatment: { ...AS_PLANNED, isDropped: true }, points: costs.drop, dive: null });
  for (const mix of [null, ...(reach.mix && !analysed ? others : [])]) {
    for (const later of upTo(reach.later)) {
      for (const shallower of upTo(reach.shallower)) {
        for (const shorter of upTo(reach.shorter)) {
          for (const level of shorter === 0 ? [0] : upTo((dive.legs?.length ?? 1) - 1)) {
            for (const leftOut of reach.leaveOut ? everyPart(places) : [[]]) {
              const treatment = { isDropped: false, later, shallower, level, shorter, mix, leftOut };
              const made = moved(trip, dive, treatment, request);
              if (made === null) continue;
              const points =
                later * costs.later +
                shallower * costs.shallower +
                shorter * costs.shorter +
                (mix === null ? 0 : costs.mix) +
                leftOut.length * costs.leaveOut;
              choices.push({ treatment, points, dive: made });
            }
          }
        }
      }
    }
  }
  return choices;
}

/** Which of two treatments of one dive comes first. */
function compare(a: Choice, b: Choice, mixIds: readonly string[]): number {
  const key = ({ treatment: t, points }: Choice): readonly number[] => [
    points > 0 ? 0 : 1,
    points,
    t.isDropped ? 1 : 0,
    t.later,
    t.shallower,
    t.level,
    t.shorter,
    t.mix === null ? -1 : mixIds.indexOf(t.mix),
    t.leftOut.length,
    ...t.leftOut,
  ];
  const [ofA, ofB] = [key(a), key(b)];
  const at = ofA.findIndex((each, i) => each !== ofB[i]);
  return at === -1 ? 0 : ofA[at]! - ofB[at]!;
}

/** Cautions that moves can do something about, each as its code, dive and diver. */
function toMendIn(whole: Ledger, ahead: ReadonlySet<string>): readonly string[] {
  const keys = (of: Ledger): readonly string[] =>
    cautionsOf(of)
      .filter(
        ({ code, severity, diveId }) =>
          severity !== 'know' &&
          (diveId === null
            ? code === 'flight-too-soon' || code === 'flight-before-other-view'
            : ahead.has(diveId)),
      )
      .map(({ code, diveId, diverId }) => `${diveId} ${diverId} ${code}`);
  const all = keys(whole);
  if (!all.some((key) => key.endsWith('other-view'))) return all;
  // What the dives done alone have of it no move reaches.
  const { trip } = whole;
  const byDone = keys(ledger({ ...trip, dives: trip.dives.filter(({ id }) => !ahead.has(id)) }));
  return all.filter((key) => !key.endsWith('other-view') || !byDone.includes(key));
}

/** Whether nothing but what may stay is left to mend, and every dive that was changed keeps its room. */
function isMended(
  trip: Trip,
  touched: ReadonlySet<string>,
  ahead: ReadonlySet<string>,
  mayStay: ReadonlySet<string>,
  leastRoomMin: number,
): boolean {
  const { dives } = trip;
  if (dives.some(({ startsAt }, i) => i > 0 && startsAt < dives[i - 1]!.startsAt)) return false;
  const whole = ledger(trip);
  if (toMendIn(whole, ahead).some((each) => !mayStay.has(each))) return false;
  if (leastRoomMin === 0) return true;
  return whole.divers.every(({ entries }) =>
    entries.every((entry) => {
      if (!touched.has(entry.dive.id)) return true;
      const { min, minLimit } = roomMinutes(trip, entry);
      return min === null ? minLimit === null : min >= leastRoomMin - 1e-6;
    }),
  );
}

/**
 * Every plan in its order, each judged by the ledger, until one will do.
 * @returns null where there are more than `most`
 */
export function mendedByHand(trip: Trip, request: MendRequest, most: number): ByHand | null {
  const done = trip.dives.slice(0, request.doneCount);
  const dives = trip.dives.slice(request.doneCount);
  const mixIds = trip.mixes.map(({ id }) => id);
  const ahead = new Set(dives.map(({ id }) => id));
  // Of one dive alone: its own cautions go, all others may stay, and so do dives up to the last before it with one.
  const { onlyDiveId } = request;
  const before = toMendIn(ledger(trip), ahead);
  const mayStay = new Set(before.filter((each) => onlyDiveId !== null && !each.startsWith(`${onlyDiveId} `)));
  const onlyAt = onlyDiveId === null ? dives.length - 1 : dives.findIndex(({ id }) => id === onlyDiveId);
  const stuckAt =
    onlyDiveId === null
      ? -1
      : dives.findLastIndex(({ id }, at) => at < onlyAt && before.some((each) => each.startsWith(`${id} `)));
  const choices = dives.map((dive, at) => {
    const all = choicesOf(trip, dive, request);
    const open = at > stuckAt && at <= onlyAt;
    return (open ? all : [asPlanned(dive)]).toSorted((a, b) => compare(a, b, mixIds));
  });
  const total = choices.reduce((product, list) => product * list.length, 1);
  if (total > most) return null;
  const planAt = (code: number): readonly Choice[] => {
    const plan: Choice[] = [];
    let rest = code;
    for (const list of choices.toReversed()) {
      plan.unshift(list[rest % list.length]!);
      rest = Math.floor(rest / list.length);
    }
    return plan;
  };
  // Cost, then dives touched; sorting keeps plans alike in both in the order of their first dives.
  const order = Array.from({ length: total }, (_, code) => {
    const plan = planAt(code);
    return {
      code,
      cost: plan.reduce((sum, { points }) => sum + points, 0),
      touched: plan.filter(({ points }) => points > 0).length,
    };
  }).toSorted((a, b) => a.cost - b.cost || a.touched - b.touched || a.code - b.code);
  for (const [tried, { code, cost }] of order.entries()) {
    const plan = planAt(code);
    const touched = new Set(
      plan.flatMap(({ dive, points }) => (dive !== null && points > 0 ? [dive.id] : [])),
    );
    const made: Trip = { ...trip, dives: [...done, ...plan.flatMap(({ dive }) => dive ?? [])] };
    if (!isMended(made, touched, ahead, mayStay, request.leastRoomMin)) continue;
    return { plan: plan.map(({ treatment }) => treatment), cost, tried: tried + 1 };
  }
  return { plan: null, cost: 0, tried: total };
}
