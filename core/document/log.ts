/**
 * Logging a dive: what stands in a record of what was dived, and how an entry changes it. Records keep only what differs
 * from what holds anyway, so that "as planned" stays a record without overrides.
 */
import { isOnDive, missedDive, saysDived } from './as-dived';
import type { AsDived, Dive, Id, NotDived } from './types';

/** What is read off a computer, a gauge and an analyser. */
export type LogField = Exclude<keyof AsDived, 'by' | 'samples'>;

/** Of one diver and one dive: not planned for them, ahead, made, or missed. */
export type LogState = 'absent' | 'planned' | 'as-planned' | 'otherwise' | 'missed';

/** Whose entry: a diver's, or everybody's who has none of their own. */
export type LoggedBy = Id | null;

type Figures = Omit<AsDived, 'by'>;

/** The record of a diver, or the one for everybody; empty where there is none. */
export function recordOf(dive: Dive, by: LoggedBy): Figures | null {
  const found = dive.asDived?.find((record) => (record.by ?? null) === by);
  if (found === undefined) return null;
  const { by: _, ...record } = found;
  return record;
}

/** What holds for an entry that says nothing itself: everybody's record, then the plan. */
function inherited<Key extends LogField>(dive: Dive, by: LoggedBy, field: Key): AsDived[Key] | undefined {
  const everybodys = by === null ? undefined : recordOf(dive, null)?.[field];
  if (everybodys !== undefined) return everybodys;
  return field === 'endBar' || field === 'o2' ? undefined : (dive[field as 'startsAt'] as AsDived[Key]);
}

/** What an entry says of a field, and whether it says it itself. */
export function loggedValue<Key extends LogField>(
  dive: Dive,
  by: LoggedBy,
  field: Key,
): { readonly value: AsDived[Key] | undefined; readonly isOwn: boolean } {
  const own = recordOf(dive, by)?.[field];
  return own === undefined
    ? { value: inherited(dive, by, field), isOwn: false }
    : { value: own, isOwn: true };
}

/** How far an entry is. @param by null: as the record for everybody says it */
export function logState(dive: Dive, by: LoggedBy): LogState {
  if (by !== null && !isOnDive(dive, by)) return 'absent';
  const missed = by === null ? dive.notDived?.find((each) => each.by === undefined) : missedDive(dive, by);
  if (missed) return 'missed';
  const records = (dive.asDived ?? []).filter((record) => record.by === undefined || record.by === by);
  if (!records.some(saysDived)) return 'planned';
  const differs = (['startsAt', 'depthM', 'bottomMin'] as const).some(
    (field) => loggedValue(dive, by, field).value !== dive[field],
  );
  return differs ? 'otherwise' : 'as-planned';
}

function without<T extends object, Key extends keyof T>(value: T, key: Key): Omit<T, Key> {
  const { [key]: _, ...rest } = value;
  return rest;
}

function withRecord(dive: Dive, by: LoggedBy, record: Figures | null): Dive {
  const others = (dive.asDived ?? []).filter((each) => (each.by ?? null) !== by);
  if (record === null) return others.length === 0 ? without(dive, 'asDived') : { ...dive, asDived: others };
  return { ...dive, asDived: by === null ? [record, ...others] : [...others, { by, ...record }] };
}

function withMissed(dive: Dive, missed: readonly NotDived[]): Dive {
  return missed.length === 0 ? without(dive, 'notDived') : { ...dive, notDived: missed };
}

/** The dive with a diver on it who was not, and did not miss it. */
function joined(dive: Dive, by: LoggedBy, party: readonly Id[]): Dive {
  const isNew = by !== null && dive.divers !== undefined && !dive.divers.includes(by);
  const divers = isNew ? party.filter((id) => id === by || dive.divers!.includes(id)) : dive.divers;
  const there =
    !isNew || divers === undefined
      ? dive
      : divers.length === party.length
        ? without(dive, 'divers')
        : { ...dive, divers };
  return unmissed(there, by, party);
}

/** The dive as not missed by a diver, or by all where everybody is meant; who else missed it still did. */
function unmissed(dive: Dive, by: LoggedBy, party: readonly Id[]): Dive {
  const missed = dive.notDived;
  if (missed === undefined) return dive;
  const forAll = missed.find((each) => each.by === undefined);
  if (by === null)
    return withMissed(
      dive,
      missed.filter((each) => each.by !== undefined),
    );
  const own = missed.filter((each) => each.by !== undefined && each.by !== by);
  if (forAll === undefined) return withMissed(dive, own);
  const others = party.filter((id) => id !== by && isOnDive(dive, id) && !own.some((each) => each.by === id));
  return withMissed(dive, [...own, ...others.map((id) => ({ ...forAll, by: id }))]);
}

/**
 * The dive as not missed, where a diver had missed it: ahead again, or as everybody did.
 * Source: as `withLogged`.
 */
export function withMade(dive: Dive, by: LoggedBy, party: readonly Id[]): Dive {
  return logState(dive, by) === 'missed' ? unmissed(dive, by, party) : dive;
}

/** A record that says that a dive was made: one of an analysis alone says its start too. */
function made(dive: Dive, by: LoggedBy, record: Figures): Figures {
  return saysDived(record) ? record : { startsAt: inherited(dive, by, 'startsAt')!, ...record };
}

/** The record kept where it says something that everybody's does not. */
function kept(dive: Dive, by: LoggedBy, record: Figures): Dive {
  const isSaid = by !== null && Object.keys(record).length === 0 && saysDivedByAll(dive);
  return withRecord(dive, by, isSaid ? null : record);
}

function saysDivedByAll(dive: Dive): boolean {
  const everybodys = recordOf(dive, null);
  return everybodys !== null && saysDived(everybodys);
}

/**
 * An entry with a figure of it given, or taken back. What is given puts a diver on the dive who was not, and takes back
 * that they missed it; a figure that says what holds anyway says that the dive was made.
 * @param value in the unit of the field; undefined takes it back, and with the last one the entry
 * @param party ids of the whole party, in its order
 * Source: README, "File formats".
 */
export function withLogged<Key extends LogField>(
  dive: Dive,
  by: LoggedBy,
  field: Key,
  value: AsDived[Key] | undefined,
  party: readonly Id[],
): Dive {
  const record: { -readonly [K in keyof Figures]: Figures[K] } = { ...recordOf(dive, by) };
  if (value === undefined) {
    if (record[field] === undefined) return dive;
    delete record[field];
    return withRecord(dive, by, Object.keys(record).length === 0 ? null : record);
  }
  const there = joined(dive, by, party);
  // A dive that was not planned has nothing to differ from: what everybody did is what it was.
  if (
    by === null &&
    dive.added === true &&
    (field === 'startsAt' || field === 'depthM' || field === 'bottomMin')
  ) {
    const plain = without(there, 'legs');
    return kept({ ...plain, [field]: value }, by, made(there, by, without(record, field)));
  }
  // What a computer recorded says by itself how deep and how long: a record keeps both beside its profile.
  const isKept = record.samples !== undefined && (field === 'depthM' || field === 'bottomMin');
  if (!isKept && value === inherited(there, by, field)) {
    delete record[field];
    return kept(there, by, field === 'o2' ? record : made(there, by, record));
  }
  record[field] = value;
  return withRecord(there, by, record);
}

function readOnly({ endBar, o2 }: Figures): Figures {
  return { ...(endBar === undefined ? {} : { endBar }), ...(o2 === undefined ? {} : { o2 }) };
}

/**
 * An entry that says that the dive was made as it holds anyway: as planned, or as everybody did. What was read off gauge
 * and analyser stays. For everybody the entries of single divers are taken back too.
 * Source: as `withLogged`.
 */
export function withAsPlanned(dive: Dive, by: LoggedBy, party: readonly Id[]): Dive {
  const there = joined(dive, by, party);
  if (by !== null) {
    const record = readOnly(recordOf(there, by) ?? {});
    return kept(there, by, saysDivedByAll(there) ? record : made(there, by, record));
  }
  const everybodys = made(there, null, readOnly(recordOf(there, null) ?? {}));
  const whole = withRecord(withMissed(there, []), null, everybodys);
  return party.reduce((sum, id) => {
    const own = recordOf(sum, id);
    return own === null ? sum : kept(sum, id, readOnly(own));
  }, whole);
}

/**
 * A dive of which all that is not logged yet went as planned: entries that there are stay.
 * Source: as `withLogged`.
 */
export function withRestAsPlanned(dive: Dive, party: readonly Id[]): Dive {
  if (!party.some((id) => logState(dive, id) === 'planned')) return dive;
  return withRecord(dive, null, made(dive, null, recordOf(dive, null) ?? {}));
}

/** What is left of a record where the dive was not made. */
function analysed(record: Figures | null): Figures | null {
  return record?.o2 === undefined ? null : { o2: record.o2 };
}

/**
 * An entry that says that a dive was missed, by a diver or by all. Analyses stay: a cylinder is analysed before. Of a
 * dive that was not planned a diver is only taken off.
 * @param reason empty where none is given
 * Source: as `withLogged`.
 */
export function withMissedBy(dive: Dive, by: LoggedBy, reason: string, party: readonly Id[]): Dive {
  const why = reason.trim() === '' ? {} : { reason: reason.trim() };
  if (by === null) {
    const bare = [null, ...party].reduce(
      (sum: Dive, id) => withRecord(sum, id, analysed(recordOf(sum, id))),
      dive,
    );
    return withMissed(bare, [why]);
  }
  if (!isOnDive(dive, by)) return dive;
  const left = party.filter((id) => id !== by && isOnDive(dive, id));
  if (dive.added === true && left.length > 0) return { ...withRecord(dive, by, null), divers: left };
  const others = (dive.notDived ?? []).filter((each) => each.by !== by);
  return withMissed(withRecord(dive, by, analysed(recordOf(dive, by))), [...others, { by, ...why }]);
}

/** How much of a day is logged: of the dives that divers are on, those that are made or missed. */
export function logProgress(
  dives: readonly Dive[],
  party: readonly Id[],
): { readonly done: number; readonly all: number } {
  let done = 0;
  let all = 0;
  for (const dive of dives) {
    for (const id of party) {
      const state = logState(dive, id);
      if (state === 'absent') continue;
      all += 1;
      if (state !== 'planned') done += 1;
    }
  }
  return { done, all };
}

/** What a recorded profile says of a dive. */
export type RecordedFigures = Pick<AsDived, 'startsAt' | 'depthM' | 'bottomMin' | 'endBar' | 'o2'> &
  Required<Pick<AsDived, 'samples'>>;

/**
 * An entry with a recorded profile, in the place of start, depth and time there; what was read off gauge and analyser
 * stays where the record says nothing of it.
 * Source: as `withLogged`.
 */
export function withProfile(dive: Dive, by: LoggedBy, recorded: RecordedFigures, party: readonly Id[]): Dive {
  const there = joined(dive, by, party);
  return withRecord(there, by, { ...readOnly(recordOf(there, by) ?? {}), ...recorded });
}
