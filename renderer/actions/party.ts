/** Edits of the divers of a trip, and of who dives what. */
import { failure } from '../../core/result';
import { wallMin, wallText, type WallTime } from '../../core/words/calendar';
import { withLoopsOf } from '../../core/document/loops';
import type { Diver, EarlierDive, Id, Trip } from '../../core/document/types';
import { isSameName } from '../figures/names';
import { newDiver } from '../store/blank-trip';
import { diveNumber } from '../store/selectors';
import { desk } from '../store/store';
import { edit, type EditResult } from './edit';
import { freeId } from './ids';

function nameOf(id: Id): string {
  return desk.getState().trip.party.find((diver) => diver.id === id)?.name ?? id;
}

function editDiver(id: Id, what: string, code: string, change: (diver: Diver) => Diver): EditResult {
  return edit({ label: `${what} of ${nameOf(id)}`, code }, (trip) => {
    const party = trip.party.map((diver) => (diver.id === id ? change(diver) : diver));
    return { ...trip, party };
  });
}

/** Two divers of one name cannot be told apart on any list; a file that has them is still read. */
export function setDiverName(id: Id, name: string): EditResult {
  const { party } = desk.getState().trip;
  const at = party.findIndex((diver) => diver.id !== id && isSameName(diver.name, name));
  if (at !== -1 && nameOf(id) !== name) {
    return failure({
      kind: 'in-use',
      what: `${party[at]!.name} is the name of another diver.`,
      where: `party[${at}].name`,
      mend: 'Give a name by which the two are told apart.',
    });
  }
  return editDiver(id, 'Name', 'diver.name', (diver) => ({ ...diver, name }));
}

export function setSurfaceRate(id: Id, surfaceRateLpm: number): EditResult {
  return editDiver(id, 'Gas rate', 'diver.rate', (diver) => ({ ...diver, surfaceRateLpm }));
}

export function setCylinder(id: Id, patch: Partial<Diver['cylinder']>): EditResult {
  return editDiver(id, 'Cylinder', 'diver.cylinder', (diver) => ({
    ...diver,
    cylinder: { ...diver.cylinder, ...patch },
  }));
}

export function setDepthLimit(id: Id, maxDepthM: number): EditResult {
  return editDiver(id, 'Depth limit', 'diver.depth', (diver) => ({ ...diver, maxDepthM }));
}

export function setOxygenCeiling(id: Id, maxO2: number): EditResult {
  return editDiver(id, 'Oxygen ceiling', 'diver.ceiling', (diver) => ({ ...diver, maxO2 }));
}

export function setPo2Limits(id: Id, patch: Partial<Diver['po2']>): EditResult {
  return editDiver(id, 'PO2 limit', 'diver.po2', (diver) => ({
    ...diver,
    po2: { ...diver.po2, ...patch },
  }));
}

export function setGradient(id: Id, patch: Partial<Diver['gradient']>): EditResult {
  return editDiver(id, 'Gradient', 'diver.gradient', (diver) => ({
    ...diver,
    gradient: { ...diver.gradient, ...patch },
  }));
}

/** When the diver came up from sea level; null: long ago. */
export function setArrival(id: Id, arrivedAt: WallTime | null): EditResult {
  return editDiver(id, 'Arrival', 'diver.arrival', (diver) => {
    const { arrivedAt: _, ...rest } = diver;
    return arrivedAt === null ? rest : { ...rest, arrivedAt };
  });
}

/** One more in the party, on every dive that the whole party dives. The id of the new one, where it was taken. */
export function addDiver(likeId: Id | null): { readonly id: Id; readonly result: EditResult } {
  const { party } = desk.getState().trip;
  const id = freeId('diver-', party);
  const like = party.find((diver) => diver.id === likeId);
  const name = freeName(like ? `${like.name}, copy` : `Diver ${party.length + 1}`, party);
  const diver = like
    ? withoutEarlier({ ...like, id, name })
    : newDiver(id, name, desk.getState().settings.units);
  const result = edit({ label: `New diver ${name}`, code: 'diver.add' }, (trip) => ({
    ...trip,
    party: [...trip.party, diver],
  }));
  return { id, result };
}

/** A copy has the same gear and limits, and a past of its own. */
function withoutEarlier(diver: Diver): Diver {
  const { before: _, arrivedAt: __, ...rest } = diver;
  return rest;
}

function freeName(wish: string, party: readonly Diver[]): string {
  const isTaken = (name: string): boolean => party.some((diver) => isSameName(diver.name, name));
  let name = wish;
  for (let n = 2; isTaken(name); n += 1) name = `${wish} ${n}`;
  return name;
}

/** Takes a diver out of the party and of every dive; refused where a dive would be left without anybody. */
export function removeDiver(id: Id): EditResult {
  const { trip } = desk.getState();
  const name = nameOf(id);
  const at = trip.party.findIndex((diver) => diver.id === id);
  const where = `party[${at}] (diver "${id}")`;
  if (trip.party.length === 1) {
    return failure({
      kind: 'in-use',
      what: `${name} is the whole party.`,
      where,
      mend: 'Add another diver first, or give this one another name.',
    });
  }
  const alone = trip.dives.filter((dive) => dive.divers?.length === 1 && dive.divers[0] === id);
  if (alone.length > 0) {
    const numbers = alone.map((dive) => diveNumber(trip, dive.id)).join(', ');
    return failure({
      kind: 'in-use',
      what: `${name} dives ${alone.length === 1 ? 'dive' : 'dives'} ${numbers} alone.`,
      where,
      mend: 'Put somebody else on it or remove it first.',
    });
  }
  return edit({ label: `Removal of ${name}`, code: 'diver.remove' }, (before) => withoutDiver(before, id));
}

function withoutDiver(trip: Trip, id: Id): Trip {
  const party = trip.party.filter((diver) => diver.id !== id);
  const dives = trip.dives.map((dive) => {
    const isNamed =
      dive.divers?.includes(id) ||
      [...(dive.asDived ?? []), ...(dive.notDived ?? []), ...(dive.loops ?? [])].some(({ by }) => by === id);
    if (!isNamed) return dive;
    const { divers, asDived, notDived, ...rest } = withLoopsOf(dive, (each) => each !== id);
    const left = divers?.filter((each) => each !== id);
    const records = asDived?.filter(({ by }) => by !== id);
    const missed = notDived?.filter(({ by }) => by !== id);
    return {
      ...rest,
      // Whoever is left is named one by one: "the whole party" would mean others too, later on.
      ...(left === undefined ? {} : { divers: left }),
      ...(records === undefined || records.length === 0 ? {} : { asDived: records }),
      ...(missed === undefined || missed.length === 0 ? {} : { notDived: missed }),
    };
  });
  return { ...trip, party, dives };
}

function editEarlier(
  diverId: Id,
  what: string,
  code: string,
  change: (before: readonly EarlierDive[]) => readonly EarlierDive[],
): EditResult {
  return editDiver(diverId, what, code, (diver) => {
    const { before: held = [], ...rest } = diver;
    const inOrder = change(held).toSorted((a, b) =>
      a.startsAt < b.startsAt ? -1 : a.startsAt > b.startsAt ? 1 : 0,
    );
    return inOrder.length === 0 ? rest : { ...rest, before: inOrder };
  });
}

const DAY_MIN = 1440;
const AIR_O2 = 0.21;

/** A first earlier dive to edit from: the morning before whatever is known of this diver, or of the trip. */
function earlierStart(trip: Trip, diver: Diver | undefined, today: string): WallTime {
  const known = [...(diver?.before ?? []), ...trip.dives].map(({ startsAt }) => startsAt).toSorted();
  const date = (known[0] ?? `${today}T00:00`).slice(0, 10);
  return `${wallText(wallMin(`${date}T00:00`) - DAY_MIN).slice(0, 10)}T10:00`;
}

/** @param today "2027-03-06", for a trip that has no dive yet */
export function addEarlierDive(diverId: Id, today: string): EditResult {
  const { trip } = desk.getState();
  const diver = trip.party.find(({ id }) => id === diverId);
  const startsAt = earlierStart(trip, diver, today);
  return editEarlier(diverId, 'New earlier dive', 'diver.earlier.add', (before) => [
    ...before,
    { id: freeId('before-', before), startsAt, depthM: 18, bottomMin: 40, mix: 'auto', o2: AIR_O2 },
  ]);
}

/** What was breathed: a mix of the trip, or any share of oxygen. */
export type EarlierGas = { readonly mix: 'auto' | Id } | { readonly o2: number };

export function changeEarlierDive(
  diverId: Id,
  diveId: Id,
  patch: Partial<Pick<EarlierDive, 'startsAt' | 'depthM' | 'bottomMin'>> & { readonly gas?: EarlierGas },
): EditResult {
  const { gas, ...plain } = patch;
  return editEarlier(diverId, 'Earlier dive', 'diver.earlier', (before) =>
    before.map((dive) => {
      if (dive.id !== diveId) return dive;
      const changed = { ...dive, ...plain };
      if (gas === undefined) return changed;
      const { o2: _, ...rest } = changed;
      return 'o2' in gas ? { ...rest, mix: 'auto', o2: gas.o2 } : { ...rest, mix: gas.mix };
    }),
  );
}

export function removeEarlierDive(diverId: Id, diveId: Id): EditResult {
  return editEarlier(diverId, 'Removal of an earlier dive', 'diver.earlier.remove', (before) =>
    before.filter(({ id }) => id !== diveId),
  );
}
